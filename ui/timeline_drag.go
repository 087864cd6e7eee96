package ui

import (
	"math"

	"stillbeat/board"
)

func (t *timeline) grabStart(i int, x float64) {
	t.drag = dragState{mode: dragStart, start: i, before: t.view.board, grab: x - t.view.frameX(t.view.starts[i])}
	if t.target != "" {
		t.drag.landings = t.view.board.Landings(t.target)
	}
}

// reachUnits is how near, in units of width, a dragged start must come to a
// beat to land on it.
const reachUnits = 9

// moveStart shows start t.drag.start at x: on the nearest beat if one is in
// reach and Shift is not held, else free.
func (t *timeline) moveStart(x float64) {
	d, v := &t.drag, &t.view
	b := d.before
	room, err := b.Room(d.start)
	if err != nil {
		return
	}
	if t.pushing {
		room.End = b.Rate.Nearest(board.MaxSeconds)
	}
	if least := b.Rate.ShortestHold() - 1; room.Len() > 2*least {
		room = board.Span{Start: room.Start + least, End: room.End - least}
	}
	f := min(max(b.Rate.At(v.sec(x)+0.5/b.Rate.Float()), room.Start), room.End-1)
	to, landing := board.Free(b.Rate.Seconds(f)), false
	if !shiftHeld() {
		reach := board.Frame(math.Ceil(v.span(reachUnits) * b.Rate.Float()))
		if l, ok := board.NearestLanding(d.landings, f, reach); ok && room.Contains(l.Frame) {
			to, f, landing = l.Start, l.Frame, true
		}
	}
	shown, err := t.moving(d.start, to).Apply(b)
	if err != nil {
		return
	}
	d.result, d.moved = to, true
	was := b.Starts()[d.start]
	v.board, v.starts = shown, shown.Starts()
	v.drag = &startDrag{index: d.start, landing: landing, words: landingWords(shown, to, f, f-was)}
	t.Refresh()
}

// moving is the edit a dragged start makes: the panels on either side trade
// time, or all after it comes along.
func (t *timeline) moving(start int, to board.Start) board.Edit {
	if t.pushing {
		return board.Push(start, to)
	}
	return board.SetStart(start, to)
}
