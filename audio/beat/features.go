package beat

import (
	"math"

	"stillbeat/audio/onset"
)

// bands is the number of rows of evidence: the onset groups and, last, the
// change of colour.
const bands = len(onset.Groups)

// colour is the index of the change of colour.
const colour = bands - 1

// features holds the evidence for each frame, each row scaled to a mean of 1
// over the sound.
type features struct {
	rows   [bands][]float32
	change []float64 // [colour frame], unscaled change of colour
}

// newFeatures scales the envelopes. Every band is first divided by its own
// strength around each frame, so that quiet passages count as well.
func newFeatures(env *onset.Envelope) *features {
	f := &features{change: colourChange(env.Colour)}
	for b, x := range env.Bands {
		f.rows[b] = level(x, int(P.Around*onset.FrameRate))
	}
	row := make([]float32, env.Frames())
	const per = onset.FrameRate / onset.ColourRate
	for n := range row {
		at := float64(n)/per - 0.5
		i := int(math.Floor(at))
		w := at - float64(i)
		if last := len(f.change) - 1; last >= 0 {
			a, b := f.change[min(max(i, 0), last)], f.change[min(max(i+1, 0), last)]
			row[n] = float32(a*(1-w) + b*w)
		}
	}
	for n, v := range row {
		row[n] = float32(math.Pow(float64(v), P.ColPow))
	}
	f.rows[colour] = level(row, int(P.Around*onset.FrameRate))
	return f
}

// level divides x by its root mean square within around values on each side
// and scales the result to a mean of 1.
func level(x []float32, around int) []float32 {
	sq := make([]float64, len(x)+1)
	for n, v := range x {
		sq[n+1] = sq[n] + float64(v)*float64(v)
	}
	whole := sq[len(x)] / float64(len(x))
	y, sum := make([]float32, len(x)), 0.0
	for n, v := range x {
		lo, hi := max(0, n-around), min(len(x), n+around+1)
		local := (sq[hi] - sq[lo]) / float64(hi-lo)
		y[n] = float32(math.Pow(math.Min(P.Clip, float64(v)/math.Sqrt(local+P.Floor*whole+1e-9)), P.Power))
		sum += float64(y[n])
	}
	if sum > 0 {
		scale := float32(float64(len(x)) / sum)
		for n := range y {
			y[n] *= scale
		}
	}
	return y
}

// colourChange returns how much the mean spectrum of the 0.3 s after each
// colour frame differs from that of the 0.3 s before.
func colourChange(spectra [][]float32) []float64 {
	side, gap := int(P.Side), int(P.Gap)
	n := len(spectra)
	out := make([]float64, n)
	if n == 0 || spectra[0] == nil {
		return out
	}
	diff := make([]float64, len(spectra[0])) // sum after minus sum before
	for t := side + gap; t+side+gap <= n; t++ {
		clear(diff)
		for d := range side {
			after, before := spectra[t+gap+d], spectra[t-1-gap-d]
			for k := range diff {
				diff[k] += float64(after[k] - before[k])
			}
		}
		for _, v := range diff {
			out[t] += math.Abs(v) / float64(side)
		}
	}
	return out
}
