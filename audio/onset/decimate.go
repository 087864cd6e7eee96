package onset

import "math"

// lowestRate is the least rate, Hz, that halving may reach: the bands above
// 11 kHz tell nothing more about the beat.
const lowestRate = 22050

// halvings returns how often a sound of the given rate is halved before its
// spectra are taken.
func halvings(rate int) int {
	n := 0
	for rate>>(n+1) >= lowestRate {
		n++
	}
	return n
}

// reach is the number of taps on each side of a half-band filter's centre.
const reach = 15

// halfBand holds the taps at odd distances 1, 3 .. reach from the centre; the
// even ones are 0 and the centre is 0.5. Sinc at a quarter of the rate under
// a Hann window.
var halfBand = func() (taps [(reach + 1) / 2]float32) {
	sum := 0.0
	raw := make([]float64, len(taps))
	for i := range raw {
		d := float64(2*i + 1)
		raw[i] = math.Sin(math.Pi*d/2) / (math.Pi * d) * (0.5 + 0.5*math.Cos(math.Pi*d/(reach+1)))
		sum += 2 * raw[i]
	}
	for i := range taps {
		taps[i] = float32(raw[i] * 0.5 / sum) // gain 1 for constant input
	}
	return taps
}()

// halve returns x at half its rate: out[i] is centred on x[2i]. Samples
// outside x count as 0.
func halve(x []float32) []float32 {
	out := make([]float32, (len(x)+1)/2)
	at := func(i int) float32 {
		if i < 0 || i >= len(x) {
			return 0
		}
		return x[i]
	}
	for i := range out {
		c := 2 * i
		sum := 0.5 * x[c]
		if c >= reach && c+reach < len(x) {
			w := x[c-reach : c+reach+1]
			for k, t := range halfBand {
				sum += t * (w[reach-1-2*k] + w[reach+1+2*k])
			}
		} else {
			for k, t := range halfBand {
				sum += t * (at(c-1-2*k) + at(c+1+2*k))
			}
		}
		out[i] = sum
	}
	return out
}

// cut returns samples from..to of mono at the halved rate, times gain, where
// from and to count at that rate and may lie outside the sound (silence).
// Values that are not finite count as 0.
func cut(mono []float32, times, from, to int, gain float32) []float32 {
	margin := 0 // at the halved rate, enough for every filter's reach
	if times > 0 {
		margin = 2 * reach
	}
	lo, hi := (from-margin)<<times, (to+margin)<<times
	x := make([]float32, hi-lo)
	for i := max(lo, 0); i < min(hi, len(mono)); i++ {
		if v := mono[i]; v-v == 0 {
			x[i-lo] = v * gain
		}
	}
	for range times {
		x = halve(x)
	}
	return x[margin : margin+to-from]
}
