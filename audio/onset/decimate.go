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

// halve writes x at half its rate into dst, which it returns, grown if need
// be: dst[i] is centred on x[2i]. Samples outside x count as 0.
func halve(dst, x []float32) []float32 {
	dst = grown(dst, (len(x)+1)/2)
	at := func(i int) float32 {
		if i < 0 || i >= len(x) {
			return 0
		}
		return x[i]
	}
	for i := range dst {
		c := 2 * i
		sum := 0.5 * x[c]
		if c >= reach && c+reach < len(x) {
			near := x[c-reach : c+reach+1]
			for k, t := range halfBand {
				sum += t * (near[reach-1-2*k] + near[reach+1+2*k])
			}
		} else {
			for k, t := range halfBand {
				sum += t * (at(c-1-2*k) + at(c+1+2*k))
			}
		}
		dst[i] = sum
	}
	return dst
}

// grown returns n values, those of buf if it is large enough.
func grown(buf []float32, n int) []float32 {
	if cap(buf) < n {
		return make([]float32, n)
	}
	return buf[:n]
}

// cut returns samples from..to of the sound at the halved rate and RMS 1,
// where from and to count at that rate and may lie outside the sound
// (silence). Values that are not finite count as 0. The next cut overwrites
// them.
func (w *worker) cut(from, to int) []float32 {
	margin := 0 // at the halved rate, enough for every filter's reach
	if w.times > 0 {
		margin = 2 * reach
	}
	lo, hi := (from-margin)<<w.times, (to+margin)<<w.times
	w.cuts[0] = grown(w.cuts[0], hi-lo)
	x := w.cuts[0]
	clear(x)
	for i := max(lo, 0); i < min(hi, len(w.mono)); i++ {
		if v := w.mono[i]; finite(v) {
			x[i-lo] = v * w.gain
		}
	}
	for k := range w.times {
		next := &w.cuts[(k+1)%2]
		*next = halve(*next, x)
		x = *next
	}
	return x[margin : margin+to-from]
}
