package ui

import (
	"stillbeat/board"
	"stillbeat/board/picture"
)

// readyMove is a move of the camera that is set at once.
type readyMove struct {
	name, hint string
	dx, dy     float64 // which way a pan goes
	push       int     // in: 1, out: -1
}

// readyMoves are all of them. Closer by about a seventh, and a pan over a fifth
// of the frame where the picture has no room beside it: common practice for
// moves that are felt more than seen.
var readyMoves = []readyMove{
	{name: "Hold", hint: "The camera stands still"},
	{name: "Push in", hint: "From what it sees now a little closer", push: 1},
	{name: "Pull out", hint: "From a little closer to what it sees now", push: -1},
	{name: "Pan left", hint: "To the left: over the whole picture where it is wider than the frame", dx: -1},
	{name: "Pan right", hint: "To the right: over the whole picture where it is wider than the frame", dx: 1},
	{name: "Pan up", hint: "Up: over the whole picture where it is higher than the frame", dy: -1},
	{name: "Pan down", hint: "Down: over the whole picture where it is higher than the frame", dy: 1},
}

const (
	pushPart = 0.86 // of the width
	panPart  = 0.8
)

// of returns the ready move for a panel whose camera moves as now, over a
// picture that lies in a box; without a picture that is the frame.
func (r readyMove) of(now board.CameraMove, pic box, wide float64) board.CameraMove {
	seen := now.From
	if r.push < 0 {
		seen = now.To
	}
	m := board.CameraMove{From: seen, To: seen, Spacing: now.Spacing}
	if now.Holds() {
		m.Spacing = board.SlowInOut
	}
	closer := board.Framing{At: seen.At, Width: max(rounded(seen.Part()*pushPart, 4), board.MinFraming)}
	switch {
	case r.push > 0:
		m.To = closer
	case r.push < 0:
		m.From = closer
	case r.dx != 0 || r.dy != 0:
		m.From, m.To = r.pan(pic, wide)
	default:
		m.Spacing = board.Even
	}
	return m
}

// pan goes from one side of the picture to the other, the whole frame wide if
// there is room for it beside the frame, else with a part of it.
func (r readyMove) pan(pic box, wide float64) (from, to board.Framing) {
	w, h, ok := pic.upright()
	room, frame, mid := w, wide, pic.mid.X
	if r.dy != 0 {
		room, frame, mid = h, 1, pic.mid.Y
	}
	part := 1.
	if !ok || room < frame*1.1 {
		part, room, mid = panPart, frame, 0
	}
	half := (room - frame*part) / 2
	at := func(v float64) board.Framing {
		f := board.Framing{Width: part}
		if part == 1 {
			f.Width = 0
		}
		if r.dy != 0 {
			f.At.Y = mid + v*r.dy
		} else {
			f.At.X = mid + v*r.dx
		}
		f.At = clean(f.At)
		return f
	}
	return at(-half), at(half)
}

// readyMove sets a ready move in the chosen panels.
func (w *window) readyMove(r readyMove) {
	if w.chosen < 0 {
		return
	}
	wide := w.board.Aspect.Ratio()
	pic, ok := w.pictureBox()
	if !ok {
		pic = box{board.Point{}, wide, 1, 0}
	}
	w.moveCamera(r.of(w.board.Panels[w.chosen].Drawing().Travel, pic, wide))
}

// pictureBox returns where the chosen panel's photograph lies, if it has one
// and its size is known.
func (w *window) pictureBox() (box, bool) {
	size, ok := w.film.PictureSize(w.chosen)
	if !ok {
		return box{}, false
	}
	p := w.board.Panels[w.chosen].Drawing().Placed
	wide, tall := picture.SizeOf(p, size, w.board.Aspect)
	return box{p.At, wide, tall, p.Turn}, true
}

// swapMove lets the move run the other way.
func (w *window) swapMove() {
	m := w.board.Panels[w.chosen].Drawing().Travel
	m.From, m.To = m.To, m.From
	w.moveCamera(m)
}

// moveOn begins the move where that of the panel before ends.
func (w *window) moveOn() {
	m := w.board.Panels[w.chosen].Drawing().Travel
	m.From = w.board.Panels[w.chosen-1].Drawing().Travel.To
	w.moveCamera(m)
}

// moves reports whether the camera moves in the chosen panel.
func (w *window) moves() bool {
	return w.chosen >= 0 && !w.board.Panels[w.chosen].Drawing().Travel.Holds()
}

// beyondWords says where a move shows more than the picture has; "" if it does
// not. A camera that holds on the whole frame shows what the placement has.
func beyondWords(m board.CameraMove, pic box, wide float64) string {
	if m.Holds() && m.From.Part() == 1 && m.From.At == (board.Point{}) {
		return ""
	}
	from, to := !boxOf(m.From, wide).within(pic), !boxOf(m.To, wide).within(pic)
	switch {
	case m.Holds() && from:
		return "The camera shows more than the picture has."
	case from && to:
		return "Start and end show more than the picture has."
	case from:
		return "The start shows more than the picture has."
	case to:
		return "The end shows more than the picture has."
	}
	return ""
}

// playPanel plays the chosen panels once, and goes back to the first.
func (w *window) playPanel() {
	set := w.selection()
	if len(set) == 0 {
		return
	}
	w.stop()
	w.goTo(w.starts[set[0]], true)
	w.playFrom(span{w.starts[set[0]], w.starts[set[len(set)-1]+1]}, 0)
}
