package board

import (
	"errors"
	"fmt"
)

// LeadUnnoticed is by how many milliseconds a picture may come before its sound
// unnoticed: sound late by 125 ms is the limit of detection (ITU-R BT.1359-1,
// quoted in the trade press).
const LeadUnnoticed = 125

// OffBeat returns by how many milliseconds start i, of a board with these
// starts, comes after the beat nearest to it, or after the part of a beat it is
// anchored to; negative: before. i = len(Panels) is the end of the film. ok is
// false without beats.
func (b Board) OffBeat(starts []Frame, i int) (ms float64, ok bool) {
	if !b.OnGrid() {
		return 0, false
	}
	s := b.End
	if i < len(b.Panels) {
		s = b.Panels[i].Start
	}
	of := 1
	if s.Anchored() {
		of = s.Anchor.Of
	}
	t := b.Rate.Seconds(starts[i]) - b.SongOffset()
	near := b.Grid.Near(t, of)
	return 1000 * (t - b.Grid.Time(near.Beat, near.Part, near.Of)), true
}

var errNoBeatBetween = errors.New("there is no beat between the panels on either side")

// PutOnBeat puts start i on the beat nearest to it that its neighbours leave
// room for; i = len(Panels) moves the end of the film.
func PutOnBeat(i int) Edit {
	return Edit{Name: fmt.Sprintf("put panel %d on the beat", i+1), Apply: func(b Board) (Board, error) {
		room, err := b.Room(i)
		if err != nil {
			return b, err
		}
		at := b.Starts()[i]
		var best Landing
		found := false
		for _, l := range b.Landings(ToBeat) {
			away := func(l Landing) Frame { return max(l.Frame-at, at-l.Frame) }
			if room.Contains(l.Frame) && (!found || away(l) < away(best)) {
				best, found = l, true
			}
		}
		if !found {
			return b, errNoBeatBetween
		}
		return SetStart(i, best.Start).Apply(b)
	}}
}
