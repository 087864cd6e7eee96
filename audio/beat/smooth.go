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

// align moves beats, frames, to the peaks of the summed envelope, a strong
// peak drawing more than a weak one, and evens the intervals. The result is
// in seconds.
func align(env *onset.Envelope, beats []int) []float64 {
	envelope := env.Sum
	seen, weight := make([]float64, len(beats)), make([]float64, len(beats))
	total := 0.0
	for i, b := range beats {
		peak := b
		for t := max(0, b-alignReach); t <= min(len(envelope)-1, b+alignReach); t++ {
			if envelope[t] > envelope[peak] {
				peak = t
			}
		}
		sum, moment := 0.0, 0.0
		for t := max(0, peak-2); t <= min(len(envelope)-1, peak+2); t++ {
			sum += float64(envelope[t])
			moment += float64(envelope[t]) * float64(t)
		}
		seen[i] = float64(b) / onset.FrameRate
		if sum > 0 {
			seen[i] = moment / sum / onset.FrameRate
		}
		at, rise := env.Attack(seen[i], attackReach)
		sharp := math.Max(0, math.Min(1, (math.Log(rise)-softRise)/(sharpRise-softRise)))
		seen[i] += sharp * (at - seen[i])
		weight[i] = float64(envelope[peak])
		total += weight[i]
	}
	for i := range weight {
		weight[i] = weight[i]*float64(len(weight))/(total+1e-9) + 1e-3
	}
	return smooth(seen, weight)
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
