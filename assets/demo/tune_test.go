package demo

import (
	"math"
	"slices"
	"sync"
	"testing"
)

// played is the tune, made once for all tests that only listen to it.
var played = sync.OnceValues(Tune)

func TestTuneIsSound(t *testing.T) {
	ch, rate := played()
	if rate != 44100 || len(ch) != 2 {
		t.Fatalf("%d channels at %d Hz, want 2 at 44100", len(ch), rate)
	}
	want := int(tuneSeconds * 44100)
	peak := float32(0)
	for c, samples := range ch {
		if len(samples) != want {
			t.Errorf("channel %d has %d samples, want %d", c, len(samples), want)
		}
		for i, v := range samples {
			if v != v {
				t.Fatalf("channel %d sample %d is not a number", c, i)
			}
			peak = max(peak, v, -v)
		}
		if end := samples[len(samples)-1]; math.Abs(float64(end)) > 1e-4 {
			t.Errorf("channel %d breaks off at %g", c, end)
		}
	}
	// -3 dB below full scale is 0.708.
	if math.Abs(20*math.Log10(float64(peak))+3) > 0.05 {
		t.Errorf("peak is %.2f dB, want -3", 20*math.Log10(float64(peak)))
	}
	if slices.Equal(ch[0], ch[1]) {
		t.Error("the two channels are the same")
	}
}

func TestTuneIsTheSameEveryTime(t *testing.T) {
	a, _ := played()
	b, _ := Tune()
	if !slices.Equal(a[0], b[0]) || !slices.Equal(a[1], b[1]) {
		t.Error("two calls play different samples")
	}
}

// struck reports whether the score has something new on a beat. The hush and
// the last chord have beats on which nothing is struck.
func struck(beat int) bool {
	switch {
	case beat == 47, beat >= 48 && beat < 52, beat > 68:
		return false
	}
	return true
}

func TestEnergyRisesAtTheBeats(t *testing.T) {
	ch, rate := played()
	const window = 0.03 // seconds
	for i, at := range Beats() {
		before, after := energy(ch, rate, at-window, at), energy(ch, rate, at, at+window)
		if rise := 10 * math.Log10((after+1e-12)/(before+1e-12)); struck(i) && rise < 3 {
			t.Errorf("beat %d at %.3f s: energy rises by %.1f dB, want at least 3", i, at, rise)
		}
	}
}

func TestTheHushIsSilent(t *testing.T) {
	ch, rate := played()
	hush := Beats()[49:52]
	loud := energy(ch, rate, Beats()[0], Beats()[40])
	if quiet := energy(ch, rate, hush[0], hush[2]); 10*math.Log10(loud/quiet) < 30 {
		t.Errorf("the hush is only %.1f dB below the tune, want 30", 10*math.Log10(loud/quiet))
	}
}

func TestTheLastChordRings(t *testing.T) {
	ch, rate := played()
	beats := Beats()
	struck := energy(ch, rate, beats[68], beats[69])
	later := energy(ch, rate, beats[70], beats[71])
	if drop := 10 * math.Log10(struck/later); drop < 10 || drop > 35 {
		t.Errorf("two beats after the last chord it is %.1f dB softer, want 10 to 35: still ringing, and dying away", drop)
	}
}

// energy is the mean square between two times in seconds.
func energy(ch [][]float32, rate int, from, to float64) float64 {
	sum, n := 0.0, 0
	for _, samples := range ch {
		for _, v := range samples[int(from*float64(rate)):int(to*float64(rate))] {
			sum += float64(v) * float64(v)
			n++
		}
	}
	return sum / float64(n)
}

func TestBeatsAreExact(t *testing.T) {
	beats, bars := Beats(), Downbeats()
	if len(beats) != 72 || len(bars) != 18 {
		t.Fatalf("%d beats in %d bars, want 72 in 18", len(beats), len(bars))
	}
	for i, b := range beats {
		// 108 beats a minute: nine beats take five seconds.
		if want := 0.35 + float64(i)*5/9; math.Abs(b-want) > 1e-9 {
			t.Errorf("beat %d at %.9f s, want %.9f", i, b, want)
		}
	}
	for i, b := range bars {
		if b != beats[4*i] {
			t.Errorf("bar %d starts at %g, want beat %d at %g", i, b, 4*i, beats[4*i])
		}
	}
}

// Every written line must fill its bars, or everything after it is late.
func TestScoreFillsItsBars(t *testing.T) {
	tests := []struct {
		name, line  string
		first, last float64
	}{
		{"melody", melody, 0, 72},
		{"flight", flightLine, 40, 48},
		{"stir", stirLine, 56, 64},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if _, end := notes(tt.line, tt.first); end != tt.last {
				t.Errorf("the line ends at beat %g, want %g", end, tt.last)
			}
		})
	}
}

func BenchmarkTune(b *testing.B) {
	b.ReportAllocs()
	for b.Loop() {
		Tune()
	}
}
