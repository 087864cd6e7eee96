// Package halfband designs the low-pass filter that goes before a rate is
// halved.
package halfband

import "math"

// Taps returns the taps of a half-band filter at the odd distances 1, 3 ..
// reach from its centre; those at even ones are 0 and the centre is 0.5. They
// are a sinc at a quarter of the rate under a Hann window, with gain 1 for
// constant input. Reach is odd; the longer, the nearer to a quarter of the
// rate the filter passes what is below and stops what is above.
func Taps(reach int) []float32 {
	taps := make([]float32, (reach+1)/2)
	raw := make([]float64, len(taps))
	sum := 0.0
	for i := range raw {
		d := float64(2*i + 1)
		raw[i] = math.Sin(math.Pi*d/2) / (math.Pi * d) * (0.5 + 0.5*math.Cos(math.Pi*d/float64(reach+1)))
		sum += 2 * raw[i]
	}
	for i := range taps {
		taps[i] = float32(raw[i] * 0.5 / sum)
	}
	return taps
}
