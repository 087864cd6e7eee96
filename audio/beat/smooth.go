package beat

import (
	"math"
	"slices"

	"stillbeat/audio/onset"
)

const (
	// alignReach is how far, frames, a beat may move to the peak of the
	// envelope.
	alignReach = 3
	// attackReach is how far, seconds, it may move from there to the attack:
	// in a thin sound the envelope leads a sharp attack by 11 ms.
	attackReach = 0.02
	// softRise and sharpRise are the natural logarithms of the rises of power
	// up to which the attack counts for nothing and from which it is all.
	softRise, sharpRise = 1, 3
	// evenness is the weight of even intervals against the peaks seen.
	evenness = 0.15
)

// align moves beats, frames, to what is heard there, a strong onset drawing
// more than a weak one, and evens the intervals. The result is in seconds.
func align(env *onset.Envelope, beats []int) []float64 {
	seen, weight := make([]float64, len(beats)), make([]float64, len(beats))
	total := 0.0
	for i, b := range beats {
		seen[i], weight[i] = heard(env, b)
		total += weight[i]
	}
	for i := range weight {
		weight[i] = weight[i]*float64(len(weight))/(total+1e-9) + 1e-3
	}
	return smooth(seen, weight)
}

// heard returns the time, seconds, and the strength of the onset at a beat:
// the centre of the envelope's peak, or the attack where it is sharp.
func heard(env *onset.Envelope, beat int) (t, strength float64) {
	x := env.Sum
	peak := beat
	for n := max(0, beat-alignReach); n <= min(len(x)-1, beat+alignReach); n++ {
		if x[n] > x[peak] {
			peak = n
		}
	}
	sum, moment := 0.0, 0.0
	for n := max(0, peak-2); n <= min(len(x)-1, peak+2); n++ {
		sum += float64(x[n])
		moment += float64(x[n]) * float64(n)
	}
	t = float64(beat) / onset.FrameRate
	if sum > 0 {
		t = moment / sum / onset.FrameRate
	}
	attack, rise := env.Attack(t, attackReach)
	sharp := (math.Log(rise) - softRise) / (sharpRise - softRise)
	return t + min(1, max(0, sharp))*(attack-t), float64(x[peak])
}

// smooth returns the times closest to seen, weighted, whose intervals change
// little: the minimum of
//
//	sum weight[i] (x[i]-seen[i])^2 + evenness sum (x[i-1] - 2 x[i] + x[i+1])^2
//
// found by elimination in the five diagonals of its normal equations.
func smooth(seen, weight []float64) []float64 {
	n := len(seen)
	if n < 3 {
		return slices.Clone(seen)
	}
	a := make([][3]float64, n) // a[i][k]: row i, column i+k, of a symmetric matrix
	x := make([]float64, n)
	for i := range n {
		a[i][0] = weight[i]
		x[i] = weight[i] * seen[i]
	}
	for i := 1; i+1 < n; i++ {
		a[i-1][0] += evenness
		a[i-1][1] -= 2 * evenness
		a[i-1][2] += evenness
		a[i][0] += 4 * evenness
		a[i][1] -= 2 * evenness
		a[i+1][0] += evenness
	}
	for i := range n {
		for k := 1; k <= 2 && i+k < n; k++ {
			f := a[i][k] / a[i][0]
			for j := k; j <= 2; j++ {
				a[i+k][j-k] -= f * a[i][j]
			}
			x[i+k] -= f * x[i]
		}
	}
	for i := n - 1; i >= 0; i-- {
		for k := 1; k <= 2 && i+k < n; k++ {
			x[i] -= a[i][k] * x[i+k]
		}
		x[i] /= a[i][0]
	}
	return x
}
