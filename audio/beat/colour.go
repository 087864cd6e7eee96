package beat

import (
	"math"

	"stillbeat/audio/onset"
)

// beatChange returns, for each beat, how much the mean spectrum of the beat
// differs from that of the beat before; the mean over beats is 1.
func beatChange(spectra [][]float32, beats []int) []float64 {
	out := make([]float64, len(beats))
	if len(beats) < 3 || len(spectra) == 0 {
		return out
	}
	var prev []float64
	sum := 0.0
	for i, beat := range beats {
		next := 2*beat - beats[max(0, i-1)]
		if i+1 < len(beats) {
			next = beats[i+1]
		}
		const per = onset.FrameRate / onset.ColourRate
		lo, hi := max(0, (beat+2)/per), min(len(spectra), (next-2)/per+1)
		cur := make([]float64, len(spectra[0]))
		for t := lo; t < hi; t++ {
			for k, v := range spectra[t] {
				cur[k] += float64(v) / float64(hi-lo)
			}
		}
		if prev != nil && hi > lo {
			for k := range cur {
				out[i] += math.Abs(cur[k] - prev[k])
			}
		}
		sum += out[i]
		prev = cur
	}
	rawChange = append(rawChange[:0], out...)
	for i := range out {
		out[i] *= float64(len(out)) / (sum + 1e-9)
	}
	return out
}
