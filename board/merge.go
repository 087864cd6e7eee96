package board

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"sort"
)

// LockBeats keeps the beats between two seconds of song as they are when a
// new analysis is laid over the grid.
func LockBeats(from, to float64) Edit {
	return onLocks("lock beats", from, to, joined)
}

// UnlockBeats gives the beats between two seconds of song free to a new
// analysis. Those set by hand still stay.
func UnlockBeats(from, to float64) Edit {
	return onLocks("unlock beats", from, to, without)
}

func onLocks(name string, from, to float64, change func([]Stretch, Stretch) []Stretch) Edit {
	return Edit{Name: name, Apply: func(b Board) (Board, error) {
		if !finite(from, MaxSeconds) || !finite(to, MaxSeconds) || from >= to {
			return b, fmt.Errorf("there is no stretch of song from %g to %g seconds", from, to)
		}
		out := b
		out.Grid.Locks = change(b.Grid.Locks, Stretch{from, to})
		return out.checked(b)
	}}
}

// MergeGrid lays a new analysis over the grid. Locked stretches stay as they
// are and beats set by hand stay where they are, with nothing between two such
// beats in a row; everything else is as in the analysis. An analysed beat
// closer to one that stays than two fifths of the interval to its own
// neighbours is the same beat and gives way. Where no analysed beat has room
// only its onsets are taken. Anchored starts go to the place nearest in time,
// as with SetSong.
//
// To lay an analysis on without regard to what was set, use SetSong with the
// board's song.
func MergeGrid(analysis Grid) Edit {
	return Edit{Name: "new analysis of the beats", Apply: func(b Board) (Board, error) {
		if err := analysis.check(); err != nil {
			return b, err
		}
		out := b
		out.Grid = b.Grid.merged(analysis)
		return out.reanchored(b).checked(b)
	}}
}

// seam is the part of an interval within which two beats are the same one.
const seam = 0.4

// merged returns the grid that MergeGrid lays: what of g stays, the rest from
// heard.
func (g Grid) merged(heard Grid) Grid {
	out := heard
	out.Locks = g.Locks
	for _, l := range g.Locks {
		out.Unsure = without(out.Unsure, l)
	}
	locked := func(b Beat) bool { return Within(g.Locks, b.Time) }
	stay, closed := g.staying(locked)
	out.Beats = slices.Clone(stay)
	for i, h := range heard.Beats {
		switch twin := heard.twin(i, stay); {
		case locked(h) || touches(closed, h.Time):
		case twin < 0:
			out.Beats = append(out.Beats, h)
		case nearestBeat(heard.Beats, stay[twin].Time) == i && !touches(closed, stay[twin].Time):
			out.Beats[twin].Bar = h.Bar // set by hand on its own: the analysis knows the bars about it
		}
	}
	if len(stay) > 0 && len(out.Beats) == len(stay) {
		out.Tempo, out.Confidence, out.Metre = g.Tempo, g.Confidence, g.Metre
	}
	slices.SortFunc(out.Beats, func(a, b Beat) int { return cmp.Compare(a.Time, b.Time) })
	recount(out.Beats, locked)
	return out
}

// beyond is the part of the interval at an end of the grid within which a new
// analysis adds no beat to those that stay there.
const beyond = 0.6

// staying returns the beats that a new analysis leaves alone and the stretches
// in which it adds none: from one of them to the next, and a little beyond the
// ends of the grid.
func (g Grid) staying(locked func(Beat) bool) (stay []Beat, closed []Stretch) {
	for i, b := range g.Beats {
		if !b.Hand && !locked(b) {
			continue
		}
		if n := len(stay); n > 0 && stay[n-1] == g.Beats[i-1] && b.Time-stay[n-1].Time <= 60.0/MinTempo {
			run := Stretch{stay[n-1].Time, b.Time}
			edge := beyond * (run.To - run.From)
			if i == 1 {
				run.From -= edge
			}
			if i == len(g.Beats)-1 {
				run.To += edge
			}
			closed = append(closed, run)
		}
		stay = append(stay, b)
	}
	return stay, closed
}

// touches reports whether second t lies in one of the stretches or ends one.
func touches(list []Stretch, t float64) bool {
	i := sort.Search(len(list), func(i int) bool { return list[i].To >= t })
	return i < len(list) && list[i].From <= t
}

// twin returns the index of the one of others, ascending, that is the same
// beat as beat i of g, -1 if none is.
func (g Grid) twin(i int, others []Beat) int {
	t := g.Beats[i].Time
	near := nearestBeat(others, t)
	if near < 0 || math.Abs(others[near].Time-t) >= max(seam*g.gap(i), MinBeat+slack) {
		return -1
	}
	return near
}

// gap returns the shorter of the intervals on either side of beat i, 0 for the
// only beat.
func (g Grid) gap(i int) float64 {
	var gap float64
	if i > 0 {
		gap = g.Beats[i].Time - g.Beats[i-1].Time
	}
	if i+1 < len(g.Beats) {
		if next := g.Beats[i+1].Time - g.Beats[i].Time; gap == 0 || next < gap {
			gap = next
		}
	}
	return gap
}

// nearestBeat returns the index of the beat nearest to t, -1 if there is none.
func nearestBeat(beats []Beat, t float64) int {
	i := sort.Search(len(beats), func(i int) bool { return beats[i].Time >= t })
	if i == len(beats) || i > 0 && t-beats[i-1].Time <= beats[i].Time-t {
		return i - 1
	}
	return i
}
