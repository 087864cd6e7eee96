package board

import (
	"cmp"
	"math"
	"slices"
	"sort"
)

// Lateness is sought within lateReach seconds; those of a match lie within
// lateSpread of each other on either side.
const (
	lateReach  = 0.3
	lateSpread = 0.03
)

// lateness returns the seconds by which beats come after the reference, and
// how many of them bear it out. Of all distances from a beat to a mark near it
// the ones that agree best are taken, small ones for choice, and of those the
// median: onsets between the beats agree on nothing nearer.
func lateness(beats, reference []float64, period float64) (late float64, matched int) {
	type distance struct {
		by   float64
		beat int
	}
	reach := min(lateReach, period/2)
	var all []distance
	for i, t := range beats {
		for k := sort.SearchFloat64s(reference, t-reach); k < len(reference) && reference[k] <= t+reach; k++ {
			all = append(all, distance{t - reference[k], i})
		}
	}
	slices.SortFunc(all, func(a, b distance) int { return cmp.Compare(a.by, b.by) })
	var best []distance
	most, from, to := 0.0, 0, 0
	for _, d := range all {
		for all[from].by < d.by-lateSpread {
			from++
		}
		for to < len(all) && all[to].by <= d.by+lateSpread {
			to++
		}
		if agree := float64(to-from) * math.Exp(-d.by*d.by/(2*lateReach*lateReach)); agree > most {
			most, best = agree, all[from:to]
		}
	}
	seen := map[int]bool{}
	for _, d := range best {
		seen[d.beat] = true
	}
	if len(seen) < MinTaps || 3*len(seen) < len(beats) {
		return 0, 0
	}
	return best[len(best)/2].by, len(seen)
}
