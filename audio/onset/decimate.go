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

// halver halves the rate of a sound that comes in pieces: sample i of what
// comes out is centred on sample 2i of what goes in. Before and after the
// sound there is silence.
type halver struct {
	in []float32 // from reach samples before the next centre on
}

func newHalver() *halver { return &halver{in: make([]float32, reach)} }

// add takes the next samples and appends what they complete to dst.
func (h *halver) add(dst, x []float32) []float32 {
	h.in = append(h.in, x...)
	i := 0
	for ; i+2*reach < len(h.in); i += 2 {
		near := (*[2*reach + 1]float32)(h.in[i:])
		sum := 0.5 * near[reach]
		for k, t := range halfBand {
			sum += t * (near[reach-1-2*k] + near[reach+1+2*k])
		}
		dst = append(dst, sum)
	}
	h.in = h.in[:copy(h.in, h.in[i:])]
	return dst
}
