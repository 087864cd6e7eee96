package board

import (
	"math"
	"slices"
	"sort"
)

// tap is a tap that counts, as beat n from the first.
type tap struct {
	n  int
	at float64 // seconds
}

// stray is the part of a beat by which a tap may miss before it is left out.
const stray = 0.25

// countTaps numbers the taps. The beat is sought among the taps' own
// intervals, and the count from each of the first taps, since the first may
// be a stray one, slow to follow and quick. The count that takes most taps wins; a missed beat costs it
// half a tap, else a beat half as long would take in the stray ones.
func countTaps(times []float64) []tap {
	gaps := make([]float64, len(times)-1)
	for i := range gaps {
		gaps[i] = times[i+1] - times[i]
	}
	slices.Sort(gaps)
	var best []tap
	most := 0
	for _, quarter := range []int{2, 3, 1} { // of equal counts the median's
		period := gaps[min(len(gaps)-1, quarter*len(gaps)/4)]
		for first := range min(len(times)-1, 4) {
			for _, gain := range []float64{0.3, 0.6} {
				c := follows(times[first:], period, gain)
				missed := c[len(c)-1].n + 1 - len(c)
				if score := 2*len(c) - missed; best == nil || score > most {
					best, most = c, score
				}
			}
		}
	}
	return best
}

// follows counts beats of about the given period from the first of times on
// and leaves out what falls between them. Each tap corrects the place of the
// beat by a part of what it is off, the gain, and its period by gain^2 / (2 -
// gain) of it, the best two go together (Benedict and Bordner, IRE Trans.
// Automatic Control 7, 1962; formula from memory).
func follows(times []float64, period, gain float64) []tap {
	out := []tap{{0, times[0]}}
	n, place := 0, times[0]
	for _, t := range times[1:] {
		beats := math.Round((t - place) / period)
		off := t - place - beats*period
		if beats < 1 || math.Abs(off) > stray*period {
			continue
		}
		n += int(beats)
		place += beats*period + gain*off
		period += gain * gain / (2 - gain) * off / beats
		out = append(out, tap{n, t})
	}
	return out
}

// straight returns the steady beat through the taps: seconds by number of
// beat. It is the line of least squares, fitted again and again with each tap
// weighed down by how far off it is (Tukey's biweight; Beaton and Tukey 1974).
func straight(taps []tap) func(n float64) float64 {
	weights := make([]float64, len(taps))
	for i := range weights {
		weights[i] = 1
	}
	var a, slope float64
	for range 10 {
		a, slope = line(taps, weights)
		biweight(taps, weights, func(n float64) float64 { return a + slope*n })
	}
	return func(n float64) float64 { return a + slope*n }
}

// local returns the beat through the taps where the tempo changes: at each
// beat the parabola through the taps around it, the near ones weighing more
// and those far off the curve less (Cleveland's locally weighted regression,
// J. Am. Stat. Assoc. 74, 1979). A line would cut the bend of a changing
// tempo short.
func local(taps []tap) func(n float64) float64 {
	robust := make([]float64, len(taps))
	for i := range robust {
		robust[i] = 1
	}
	near := min(len(taps), 15)
	place := func(n float64) float64 {
		from := sort.Search(len(taps)-near, func(i int) bool {
			return n-float64(taps[i].n) <= float64(taps[i+near].n)-n
		})
		window := taps[from : from+near]
		reach := 1 + max(n-float64(window[0].n), float64(window[near-1].n)-n)
		weights := make([]float64, near)
		for i, t := range window {
			d := math.Abs(float64(t.n)-n) / reach
			weights[i] = robust[from+i] * math.Pow(1-d*d*d, 3)
		}
		return parabola(window, weights, n, reach)
	}
	for range 3 {
		biweight(taps, robust, place)
	}
	return place
}

// parabola returns the height at n of the parabola of weighted least squares
// through three or more taps; distances from n are counted in reach.
func parabola(taps []tap, weights []float64, n, reach float64) float64 {
	var s [5]float64 // sums of weight * x^k
	var y [3]float64 // sums of weight * x^k * seconds from the first tap
	for i, t := range taps {
		x, p := (float64(t.n)-n)/reach, weights[i]
		for k := range s {
			s[k] += p
			if k < len(y) {
				y[k] += p * (t.at - taps[0].at)
			}
			p *= x
		}
	}
	// Cramer's rule on the normal equations.
	det := func(a, b, c float64, d, e, f float64, g, h, i float64) float64 {
		return a*(e*i-f*h) - b*(d*i-f*g) + c*(d*h-e*g)
	}
	return taps[0].at + det(y[0], s[1], s[2], y[1], s[2], s[3], y[2], s[3], s[4])/
		det(s[0], s[1], s[2], s[1], s[2], s[3], s[2], s[3], s[4])
}

// line returns the line of weighted least squares through taps.
func line(taps []tap, weights []float64) (a, slope float64) {
	var w, n, at float64
	for i, t := range taps {
		w += weights[i]
		n += weights[i] * float64(t.n)
		at += weights[i] * t.at
	}
	n, at = n/w, at/w
	var nn, na float64
	for i, t := range taps {
		d := float64(t.n) - n
		nn += weights[i] * d * d
		na += weights[i] * d * (t.at - at)
	}
	slope = na / nn
	return at - slope*n, slope
}

// biweight weighs each tap by how far it is off its place, in median
// deviations; none weighs nothing, so that a line can always be drawn.
func biweight(taps []tap, weights []float64, place func(n float64) float64) {
	off := make([]float64, len(taps))
	for i, t := range taps {
		off[i] = math.Abs(t.at - place(float64(t.n)))
	}
	sorted := slices.Clone(off)
	slices.Sort(sorted)
	reach := 4.685 * max(sorted[len(sorted)/2]/0.6745, 0.001)
	for i := range weights {
		u := min(1, off[i]/reach)
		weights[i] = max(1e-6, (1-u*u)*(1-u*u))
	}
}
