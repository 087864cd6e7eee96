// Package score measures how well found beats or onsets agree with true ones.
// All lists are seconds, ascending. The measures are those of Davies, Degara
// and Plumbley, "Evaluation methods for musical audio beat tracking
// algorithms", 2009, with the constants of mir_eval.
package score

import (
	"math"
	"slices"
)

const (
	// BeatWindow and OnsetWindow are the usual distances, seconds, within
	// which an event counts as found.
	BeatWindow, OnsetWindow = 0.07, 0.05
	// Settling is the time, seconds, before which beats are usually ignored.
	Settling = 5.0
)

// From returns the events at t and later.
func From(events []float64, t float64) []float64 {
	i, _ := slices.BinarySearch(events, t)
	return events[i:]
}

// Match pairs the indices of true and found events that lie within window
// seconds, limits included; each event is in one pair at most and no other
// choice has more pairs.
func Match(truth, found []float64, window float64) [][2]int {
	var pairs [][2]int
	for i, j := 0, 0; i < len(truth) && j < len(found); {
		switch {
		case found[j] < truth[i]-window:
			j++
		case found[j] > truth[i]+window:
			i++
		default: // the earliest two that fit: a later choice gains nothing
			pairs = append(pairs, [2]int{i, j})
			i, j = i+1, j+1
		}
	}
	return pairs
}

// Hits counts matched events.
type Hits struct {
	Precision float64 // of the found events, the part that is true
	Recall    float64 // of the true events, the part that was found
	F         float64 // harmonic mean of both
}

// Events returns the hits within window seconds; all 0 if a list is empty.
func Events(truth, found []float64, window float64) Hits {
	n := float64(len(Match(truth, found, window)))
	if n == 0 {
		return Hits{}
	}
	p, r := n/float64(len(found)), n/float64(len(truth))
	return Hits{Precision: p, Recall: r, F: 2 * p * r / (p + r)}
}

// Offset returns the mean distance and the mean signed distance, seconds, of
// the found from the true events they match; positive is late.
func Offset(truth, found []float64, window float64) (distance, bias float64) {
	pairs := Match(truth, found, window)
	for _, p := range pairs {
		d := found[p[1]] - truth[p[0]]
		distance += math.Abs(d) / float64(len(pairs))
		bias += d / float64(len(pairs))
	}
	return distance, bias
}

// Cemgil returns the mean closeness of the nearest found beat to each true
// one, by a Gaussian of 40 ms, over the mean number of beats.
func Cemgil(truth, found []float64) float64 {
	const deviation = 0.04
	if len(truth) == 0 || len(found) == 0 {
		return 0
	}
	sum := 0.0
	for _, t := range truth {
		d := (found[nearest(found, t)] - t) / deviation
		sum += math.Exp(-d * d / 2)
	}
	return 2 * sum / float64(len(truth)+len(found))
}

// nearest returns the index of the event nearest to t, the earlier of two.
func nearest(events []float64, t float64) int {
	i, _ := slices.BinarySearch(events, t)
	if i == len(events) || i > 0 && t-events[i-1] <= events[i]-t {
		i--
	}
	return i
}

// PScore returns the number of pairs of a true and a found beat that lie
// within a fifth of the median true interval, on a grid of 10 ms, over the
// greater number of beats. It is 0 with fewer than two true beats or none
// found.
func PScore(truth, found []float64) float64 {
	if len(truth) < 2 || len(found) == 0 {
		return 0
	}
	start := min(truth[0], found[0])
	a, b := gridded(truth, start), gridded(found, start)
	var intervals []int
	for i := 1; i < len(a); i++ {
		intervals = append(intervals, a[i]-a[i-1])
	}
	slices.Sort(intervals)
	n := len(intervals)
	window := int(math.RoundToEven(0.2 * float64(intervals[(n-1)/2]+intervals[n/2]) / 2))
	pairs := 0
	for _, x := range a {
		for _, y := range b {
			if y-x <= window && x-y <= window {
				pairs++
			}
		}
	}
	return float64(pairs) / float64(max(len(truth), len(found)))
}

// gridded returns the events in units of 10 ms after start, rounded up.
func gridded(events []float64, start float64) []int {
	out := make([]int, len(events))
	for i, t := range events {
		out[i] = int(math.Ceil((t-start)*100 - 1e-7)) // 1.1 s is 110 units, not 111
	}
	return out
}
