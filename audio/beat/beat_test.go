package beat

import (
	"context"
	"errors"
	"fmt"
	"math"
	"reflect"
	"slices"
	"testing"

	"stillbeat/audio/beat/score"
)

func analyse(t testing.TB, mono []float32) *Result {
	t.Helper()
	r, err := Analyse(context.Background(), mono, testRate, Options{})
	if err != nil {
		t.Fatal(err)
	}
	checkShape(t, r, float64(len(mono))/testRate)
	return r
}

// checkShape checks what holds for every result.
func checkShape(t testing.TB, r *Result, seconds float64) {
	t.Helper()
	if !slices.IsSorted(r.Beats) || !slices.IsSorted(r.Downbeats) {
		t.Errorf("beats %v or downbeats %v out of order", r.Beats, r.Downbeats)
	}
	for _, d := range r.Downbeats {
		if !slices.Contains(r.Beats, d) {
			t.Errorf("downbeat %v is no beat", d)
		}
	}
	for _, b := range r.Beats {
		if b < 0 || b > seconds {
			t.Errorf("beat at %v in a sound of %v s", b, seconds)
		}
	}
	if !(r.Confidence >= 0 && r.Confidence <= 1) {
		t.Errorf("confidence %v", r.Confidence)
	}
	if none := len(r.Beats) == 0; none != (r.Tempo == 0) || none && (r.Confidence != 0 || r.Metre != 0 || r.Unsure != nil) {
		t.Errorf("tempo %v, confidence %v, metre %d, unsure %v with %d beats", r.Tempo, r.Confidence, r.Metre, r.Unsure, len(r.Beats))
	}
	last := 0.0
	for _, u := range r.Unsure {
		if u.From < last || u.To <= u.From || u.To > seconds {
			t.Errorf("unsure range %v in a sound of %v s", u, seconds)
		}
		last = u.To
	}
	for _, o := range r.Onsets {
		if o.Time < 0 || o.Time > seconds || o.Strength <= 0 || o.Strength > 1 {
			t.Errorf("onset %v in a sound of %v s", o, seconds)
		}
	}
}

func TestMusicWithKnownBeats(t *testing.T) {
	const seconds = 25
	type song struct {
		name      string
		beats     []float64
		play      func(*band, []float64) []float64
		metre     int
		tempo     float64
		leastF    float64
		confident float64
	}
	straight := func(b *band, beats []float64) []float64 { return rock(b, beats, 0) }
	songs := []song{
		{"waltz", grid(0.7, seconds, at(140)), waltz, 3, 140, 1, 0.5},
		{"swing", grid(0.4, seconds, at(132)), func(b *band, beats []float64) []float64 { return rock(b, beats, 1.0/6) }, 4, 132, 1, 0.5},
		{"tempo rises from 100 to 130", grid(0.3, seconds, func(i int) float64 { return 60 / math.Min(130, 100+0.6*float64(i)) }), straight, 4, 115, 0.98, 0.4},
		{"human timing of 10 ms", humanised(grid(0.3, seconds, at(105)), 0.01), straight, 4, 105, 0.98, 0.3},
	}
	for _, bpm := range []float64{84, 120, 151.7} {
		songs = append(songs, song{fmt.Sprint("rock at ", bpm), grid(0.45, seconds, at(bpm)), straight, 4, bpm, 1, 0.6})
	}
	for _, s := range songs {
		t.Run(s.name, func(t *testing.T) {
			b := newBand(seconds)
			downbeats := s.play(b, s.beats)
			got := analyse(t, b.x)
			truth := s.beats[:len(s.beats)-1] // the last only ends the one before
			if h := score.Events(truth, got.Beats, score.BeatWindow); h.F < s.leastF-0.02 {
				t.Errorf("F of beats = %.3f, want %.2f; beats %.2f", h.F, s.leastF, got.Beats)
			}
			if h := score.Events(downbeats, got.Downbeats, score.BeatWindow); h.F < 0.9 {
				t.Errorf("F of downbeats = %.3f; want at least 0.9; downbeats %.2f", h.F, got.Downbeats)
			}
			distance, bias := score.Offset(truth, got.Beats, score.BeatWindow)
			if distance > 0.009 || math.Abs(bias) > 0.004 {
				t.Errorf("offset %.4f s, bias %.4f s, want at most 9 and 4 ms", distance, bias)
			}
			if math.Abs(got.Tempo/s.tempo-1) > 0.02 {
				t.Errorf("tempo = %.1f, want %.1f", got.Tempo, s.tempo)
			}
			if got.Metre != s.metre {
				t.Errorf("metre = %d, want %d", got.Metre, s.metre)
			}
			if got.Confidence < s.confident || len(got.Unsure) != 0 {
				t.Errorf("confidence = %.2f, unsure %v, want at least %v and nothing unsure", got.Confidence, got.Unsure, s.confident)
			}
		})
	}
}

