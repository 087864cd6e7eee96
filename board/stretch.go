package board

import (
	"math"
	"sort"
)

// Stretch is a region of the song, in seconds, From included and To not. Lists
// of them are ascending and do not touch.
type Stretch struct {
	From float64 `json:"from"`
	To   float64 `json:"to"`
}

// MaxStretches is the most regions a list of them holds.
const MaxStretches = 10000

// Within reports whether one of the stretches, ascending, holds second t.
func Within(list []Stretch, t float64) bool {
	i := sort.Search(len(list), func(i int) bool { return list[i].To > t })
	return i < len(list) && list[i].From <= t
}

// tidy reports whether a list of stretches keeps the rules.
func tidy(list []Stretch) bool {
	last := math.Inf(-1)
	for _, s := range list {
		if !finite(s.From, MaxSeconds) || !finite(s.To, MaxSeconds) || s.From >= s.To || s.From <= last {
			return false
		}
		last = s.To
	}
	return len(list) <= MaxStretches
}

// joined returns the list with a stretch added, which takes in those it
// touches.
func joined(list []Stretch, add Stretch) []Stretch {
	var out []Stretch
	placed := false
	for _, s := range list {
		switch {
		case s.To < add.From:
			out = append(out, s)
		case s.From > add.To:
			if !placed {
				out, placed = append(out, add), true
			}
			out = append(out, s)
		default:
			add = Stretch{min(s.From, add.From), max(s.To, add.To)}
		}
	}
	if !placed {
		out = append(out, add)
	}
	return out
}

// without returns the list with a stretch cut out of it.
func without(list []Stretch, cut Stretch) []Stretch {
	var out []Stretch
	for _, s := range list {
		for _, rest := range []Stretch{{s.From, min(s.To, cut.From)}, {max(s.From, cut.To), s.To}} {
			if rest.From < rest.To {
				out = append(out, rest)
			}
		}
	}
	return out
}

// shifted returns the list moved by so many seconds.
func shifted(list []Stretch, by float64) []Stretch {
	var out []Stretch
	for _, s := range list {
		out = append(out, Stretch{s.From + by, s.To + by})
	}
	return out
}
