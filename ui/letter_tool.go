package ui

import (
	"fyne.io/fyne/v2/driver/desktop"

	"stillbeat/board"
	"stillbeat/board/picture"
)

// letterTool chooses, moves and bends the lettering of the chosen panel.
type letterTool struct {
	f     *letterFace
	part  letterPart   // held by
	from  board.Point  // where it was taken
	taken board.Letter // as it was then
	over  int          // lettering under the pointer, -1 none
}

// Down takes hold of the lettering under the pointer, of the chosen one first.
func (t *letterTool) Down(p board.Point, g grip) {
	f := t.f
	list, aspect := f.list(), f.w.board.Aspect
	t.part = noLetterPart
	if f.at >= 0 {
		t.part = letterPartUnder(list[f.at], aspect, p, g.reach)
	}
	if t.part == noLetterPart || t.part == letterBody {
		if k := letterUnder(list, aspect, p, g.reach/2); k >= 0 && (t.part == noLetterPart || k > f.at) {
			f.pick(k)
			t.part = letterBody
		} else if t.part == noLetterPart {
			f.pick(-1)
			return
		}
	}
	t.from, t.taken = p, f.list()[f.at]
}

// Drag moves what is held.
func (t *letterTool) Drag(p board.Point, g grip) {
	if t.part == noLetterPart || t.f.at < 0 {
		return
	}
	l := draggedLetter(t.taken, t.f.w.board.Aspect, t.part, t.from, p)
	if t.part == letterBody && g.held&shift == 0 {
		l.At = steadied(l.At, g.reach)
	}
	t.f.set(l)
}

// steadied puts a middle that is nearly on an axis of the frame onto it.
func steadied(p board.Point, reach float64) board.Point {
	if p.X > -reach/2 && p.X < reach/2 {
		p.X = 0
	}
	if p.Y > -reach/2 && p.Y < reach/2 {
		p.Y = 0
	}
	return p
}

// Up lets go: the drag is one step to undo.
func (t *letterTool) Up() {
	t.part = noLetterPart
	t.f.w.desk.CloseEdit()
}

// Hover shows what would be taken.
func (t *letterTool) Hover(p board.Point, g grip) desktop.StandardCursor {
	f := t.f
	list, aspect := f.list(), f.w.board.Aspect
	over := letterUnder(list, aspect, p, g.reach/2)
	if over != t.over {
		t.over = over
		f.w.surface.Refresh()
	}
	if f.at >= 0 {
		switch letterPartUnder(list[f.at], aspect, p, g.reach) {
		case letterWidth:
			return desktop.HResizeCursor
		case letterTo, letterFrom, letterBend:
			return desktop.CrosshairCursor
		}
	}
	if over >= 0 {
		return desktop.PointerCursor
	}
	return desktop.DefaultCursor
}

// Paint frames the lettering under the pointer and what is chosen.
func (t *letterTool) Paint(m marks) {
	f := t.f
	list, aspect := f.list(), f.w.board.Aspect
	if t.over >= 0 && t.over < len(list) && t.over != f.at {
		m.outlined(picture.ExtentOf(list[t.over], aspect))
	}
	if f.at < 0 {
		return
	}
	m.outlined(picture.ExtentOf(list[f.at], aspect))
	for _, g := range letterGrips(list[f.at], aspect) {
		x, y := m.at(g.at)
		m.knob(x, y, handleSize)
	}
}

// outlined draws a frame around words, a line along an arrow.
func (m marks) outlined(e picture.Extent) {
	path := e.Path
	if path == nil {
		lo := board.Point{X: e.At.X - e.Half.X, Y: e.At.Y - e.Half.Y}
		hi := board.Point{X: e.At.X + e.Half.X, Y: e.At.Y + e.Half.Y}
		path = []board.Point{lo, {X: hi.X, Y: lo.Y}, hi, {X: lo.X, Y: hi.Y}, lo}
	}
	for i := 1; i < len(path); i++ {
		m.edge(path[i-1], path[i])
	}
}