// humanised moves each beat by a fixed pattern of up to reach seconds.
func humanised(beats []float64, reach float64) []float64 {
	out := slices.Clone(beats)
	for i := range out {
		out[i] += reach * math.Sin(2.4*float64(i))
	}
	return out
}

// Bare clicks have no bars, and nothing but the prior tells their octave.
func TestClicksAtSeveralTempi(t *testing.T) {
	for _, bpm := range []float64{80, 92.6, 113, 128, 155} {
		t.Run(fmt.Sprint(bpm), func(t *testing.T) {
			b := newBand(20)
			truth := grid(0.5, 20, at(bpm))
			for _, c := range truth {
				b.click(c)
			}
			got := analyse(t, b.x)
			if h := score.Events(truth, got.Beats, 0.01); h.F < 0.97 {
				t.Errorf("F within 10 ms = %.3f, want 1; beats %.3f", h.F, got.Beats)
			}
			if math.Abs(got.Tempo-bpm) > 0.2 {
				t.Errorf("tempo = %.2f, want %.1f", got.Tempo, bpm)
			}
			if got.Metre != 0 || len(got.Downbeats) != 0 {
				t.Errorf("metre %d, %d downbeats from clicks that are all alike", got.Metre, len(got.Downbeats))
			}
		})
	}
}

func TestNoSteadyBeatIsInvented(t *testing.T) {
	silent := func(*band) {}
	for _, tt := range []struct {
		name    string
		seconds float64
		play    func(*band)
	}{
		{"silence", 20, silent},
		{"noise", 20, hiss},
		{"one click", 20, func(b *band) { b.click(7) }},
		{"two clicks", 20, func(b *band) { b.click(7); b.click(7.5) }},
		{"one chord", 20, func(b *band) { b.chord(3, 15, 220) }},
		{"random clicks", 20, rain},
		{"speech-like bursts", 20, murmur},
		{"a steady tone", 20, func(b *band) {
			b.play(0, 20, func(s float64) float64 { return 0.5 * math.Sin(2*math.Pi*440*s) })
		}},
	} {
		t.Run(tt.name, func(t *testing.T) {
			b := newBand(tt.seconds)
			tt.play(b)
			if got := analyse(t, b.x); len(got.Beats) != 0 || got.Confidence != 0 {
				t.Errorf("%d beats at %.1f BPM, confidence %.2f", len(got.Beats), got.Tempo, got.Confidence)
			}
		})
	}
}

func TestBeatsDoNotDependOnLoudnessOrClipping(t *testing.T) {
	b := newBand(20)
	beats := grid(0.4, 20, at(118))
	rock(b, beats, 0)
	want := analyse(t, b.x).Beats
	soft, clipped := slices.Clone(b.x), slices.Clone(b.x)
	for i, v := range b.x {
		soft[i] = v / 300
		clipped[i] = max(-0.2, min(0.2, v))
	}
	for name, x := range map[string][]float32{"50 dB softer": soft, "clipped": clipped} {
		if h := score.Events(want, analyse(t, x).Beats, 0.02); h.F < 0.98 {
			t.Errorf("%s: F against the plain sound = %.3f", name, h.F)
		}
	}
}

