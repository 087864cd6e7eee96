package onset

import (
	"context"
	"errors"
	"fmt"
	"math"
	"reflect"
	"slices"
	"testing"
)

func measure(t testing.TB, mono []float32, rate int) *Envelope {
	t.Helper()
	e, err := Measure(context.Background(), mono, rate, nil)
	if err != nil {
		t.Fatal(err)
	}
	return e
}

// Irregular, so that no rate's frames favour them.
var hits = []float64{0.5, 0.9137, 1.25, 1.7031, 2.2222, 2.6, 3.1416, 3.5}

func TestStrikesAreFoundWhereTheyAreAtEveryRate(t *testing.T) {
	for _, rate := range []int{8000, 11025, 16000, 22050, 24000, 32000, 44100, 48000, 88200, 96000, 176400, 192000} {
		t.Run(fmt.Sprint(rate), func(t *testing.T) {
			got := measure(t, strikes(rate, 4, hits), rate).Onsets()
			if len(got) != len(hits) {
				t.Fatalf("%d onsets %v, want %d", len(got), got, len(hits))
			}
			bias := 0.0
			for i, o := range got {
				d := o.Time - hits[i]
				bias += d / float64(len(hits))
				if math.Abs(d) > 0.005 {
					t.Errorf("onset %d at %.4f s, want %.4f within 5 ms", i, o.Time, hits[i])
				}
			}
			if math.Abs(bias) > 0.002 {
				t.Errorf("bias %.4f s, want at most 2 ms", bias)
			}
		})
	}
}

func TestOneSampleClickIsFoundAtItsSample(t *testing.T) {
	for _, sample := range []int{22050, 30001, 44099} {
		x := make([]float32, 2*44100)
		x[sample] = 1
		got := measure(t, x, 44100).Onsets()
		want := float64(sample) / 44100
		if len(got) != 1 || math.Abs(got[0].Time-want) > 0.005 {
			t.Errorf("onsets of a click at %.4f s = %v", want, got)
		}
	}
}

func TestEnvelopeDependsOnNeitherRateNorLoudness(t *testing.T) {
	reference := measure(t, strikes(44100, 4, hits), 44100).Sum
	soft := strikes(44100, 4, hits)
	for i := range soft {
		soft[i] /= 200
	}
	for _, tt := range []struct {
		name string
		sum  []float32
	}{
		{"46 dB softer", measure(t, soft, 44100).Sum},
		{"22.05 kHz", measure(t, strikes(22050, 4, hits), 22050).Sum},
		{"48 kHz", measure(t, strikes(48000, 4, hits), 48000).Sum},
		{"192 kHz", measure(t, strikes(192000, 4, hits), 192000).Sum},
	} {
		if c := correlation(reference, tt.sum); c < 0.98 {
			t.Errorf("%s: correlation with 44.1 kHz = %.3f, want at least 0.98", tt.name, c)
		}
	}
}

func correlation(a, b []float32) float64 {
	var ab, aa, bb float64
	for i := range min(len(a), len(b)) {
		ab += float64(a[i]) * float64(b[i])
		aa += float64(a[i]) * float64(a[i])
		bb += float64(b[i]) * float64(b[i])
	}
	return ab / math.Sqrt(aa*bb)
}

func TestStrongerStrikeHasGreaterStrength(t *testing.T) {
	x := make([]float32, 3*44100)
	strike(x, 44100, 1, 1)
	strike(x, 44100, 2, 0.05)
	got := measure(t, x, 44100).Onsets()
	if len(got) != 2 || got[0].Strength != 1 || got[1].Strength >= 0.9 || got[1].Strength <= 0 {
		t.Errorf("onsets of a loud and a soft strike = %v", got)
	}
}

// Partials that beat against each other rise and fall in the middle bands as
// strongly as soft brushes do in the high ones, but nothing is struck.
func TestSoftBrushesAreToldFromABeatingChord(t *testing.T) {
	const rate, seconds = 44100, 6
	x := make([]float32, seconds*rate)
	for i := range x {
		at := float64(i) / rate
		for k, hz := range [...]float64{330, 334.1, 496, 501.3, 660, 664.7} {
			loud := [...]float64{0.06, 0.042}[k%2] * min(1, 4*at, 4*(seconds-at))
			x[i] += float32(loud * math.Sin(2*math.Pi*hz*at))
		}
	}
	hits := []float64{0.9, 1.4, 2.1, 2.6, 3.3, 3.95, 4.4, 5.2}
	brush := noise(rate/20, 0.012)
	for _, hit := range hits {
		begin, last := int(hit*rate), float32(0)
		for i, v := range brush {
			x[begin+i] += (v - last) * float32(math.Exp(-float64(i)/rate/0.012))
			last = v
		}
	}
	got := measure(t, x, rate).Onsets()
	got = slices.DeleteFunc(got, func(o Onset) bool { return o.Time < 0.5 }) // the chord begins
	if len(got) != len(hits) {
		t.Fatalf("%d onsets, want %d: %v", len(got), len(hits), got)
	}
	for i, o := range got {
		if math.Abs(o.Time-hits[i]) > 0.05 {
			t.Errorf("onset %d at %.3f s, want %.3f within 50 ms", i, o.Time, hits[i])
		}
	}
}

