package onset

import "stillbeat/audio/internal/halfband"

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

// halfBand holds the filter's taps at odd distances from the centre.
var halfBand = [(reach + 1) / 2]float32(halfband.Taps(reach))

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