func TestBeatsLieInTheSoundingPart(t *testing.T) {
	b := newBand(30)
	rock(b, grid(6, 24, at(120)), 0)
	for _, x := range analyse(t, b.x).Beats {
		if x < 5.9 || x > 25.6 {
			t.Errorf("beat at %.2f s in the silence around 6 to 24 s", x)
		}
	}
}

func TestAPassageWithoutABeatIsUnsure(t *testing.T) {
	b := newBand(60)
	rock(b, grid(0.2, 25, at(120)), 0)
	talk := newBand(20)
	murmur(talk)
	copy(b.x[26*testRate:], talk.x)
	rock(b, grid(46.2, 60, at(120)), 0)
	got := analyse(t, b.x)
	doubt := 0.0
	for _, u := range got.Unsure {
		doubt += u.To - u.From
		if u.From < 18 || u.To > 53 {
			t.Errorf("unsure from %.1f to %.1f s, where the drums play", u.From, u.To)
		}
	}
	if doubt < 8 {
		t.Errorf("unsure for %.1f s of 20 s of speech: %v", doubt, got.Unsure)
	}
}

func TestOddSoundsAreSafe(t *testing.T) {
	fill := func(n int, v float64) []float32 {
		x := make([]float32, n)
		for i := range x {
			x[i] = float32(v)
		}
		return x
	}
	for name, x := range map[string][]float32{
		"empty":          nil,
		"one sample":     {1},
		"a millisecond":  fill(22, 0.3),
		"constant":       fill(5*testRate, 0.7),
		"all NaN":        fill(5*testRate, math.NaN()),
		"all infinite":   fill(5*testRate, math.Inf(-1)),
		"greatest float": fill(5*testRate, math.MaxFloat32),
		"just too short": fill(3*testRate-300, 0.1),
	} {
		t.Run(name, func(t *testing.T) {
			if got := analyse(t, x); len(got.Beats) != 0 {
				t.Errorf("beats %v", got.Beats)
			}
		})
	}
}

func TestAnalyseIsDeterministic(t *testing.T) {
	b := newBand(25)
	rock(b, grid(0.4, 25, at(103)), 0)
	if first, second := analyse(t, b.x), analyse(t, b.x); !reflect.DeepEqual(first, second) {
		t.Error("two runs differ")
	}
}

func TestAnalyseStopsWithItsContext(t *testing.T) {
	b := newBand(45)
	hiss(b)
	t.Run("during the envelope", func(t *testing.T) {
		ctx, cancel := context.WithCancel(context.Background())
		_, err := Analyse(ctx, b.x, testRate, Options{Progress: func(float64) { cancel() }})
		if !errors.Is(err, context.Canceled) {
			t.Errorf("err = %v", err)
		}
	})
	t.Run("during the decoding", func(t *testing.T) {
		ctx, cancel := context.WithCancel(context.Background())
		_, err := Analyse(ctx, b.x, testRate, Options{Progress: func(done float64) {
			if done == measured {
				cancel()
			}
		}})
		if !errors.Is(err, context.Canceled) {
			t.Errorf("err = %v", err)
		}
	})
}

func TestProgressRisesToOne(t *testing.T) {
	b := newBand(45)
	hiss(b)
	var told []float64
	if _, err := Analyse(context.Background(), b.x, testRate, Options{Progress: func(done float64) { told = append(told, done) }}); err != nil {
		t.Fatal(err)
	}
	if len(told) < 4 || !slices.IsSorted(told) || told[0] != 0 || told[len(told)-1] != 1 {
		t.Errorf("progress = %v", told)
	}
}

func TestRatesOutsideTheRangeAreRefused(t *testing.T) {
	if r, err := Analyse(context.Background(), make([]float32, 10), 4000, Options{}); err == nil || r != nil {
		t.Errorf("Analyse at 4000 Hz = %v, %v", r, err)
	}
}
