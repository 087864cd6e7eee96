package ui

import (
	"fyne.io/fyne/v2/driver/desktop"

	"stillbeat/board"
)

// cameraTool sets what the camera sees of the chosen panels at the start and at
// the end of its move. While it holds still, the two are one.
type cameraTool struct {
	w     *window
	stage *stage
	end   bool // the end of the move is the one at work, not its start
	held  *grabbed
	now   *board.CameraMove
	lines hintLines
	shown func() // the move that is held changed, or the other end is at work
}

// move returns the move as it is held, or as the film says.
func (t *cameraTool) move() board.CameraMove {
	if t.now != nil {
		return *t.now
	}
	return t.w.board.Panels[t.w.chosen].Drawing().Travel
}

func (t *cameraTool) boxes() (from, to box) {
	m, wide := t.move(), t.w.board.Aspect.Ratio()
	return boxOf(m.From, wide), boxOf(m.To, wide)
}

// at finds what is at a place: the corners first, those of the end at work
// before the others, then the insides, the smaller before the larger.
func (t *cameraTool) at(p board.Point, g grip) (b box, end bool, at boxPart) {
	from, to := t.boxes()
	type one struct {
		box
		end bool
	}
	both := []one{{from, false}, {to, true}}
	if t.move().Holds() {
		both = both[:1]
	}
	if t.end && len(both) == 2 {
		both[0], both[1] = both[1], both[0]
	}
	for _, o := range both {
		if at := o.hit(p, g, false); at >= corner {
			return o.box, o.end, at
		}
	}
	found := noPart
	for _, o := range both {
		if o.hit(p, g, false) == inside && (found == noPart || o.w < b.w) {
			b, end, found = o.box, o.end, inside
		}
	}
	return b, end, found
}

// Down takes hold of what the camera sees.
func (t *cameraTool) Down(p board.Point, g grip) {
	b, end, at := t.at(p, g)
	if at == noPart || g.second {
		return
	}
	t.held, t.end = &grabbed{at, p, b}, end
	t.shown()
}

// Drag moves what is held; both ends, if the camera holds still.
func (t *cameraTool) Drag(p board.Point, g grip) {
	if t.held == nil || t.now == nil && apart(p, t.held.from) < g.reach/4 {
		return
	}
	b := t.held.box.moved(t.held.at, t.held.from, p, board.MinFraming, board.MaxFraming)
	t.lines = noLines
	if g.held&ctrlShift == 0 {
		b, t.lines = b.snapped(t.held.at, t.w.board.Aspect.Ratio(), g.reach, board.MinFraming, board.MaxFraming)
	}
	now := t.with(b.framing())
	t.now = &now
	t.shown()
}

// with returns the move with another framing at the end that is at work.
func (t *cameraTool) with(f board.Framing) board.CameraMove {
	m := t.move()
	switch {
	case m.Holds():
		m.From, m.To = f, f
	case t.end:
		m.To = f
	default:
		m.From = f
	}
	return m
}

// Up lets go: the camera moves so in the chosen panels.
func (t *cameraTool) Up() {
	now := t.now
	t.held, t.now, t.lines = nil, nil, noLines
	if now != nil {
		t.w.moveCamera(*now)
	}
}

// Cancel leaves the camera as the film has it, and reports whether something
// was held.
func (t *cameraTool) Cancel() bool {
	was := t.held != nil
	t.held, t.now, t.lines = nil, nil, noLines
	return was
}

// Roomy wants to show what lies beside the frame.
func (t *cameraTool) Roomy() {}

// Hover tells what would be taken hold of.
func (t *cameraTool) Hover(p board.Point, g grip) desktop.StandardCursor {
	_, end, at := t.at(p, g)
	what := "what the camera sees"
	switch {
	case t.move().Holds():
	case end:
		what += " at the end"
	default:
		what += " at the start"
	}
	t.w.foot.Hint(partWords(at, what))
	return cursorFor(at)
}

// Paint shows the start in full lines, the end in dashes and an arrow from one
// to the other; handles are on the one at work.
func (t *cameraTool) Paint(m marks) {
	w := t.w
	t.stage.paint(m, w.board.Panels[w.chosen].Drawing().Placed, false)
	from, to := t.boxes()
	if t.move().Holds() {
		m.outline(from, 0)
		m.handles(from)
		t.label(m, from, 0, "the camera holds")
	} else {
		m.outline(from, 0)
		m.outline(to, dashLength)
		m.arrow(from.mid, to.mid)
		if t.end {
			m.handles(to)
		} else {
			m.handles(from)
		}
		below := 0.
		if apart(from.corners()[0], to.corners()[0])*m.high < 24 {
			below = 1.5 * float64(textUnits(12)) // not one upon the other
		}
		t.label(m, from, 0, "from")
		t.label(m, to, below, "to")
	}
	m.hintLines(t.lines, w.board.Aspect.Ratio())
}

// label names a box within its upper left corner, on the picture in any case.
func (t *cameraTool) label(m marks, b box, below float64, words string) {
	c := b.corners()[0]
	x, y := m.at(board.Point{X: c.X, Y: c.Y})
	x0, y0 := 4., 4.
	m.label(max(x, x0)+handleSize, max(y, y0)+handleSize+below, words)
}

// nudge moves what the camera sees by thousandths of the height of the frame.
func (t *cameraTool) nudge(dx, dy float64) {
	m := t.move()
	f := m.From
	if t.end {
		f = m.To
	}
	f.At = clean(board.Point{X: f.At.X + dx/1000, Y: f.At.Y + dy/1000})
	t.w.do(board.SetMove(t.w.selection(), t.with(f)))
}

// moveCamera moves the camera in the chosen panels, a step of its own to undo.
func (w *window) moveCamera(m board.CameraMove) {
	w.desk.CloseEdit()
	w.onSelection(func(set []int) board.Edit { return board.SetMove(set, m) })
	w.desk.CloseEdit()
}
