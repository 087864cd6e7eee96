package score

import "math"

// Continuity holds the continuity measures: the part of the beats that are
// right in place and interval, in the longest run (c) or in all (t), at the
// correct metrical level (CML) or at any allowed (AML): also between the
// beats, at double or at half the tempo.
type Continuity struct{ CMLc, CMLt, AMLc, AMLt float64 }

// Continuous returns the continuity measures; all 0 if a list has fewer than
// two beats.
func Continuous(truth, found []float64) Continuity {
	var c Continuity
	if len(truth) < 2 || len(found) < 2 {
		return c
	}
	c.CMLc, c.CMLt = correct(truth, found)
	for _, level := range levels(truth) {
		run, all := correct(level, found)
		c.AMLc, c.AMLt = math.Max(c.AMLc, run), math.Max(c.AMLt, all)
	}
	return c
}

// levels returns the beats as they are, between them, at double tempo, and
// both ways of taking every other one.
func levels(beats []float64) [5][]float64 {
	var off, double []float64
	var half [2][]float64
	for i, b := range beats {
		double = append(double, b)
		half[i%2] = append(half[i%2], b)
		if i+1 < len(beats) {
			middle := (b + beats[i+1]) / 2
			off = append(off, middle)
			double = append(double, middle)
		}
	}
	return [5][]float64{beats, off, double, half[0], half[1]}
}

// correct returns the longest run of found beats that are right and all of
// them, both over the greater number of beats. A beat is right if it and its
// interval differ from those of the nearest true beat, taken once, by less
// than 17.5 % of the interval.
func correct(truth, found []float64) (run, all float64) {
	const tolerance = 0.175
	if len(truth) < 2 {
		return 0, 0
	}
	taken := make([]bool, len(truth))
	now, longest, total := 0, 0, 0
	for i, b := range found {
		k := nearest(truth, b)
		// the interval before, or after when one has none before
		at, from := i, k
		if i == 0 || k == 0 {
			at, from = min(i+1, len(found)-1), min(k+1, len(truth)-1)
		}
		want, got := truth[from]-truth[from-1], found[at]-found[at-1]
		if !taken[k] && math.Abs(b-truth[k])/want < tolerance && math.Abs(1-got/want) < tolerance {
			taken[k] = true
			now++
			total++
			longest = max(longest, now)
		} else {
			now = 0
		}
	}
	n := float64(max(len(truth), len(found)))
	return float64(longest) / n, float64(total) / n
}
