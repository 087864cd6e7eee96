package play

import (
	"math"
	"testing"
)

// TestHighRatesDoNotFold plays tones of songs above the device's rate: what can
// be heard stays, and what the device cannot carry is silent instead of heard
// as another tone.
func TestHighRatesDoNotFold(t *testing.T) {
	for _, c := range []struct {
		name         string
		rate, device int
		tone         float64
		want         float64 // the loudest sample
	}{
		{"96 kHz, heard", 96000, 48000, 1000, 1},
		{"96 kHz, near the end of hearing", 96000, 48000, 19000, 1},
		{"96 kHz, above it", 96000, 48000, 30000, 0},
		{"88.2 kHz, above it", 88200, 44100, 30000, 0},
		{"192 kHz, heard", 192000, 48000, 1000, 1},
		{"192 kHz, above it", 192000, 48000, 30000, 0},
		{"192 kHz, far above it", 192000, 48000, 70000, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			tone := sine(c.tone, c.rate, 1)
			left, right := pull(t, newPlanned(song(c.rate, tone, tone), 0, newPlan(Manner{}, 0.1, float64(c.device))), c.device/2)
			loudest := 0.0
			for i := range left {
				loudest = max(loudest, math.Abs(float64(left[i])), math.Abs(float64(right[i])))
			}
			if math.Abs(loudest-c.want) > 0.005 {
				t.Errorf("the loudest sample is %.4f, want %.0f", loudest, c.want)
			}
		})
	}
}

// TestHalvedInAnyPieces reads a sound in pieces of several lengths, and gets
// the same samples.
func TestHalvedInAnyPieces(t *testing.T) {
	read := func(piece int) []float32 {
		h := broughtDown(song(192000, sine(440, 192000, 0.1)), 48000)
		if h.Rate() != 48000 || h.Channels() != 1 {
			t.Fatalf("%d Hz, %d channels", h.Rate(), h.Channels())
		}
		all := make([]float32, 6000)
		for at := 0; at < len(all); at += piece {
			h.Read([][]float32{all[at:min(at+piece, len(all))]}, at-500)
		}
		return all
	}
	whole := read(6000)
	for _, piece := range []int{1, 63, 2048, 2049, 4100} {
		checkSamples(t, "in pieces", read(piece), whole)
	}
	if loud := whole[500+1200]; math.Abs(float64(loud)-math.Sin(2*math.Pi*440*1200/48000)) > 0.001 {
		t.Errorf("sample 1200 is %.4f", loud)
	}
}
