package board

import (
	"math"
	"slices"
)

// A follow says where an anchor of an old grid belongs on a new one, and
// false if it belongs nowhere.
type follow func(Anchor) (Anchor, bool)

// regridded returns the board on grid g, which follow is not asked about if it
// is empty. Anchored starts go where follow
// takes them, with the lead or lag they had; those that belong nowhere become
// free and keep their frame. Starts that come to ask for the frames of others
// give way as after SlideSong: see Starts.
func (b Board) regridded(g Grid, to follow) Board {
	out := b
	out.Grid = g
	if !b.OnGrid() {
		return out.reanchored(b)
	}
	carry := func(s Start) Start {
		if !s.Anchored() {
			return s
		}
		if out.OnGrid() {
			if a, ok := to(s.Anchor); ok && a.check() == nil {
				a.Offset = s.Anchor.Offset
				s.Anchor = a
				s.Time = out.Seconds(s)
				return s
			}
		}
		return freed(b, s)
	}
	out.Panels = slices.Clone(b.Panels)
	for i := range out.Panels {
		out.Panels[i].Start = carry(b.Panels[i].Start)
	}
	out.End = carry(b.End)
	return out.withMarkers(carry).withHits(carry)
}

// scaled follows beats to (num * beat - shift) / den, exactly: a place that
// would need a finer part than MaxParts is none.
func scaled(num, den, shift int) follow {
	return func(a Anchor) (Anchor, bool) {
		of := den * a.Of
		at := num*(a.Beat*a.Of+a.Part) - shift*a.Of
		beat := floorDiv(at, of)
		out := reduced(beat, at-beat*of, of)
		return out, out.Of <= MaxParts
	}
}

func floorDiv(a, b int) int {
	q := a / b
	if a%b < 0 {
		q--
	}
	return q
}

// placed returns the place on grid g, in the simplest form, at which a start
// of b stays on its frame: at its exact time, else on a common division of
// the beat less than 10 ms away. It reports false if there is none.
func (b Board) placed(g Grid, a Anchor) (Anchor, bool) {
	t := b.Grid.Time(a.Beat, a.Part, a.Of)
	for _, try := range []struct {
		reach float64
		parts []int
	}{
		{1e-6, []int{1, 2, 3, 4, 6, 8, 12, 16, 24, 48}},
		{0.01, []int{1, 2, 3, 4}},
	} {
		for _, of := range try.parts {
			near := g.Near(t, of)
			at := g.Time(near.Beat, near.Part, near.Of)
			if math.Abs(at-t) <= try.reach && b.Rate.Nearest(b.SongOffset()+at) == b.Rate.Nearest(b.SongOffset()+t) {
				return near, true
			}
		}
	}
	return a, false
}
