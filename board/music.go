package board

import (
	"math"
	"slices"
	"strings"
)

// SetSong lays a song with its beats under the film, or takes it away (nil).
// Starts that were anchored go to the nearest beat of the new grid. They
// become free and keep their time when there are no beats any more, and where
// slower beats would pile several starts on one frame: the one that moves
// least gets it.
func SetSong(s *Song, g Grid) Edit {
	name := "song"
	if s == nil {
		name = "take the song away"
	}
	return Edit{Name: name, Apply: func(b Board) (Board, error) {
		out := b
		out.Grid = g
		out.Song = nil
		if s != nil {
			c := *s
			c.Name = strings.ToValidUTF8(c.Name, "\uFFFD") // file names may be any bytes
			out.Song = &c
		}
		return out.reanchored(b).checked(b)
	}}
}

// reanchored returns the board with the anchors of old carried over to b's
// grid by their time. Neighbours that would end up out of order are undone
// one by one, the further moved first, until the order of old holds again.
func (b Board) reanchored(old Board) Board {
	now := make([]Start, len(b.Panels)+1)
	moved := make([]float64, len(now)) // seconds
	for i := range now {
		s := old.startOf(i)
		now[i] = b.carried(old, s)
		moved[i] = math.Abs(b.Seconds(now[i]) - old.Seconds(s))
	}
	for again := true; again; {
		again = false
		for i := 1; i < len(now); i++ {
			swapped := b.instant(now[i]) <= b.instant(now[i-1]) && old.instant(old.startOf(i)) > old.instant(old.startOf(i-1))
			if !swapped || moved[i]+moved[i-1] == 0 {
				continue
			}
			k := i
			if moved[i-1] > moved[i] {
				k = i - 1
			}
			now[k], moved[k], again = freed(old, old.startOf(k)), 0, true
		}
	}
	b.Panels = slices.Clone(b.Panels)
	for i := range b.Panels {
		b.Panels[i].Start = now[i]
	}
	b.End = now[len(b.Panels)]
	carry := func(s Start) Start { return b.carried(old, s) }
	return b.withMarkers(carry).withHits(carry)
}

// carried returns the start on b's grid nearest to where it is on old. A part
// of a beat stays that part if the beats on either side of it have come to be
// neighbours on b's grid too.
func (b Board) carried(old Board, s Start) Start {
	switch {
	case !s.Anchored():
		return s
	case !b.OnGrid():
		return freed(old, s)
	}
	a := b.Grid.Near(old.Seconds(s)-b.SongOffset(), s.Anchor.Of)
	if s.Anchor.Part > 0 && old.OnGrid() {
		beat := func(i int) int {
			t := old.Seconds(Start{Anchor: Anchor{Beat: i, Of: 1}})
			return b.Grid.Near(t-b.SongOffset(), 1).Beat
		}
		if k := beat(s.Anchor.Beat); beat(s.Anchor.Beat+1) == k+1 {
			a = s.Anchor
			a.Beat = k
		}
	}
	a.Offset = s.Anchor.Offset
	return Start{Time: b.Seconds(Start{Anchor: a}), Anchor: a}
}

// freed returns a free start on the frame an anchored one has.
func freed(old Board, s Start) Start { return Free(old.Rate.Seconds(old.Frame(s))) }

// instant returns the second of film a start asks for, its offset included.
func (b Board) instant(s Start) float64 {
	if s.Anchored() && b.OnGrid() {
		return b.Seconds(s) + b.Rate.Seconds(s.Anchor.Offset)
	}
	return s.Time
}
