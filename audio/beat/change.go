package beat

import (
	"math"

	"stillbeat/audio/onset"
)

// framesPerColour is the number of envelope frames one colour frame covers.
const framesPerColour = onset.FrameRate / onset.ColourRate

// frameChange returns, for each envelope frame, the square of how much the
// mean spectrum of the 0.3 s after it differs from that of the 0.3 s before.
func frameChange(env *onset.Envelope) []float32 {
	const side = 3 * onset.ColourRate / 10
	change := make([]float64, len(env.Colour)) // between colour frames t-1 and t
	if len(change) > 0 {
		rise := make([]float64, len(env.Colour[0])) // sum after minus sum before
		for t := side; t+side <= len(change); t++ {
			clear(rise)
			for d := range side {
				after, before := env.Colour[t+d], env.Colour[t-1-d]
				for k := range rise {
					rise[k] += float64(after[k] - before[k])
				}
			}
			for _, v := range rise {
				change[t] += math.Abs(v) / side
			}
		}
	}
	at := func(t int) float64 {
		if t < 0 || t >= len(change) {
			return 0
		}
		return change[t]
	}
	out := make([]float32, len(env.Sum))
	for n := range out {
		// colour frame t covers framesPerColour frames from its start
		where := float64(n)/framesPerColour + 0.5/framesPerColour
		t := int(where)
		part := where - float64(t)
		v := at(t)*(1-part) + at(t+1)*part
		out[n] = float32(v * v)
	}
	return out
}

// beatChange returns, for each beat (frames), how much the mean spectrum of
// the beat differs from that of the beat before; the mean over beats is 1, and
// so is the first, of which nothing is known. The last is 0.
func beatChange(spectra [][]float32, beats []int) []float64 {
	out := make([]float64, len(beats))
	var prev []float64
	sum := 0.0
	for i := 0; i+1 < len(beats); i++ {
		cur := meanSpectrum(spectra, beats[i], beats[i+1])
		for k := range prev {
			out[i] += math.Abs(cur[k] - prev[k])
		}
		sum += out[i]
		prev = cur
	}
	if sum > 0 {
		for i := range out {
			out[i] *= float64(len(out)) / sum
		}
		out[0] = 1
	}
	return out
}

// meanSpectrum returns the mean of the spectra from envelope frame from to
// frame to, leaving out the edges.
func meanSpectrum(spectra [][]float32, from, to int) []float64 {
	const edge = 2 // frames
	lo := max(0, (from+edge)/framesPerColour)
	hi := min(len(spectra), (to-edge)/framesPerColour+1)
	mean := make([]float64, len(spectra[0]))
	for _, s := range spectra[min(lo, hi):hi] {
		for k, v := range s {
			mean[k] += float64(v) / float64(hi-lo)
		}
	}
	return mean
}