func TestSoundsWithoutOnsets(t *testing.T) {
	constant := make([]float32, 44100)
	for i := range constant {
		constant[i] = 0.5
	}
	nan, inf := make([]float32, 44100), make([]float32, 44100)
	for i := range nan {
		nan[i], inf[i] = float32(math.NaN()), float32(math.Inf(1))
	}
	for _, tt := range []struct {
		name string
		mono []float32
	}{
		{"empty", nil},
		{"one sample", []float32{1e-9}},
		{"silence", make([]float32, 44100)},
		{"below -100 dB", noise(44100, 1e-6)},
		{"all NaN", nan},
		{"all infinite", inf},
	} {
		t.Run(tt.name, func(t *testing.T) {
			e := measure(t, tt.mono, 44100)
			if got := e.Onsets(); len(got) != 0 {
				t.Errorf("Onsets = %v, want none", got)
			}
			if !e.Silent() {
				t.Error("not silent")
			}
			if from, to := e.Audible(); from != 0 || to != 0 {
				t.Errorf("Audible = %v, %v, want nothing", from, to)
			}
		})
	}
	t.Run("constant but for its ends", func(t *testing.T) {
		for _, o := range measure(t, constant, 44100).Onsets() {
			if o.Time > 0.05 && o.Time < 0.95 {
				t.Errorf("onset at %v", o.Time)
			}
		}
	})
}

func TestSamplesThatAreNotFiniteCountAsSilence(t *testing.T) {
	want := strikes(44100, 4, hits)
	got := strikes(44100, 4, hits)
	want[60000], want[60001] = 0, 0
	got[60000], got[60001] = float32(math.NaN()), float32(math.Inf(-1))
	if !reflect.DeepEqual(measure(t, got, 44100), measure(t, want, 44100)) {
		t.Error("a sound with NaN and infinity differs from one with zeros there")
	}
}

func TestHugeSamplesAreSafe(t *testing.T) {
	x := strikes(44100, 4, hits)
	for i := range x {
		x[i] *= 1e30
	}
	if got := measure(t, x, 44100).Onsets(); len(got) != len(hits) {
		t.Errorf("%d onsets, want %d", len(got), len(hits))
	}
}

func TestAudibleIsTheSoundingPart(t *testing.T) {
	x := make([]float32, 5*8000)
	copy(x[8000:], noise(2*8000, 0.1))
	from, to := measure(t, x, 8000).Audible()
	if math.Abs(from-1) > 0.005 || math.Abs(to-3) > 0.005 {
		t.Errorf("Audible = %.3f, %.3f, want 1 and 3", from, to)
	}
}

// 45 s is several chunks of work, shared out in no fixed order.
func TestMeasureIsDeterministic(t *testing.T) {
	x := noise(45*8000, 0.1)
	if a, b := measure(t, x, 8000), measure(t, x, 8000); !reflect.DeepEqual(a, b) {
		t.Error("two runs differ")
	}
}

func TestChunksJoinWithoutSeams(t *testing.T) {
	// a steady tone rises nowhere but at its ends
	x := make([]float32, 45*8000)
	for i := range x {
		x[i] = float32(math.Sin(2 * math.Pi * 440 * float64(i) / 8000))
	}
	for n, v := range measure(t, x, 8000).Sum {
		if n > 10 && n < 4490 && v > 0.05 {
			t.Fatalf("strength %v in frame %d of a steady tone", v, n)
		}
	}
}

func TestRatesOutsideTheRangeAreRefused(t *testing.T) {
	for _, rate := range []int{-1, 0, 7999, 192001} {
		if _, err := Measure(context.Background(), noise(100, 1), rate, nil); err == nil {
			t.Errorf("rate %d: no error", rate)
		}
	}
}

func TestMeasureStopsWithItsContext(t *testing.T) {
	ctx, cancel := context.WithCancel(context.Background())
	calls := 0
	_, err := Measure(ctx, noise(120*8000, 0.1), 8000, func(float64) {
		calls++
		cancel()
	})
	if !errors.Is(err, context.Canceled) {
		t.Errorf("err = %v, want %v", err, context.Canceled)
	}
	if calls != 1 {
		t.Errorf("%d chunks were begun, want 1", calls)
	}
}

func TestProgressRises(t *testing.T) {
	last, calls := -1.0, 0
	_, err := Measure(context.Background(), noise(120*8000, 0.1), 8000, func(done float64) {
		if done <= last || done > 1 {
			t.Errorf("progress %v after %v", done, last)
		}
		last = done
		calls++
	})
	if err != nil || calls < 5 {
		t.Errorf("%d calls, error %v", calls, err)
	}
}

func BenchmarkMeasure(b *testing.B) {
	var times []float64
	for t := 0.2; t < 60; t += 0.21 {
		times = append(times, t)
	}
	x := strikes(44100, 60, times)
	b.SetBytes(int64(4 * len(x)))
	b.ReportAllocs()
	for b.Loop() {
		measure(b, x, 44100)
	}
}

func BenchmarkOnsets(b *testing.B) {
	e := measure(b, strikes(44100, 4, hits), 44100)
	b.ReportAllocs()
	for b.Loop() {
		e.Onsets()
	}
}
