package onset

import (
	"context"
	"errors"
	"math"
	"reflect"
	"testing"

	"stillbeat/audio/clip"
)

// taken returns the envelope of a sound that comes in blocks of uneven lengths.
func taken(t testing.TB, rate int, channels ...[]float32) *Envelope {
	t.Helper()
	var in Intake
	if err := in.Begin(clip.Info{Rate: rate, Channels: len(channels)}); err != nil {
		t.Fatal(err)
	}
	for at, run := 0, 1; at < len(channels[0]); run = run*7%4099 + 1 {
		n := min(run, len(channels[0])-at)
		block := make([][]float32, len(channels))
		for ch := range block {
			block[ch] = channels[ch][at : at+n]
		}
		if err := in.Add(block); err != nil {
			t.Fatal(err)
		}
		at += n
	}
	if err := in.End(); err != nil {
		t.Fatal(err)
	}
	e, err := in.Envelope(context.Background())
	if err != nil {
		t.Fatal(err)
	}
	return e
}

// TestIntakeDoesNotDependOnTheBlocks: but for the order in which squares are
// summed, which decides the last bits of the level.
func TestIntakeDoesNotDependOnTheBlocks(t *testing.T) {
	for _, rate := range []int{8000, 44100, 96000} {
		x := strikes(rate, 12, hits)
		got, want := taken(t, rate, x), measure(t, x, rate)
		if math.Abs(got.Level/want.Level-1) > 1e-12 || got.Seconds != want.Seconds || len(got.Sum) != len(want.Sum) {
			t.Fatalf("%d Hz: level %v of %v s, want %v of %v s", rate, got.Level, got.Seconds, want.Level, want.Seconds)
		}
		for i := range want.Sum {
			if math.Abs(float64(got.Sum[i]-want.Sum[i])) > 1e-4 {
				t.Fatalf("%d Hz: frame %d is %v, want %v", rate, i, got.Sum[i], want.Sum[i])
			}
		}
	}
}

func TestIntakeMixesTheChannels(t *testing.T) {
	const rate = 8000
	x := strikes(rate, 4, hits)
	third, twice, silent := make([]float32, len(x)), make([]float32, len(x)), make([]float32, len(x))
	for i, v := range x {
		third[i], twice[i] = 3*v, 2*v
	}
	want := taken(t, rate, x)
	for name, e := range map[string]*Envelope{
		"the same twice":               taken(t, rate, x, x),
		"one side only":                taken(t, rate, silent, twice),
		"one of three, as loud as all": taken(t, rate, silent, third, silent),
	} {
		if c := correlation(want.Sum, e.Sum); c < 0.999999 || math.Abs(e.Level/want.Level-1) > 1e-5 {
			t.Errorf("%s: correlation %v, level %v, want 1 and %v", name, c, e.Level, want.Level)
		}
	}
}

// TestIntakeIsUsedAgain: a second sound has nothing of the first.
func TestIntakeIsUsedAgain(t *testing.T) {
	x, y := noise(3*8000, 0.1), strikes(8000, 4, hits)
	var in Intake
	for range 2 {
		for _, sound := range [][]float32{x, y} {
			if err := errors.Join(in.Begin(clip.Info{Rate: 8000, Channels: 1}), in.Add([][]float32{sound})); err != nil {
				t.Fatal(err)
			}
			got, err := in.Envelope(context.Background())
			if err != nil {
				t.Fatal(err)
			}
			var fresh Intake
			if err := errors.Join(fresh.Begin(clip.Info{Rate: 8000, Channels: 1}), fresh.Add([][]float32{sound})); err != nil {
				t.Fatal(err)
			}
			want, err := fresh.Envelope(context.Background())
			if err != nil || !reflect.DeepEqual(got, want) {
				t.Errorf("an intake used again gives another envelope, %v", err)
			}
		}
	}
}

func TestEnvelopeStopsWithItsContext(t *testing.T) {
	var in Intake
	if err := errors.Join(in.Begin(clip.Info{Rate: 8000, Channels: 1}), in.Add([][]float32{noise(60*8000, 0.1)})); err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if e, err := in.Envelope(ctx); e != nil || !errors.Is(err, context.Canceled) {
		t.Errorf("Envelope = %v, %v, want %v", e, err, context.Canceled)
	}
}
