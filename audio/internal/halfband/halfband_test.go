package halfband

import (
	"math"
	"testing"
)

// gain returns what is left of a sine of a frequency, in parts of the rate.
func gain(taps []float32, frequency float64) float64 {
	g := 0.5
	for i, t := range taps {
		g += 2 * float64(t) * math.Cos(2*math.Pi*frequency*float64(2*i+1))
	}
	return math.Abs(g)
}

// TestTaps holds the filter to what it is for: what would fold into the half
// below is gone, what is heard is left. At 96 kHz 0.208 is 20 kHz and 0.292 is
// 28 kHz, which folds to 20.
func TestTaps(t *testing.T) {
	for _, c := range []struct {
		reach           int
		passes, stops   float64 // in parts of the rate
		ripple, residue float64
	}{
		{15, 0.18, 0.32, 0.01, 0.01},
		{63, 0.23, 0.27, 0.01, 0.01},
		{63, 0.208, 0.292, 0.001, 0.001},
	} {
		taps := Taps(c.reach)
		if len(taps) != (c.reach+1)/2 {
			t.Fatalf("reach %d: %d taps", c.reach, len(taps))
		}
		for f := 0.0; f <= c.passes; f += 0.001 {
			if g := gain(taps, f); math.Abs(g-1) > c.ripple {
				t.Errorf("reach %d: of %.3f of the rate %.5f is left, want 1", c.reach, f, g)
			}
		}
		for f := c.stops; f <= 0.5; f += 0.001 {
			if g := gain(taps, f); g > c.residue {
				t.Errorf("reach %d: of %.3f of the rate %.5f is left, want 0", c.reach, f, g)
			}
		}
	}
}
