package board

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"sort"
)

var (
	errNoBeat  = errors.New("there is no such beat")
	errNoBeats = errors.New("the film has no beats")
)

// SlideGrid moves all beats by so many seconds while the song stays, and with
// them the locks and what is anchored. All count as set by hand.
func SlideGrid(by float64) Edit {
	return Edit{Name: "slide the beats", Merge: "slide the beats", Apply: func(b Board) (Board, error) {
		if len(b.Grid.Beats) == 0 {
			return b, errNoBeats
		}
		out := b
		out.Grid.Beats = slices.Clone(b.Grid.Beats)
		for i := range out.Grid.Beats {
			out.Grid.Beats[i].Time += by
			out.Grid.Beats[i].Hand = true
		}
		out.Grid.Locks = shifted(b.Grid.Locks, by)
		return out.checked(b)
	}}
}

// MoveBeat moves beat i to second t of the song, between its neighbours.
// Anchored starts follow it.
func MoveBeat(i int, t float64) Edit {
	name := fmt.Sprintf("move beat %d", i+1)
	return Edit{Name: name, Merge: name, Apply: func(b Board) (Board, error) {
		room, err := b.Grid.BeatRoom(i)
		if err != nil {
			return b, err
		}
		if !(t >= room.From && t <= room.To) {
			return b, fmt.Errorf("beat %d can be moved from %.3f to %.3f seconds, not to %.3f", i+1, room.From, room.To, t)
		}
		out := b
		out.Grid.Beats = slices.Clone(b.Grid.Beats)
		out.Grid.Beats[i].Time, out.Grid.Beats[i].Hand = t, true
		return out.checked(b)
	}}
}

// BeatRoom returns the seconds of song between which beat i can be moved.
func (g Grid) BeatRoom(i int) (Stretch, error) {
	if i < 0 || i >= len(g.Beats) {
		return Stretch{}, errNoBeat
	}
	room := Stretch{-MaxSeconds, MaxSeconds}
	const edge = MinBeat + slack
	if i > 0 {
		room.From = g.Beats[i-1].Time + edge
	}
	if i+1 < len(g.Beats) {
		room.To = g.Beats[i+1].Time - edge
	}
	return room, nil
}

// AddBeat puts a beat at second t of the song. Anchored starts stay on their
// beats. Those between the beats on either side keep their time, as a part of
// the shorter interval or else free. A beat added where the grid went on by
// itself is the beat that was counted there.
func AddBeat(t float64) Edit {
	return Edit{Name: "add beat", Apply: func(b Board) (Board, error) {
		beats := b.Grid.Beats
		if !finite(t, MaxSeconds) {
			return b, fmt.Errorf("a beat at %g seconds is outside the film", t)
		}
		i, n := sort.Search(len(beats), func(i int) bool { return beats[i].Time > t }), len(beats)
		for _, k := range []int{i - 1, i} {
			if k >= 0 && k < n && math.Abs(beats[k].Time-t) < MinBeat+slack {
				return b, fmt.Errorf("there is a beat at %.3f seconds already", beats[k].Time)
			}
		}
		g := b.Grid
		g.Beats = slices.Insert(slices.Clone(beats), i, Beat{Time: t, Hand: true})
		recount(g.Beats, nil)
		counted := b.OnGrid() && (i == 0 && b.Grid.Near(t, 1).Beat == -1 || i == n && b.Grid.Near(t, 1).Beat == n)
		return b.regridded(g, func(a Anchor) (Anchor, bool) {
			to := a
			if i == 0 || i < n && a.Beat >= i {
				to.Beat++
			}
			beyond := i == 0 && a.Beat < 0 || i == n && a.Beat >= n-1
			if counted && beyond || g.same(to, b.Grid, a) {
				return to, true
			}
			return b.placed(g, a)
		}).checked(b)
	}}
}

// RemoveBeat takes beat i out; if it started a bar, the next beat does. A new
// analysis does not bring it back: its neighbours count as set by hand and, at
// either end of the grid, the place where it was is locked. Anchored starts
// stay on their beats. Those on the beat and beside it keep their time, as a
// part of the wider interval or else free.
func RemoveBeat(i int) Edit {
	return Edit{Name: fmt.Sprintf("remove beat %d", i+1), Apply: func(b Board) (Board, error) {
		n := len(b.Grid.Beats)
		if i < 0 || i >= n {
			return b, errNoBeat
		}
		g, gone := b.Grid, b.Grid.Beats[i]
		g.Beats = slices.Delete(slices.Clone(g.Beats), i, i+1)
		if i < len(g.Beats) {
			next := &g.Beats[i]
			next.Bar = next.Bar || gone.Bar
			if gone.Metre > 0 && next.Metre == 0 {
				next.Metre, next.Hand = gone.Metre, true
			}
		}
		if i == 0 || i == n-1 {
			near := min(max(MinBeat, seam*b.Grid.gap(i)), gone.Time+MaxSeconds, MaxSeconds-gone.Time)
			g.Locks = joined(g.Locks, Stretch{gone.Time - near, gone.Time + near})
		} else {
			g.Beats[i-1].Hand, g.Beats[i].Hand = true, true
		}
		recount(g.Beats, nil)
		return b.regridded(g, func(a Anchor) (Anchor, bool) {
			to := a
			if i == 0 || a.Beat > i && i < n-1 {
				to.Beat--
			}
			beyond := i == 0 && a.Beat < 0 || i == n-1 && a.Beat >= n
			if beyond || g.same(to, b.Grid, a) {
				return to, true
			}
			return b.placed(g, a)
		}).checked(b)
	}}
}

// same reports whether a place on g is at the time of a place on another grid.
func (g Grid) same(a Anchor, other Grid, o Anchor) bool {
	return math.Abs(g.Time(a.Beat, a.Part, a.Of)-other.Time(o.Beat, o.Part, o.Of)) < slack
}
