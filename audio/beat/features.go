package beat

import (
	"math"

	"stillbeat/audio/onset"
)

// levelTop and levelPower were chosen on 40 of the excerpts of strengths, the others are round
// figures to which the result is indifferent.
const (
	levelReach = 4 * onset.FrameRate // frames each side over which a band is levelled
	levelFloor = 0.05                // of the mean square: quieter passages stay quieter
	levelTop   = 3                   // strength, in local RMS, above which more does not count
	levelPower = 0.7                 // brings few loud and many soft onsets closer
)

// features holds the evidence for each frame, every row with mean 1.
type features [rows][]float32

// newFeatures levels the bands of the envelope and the change of its colour.
func newFeatures(env *onset.Envelope) *features {
	var f features
	for b, x := range env.Bands {
		f[b] = level(x)
	}
	f[colour] = level(frameChange(env))
	return &f
}

// frames returns the number of frames.
func (f *features) frames() int { return len(f[0]) }

// level divides x by its root mean square around each value, limits and
// compresses it, and scales the result to mean 1.
func level(x []float32) []float32 {
	squares := make([]float64, len(x)+1)
	for n, v := range x {
		squares[n+1] = squares[n] + float64(v)*float64(v)
	}
	floor := levelFloor*squares[len(x)]/float64(len(x)) + 1e-9
	y, sum := make([]float32, len(x)), 0.0
	for n, v := range x {
		lo, hi := max(0, n-levelReach), min(len(x), n+levelReach+1)
		local := (squares[hi] - squares[lo]) / float64(hi-lo)
		y[n] = float32(math.Pow(math.Min(levelTop, float64(v)/math.Sqrt(local+floor)), levelPower))
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
