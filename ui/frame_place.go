package ui

import (
	"image"
	"time"

	"fyne.io/fyne/v2/driver/desktop"

	"stillbeat/board"
	"stillbeat/board/picture"
)

// grabbed is a box that is being moved.
type grabbed struct {
	at   boxPart
	from board.Point
	box  box
}

// placeTool moves, scales and turns the photograph of the chosen panels.
type placeTool struct {
	w     *window
	stage *stage
	held  *grabbed         // nil: nothing is
	now   *board.Placement // while it is held; nil: as the film has it
	lines hintLines
	shown func() // the placement that is held changed
	known image.Point
	of    board.MediaID // whose size is known

	lastDown time.Time
	lastAt   board.Point
}

// placement returns how the photograph lies: as it is held, or as the film says.
func (t *placeTool) placement() board.Placement {
	if t.now != nil {
		return *t.now
	}
	return t.w.board.Panels[t.w.chosen].Drawing().Placed
}

// box returns where the photograph lies; ok is false while its size is not
// known, and for a panel without one.
func (t *placeTool) box() (b box, ok bool) {
	w := t.w
	size, ok := t.size()
	if !ok {
		if w.board.Panels[w.chosen].Picture != "" {
			t.stage.ask(t.placement(), w.bench())
		}
		return box{}, false
	}
	p := t.placement()
	wide, tall := picture.SizeOf(p, size, w.board.Aspect)
	return box{p.At, wide, tall, p.Turn}, true
}

// size is that of the photograph in pixels. It is kept, as the cache may let go
// of it while the photograph is held.
func (t *placeTool) size() (image.Point, bool) {
	id := t.w.board.Panels[t.w.chosen].Picture
	if size, ok := t.w.film.PictureSize(t.w.chosen); ok {
		t.known, t.of = size, id
	}
	return t.known, id != "" && t.of == id
}

// limits are the heights that the photograph can have.
func (t *placeTool) limits() (low, high float64) {
	fit := t.fit()
	return fit * board.MinScale, fit * board.MaxScale
}

// fit is how high the photograph is fitted.
func (t *placeTool) fit() float64 {
	size, _ := t.size()
	_, fit := picture.SizeOf(board.Placement{}, size, t.w.board.Aspect)
	return fit
}

// Down takes hold of the photograph; a second press puts it back.
func (t *placeTool) Down(p board.Point, g grip) {
	b, ok := t.box()
	if !ok || g.second {
		return
	}
	twice := time.Since(t.lastDown) < doubleClick && apart(p, t.lastAt) < g.reach/2
	t.lastDown, t.lastAt = time.Now(), p
	at := b.hit(p, g, true)
	if at == noPart {
		return
	}
	if twice {
		t.lastDown = time.Time{}
		t.w.placePicture(board.Placement{})
		return
	}
	t.held = &grabbed{at, p, b}
}

// doubleClick is how soon a second press has to follow.
const doubleClick = 350 * time.Millisecond

// Drag moves what is held.
func (t *placeTool) Drag(p board.Point, g grip) {
	if t.held == nil {
		return
	}
	if t.now == nil && apart(p, t.held.from) < g.reach/4 {
		return // the hand shakes
	}
	low, high := t.limits()
	b := t.held.box.moved(t.held.at, t.held.from, p, low, high)
	t.lines = noLines
	if g.held&ctrlShift == 0 {
		b, t.lines = b.snapped(t.held.at, t.w.board.Aspect.Ratio(), g.reach, low, high)
	}
	now := t.placed(b)
	t.now = &now
	t.shown()
}

// placed returns the placement that lays the photograph into a box.
func (t *placeTool) placed(b box) board.Placement {
	const far = 19
	return board.Placement{
		Fit:   board.ByHand,
		At:    clean(board.Point{X: min(max(b.mid.X, -far), far), Y: min(max(b.mid.Y, -far), far)}),
		Scale: min(max(rounded(b.h/t.fit(), 5), board.MinScale), board.MaxScale),
		Turn:  rounded(b.turn, 3),
		Flip:  t.placement().Flip,
	}
}

// Up lets go: the chosen panels are placed so.
func (t *placeTool) Up() {
	now := t.now
	t.held, t.now, t.lines = nil, nil, noLines
	if now != nil {
		t.w.placePicture(*now)
	}
}

// Cancel leaves the photograph where the film has it, and reports whether it
// was held.
func (t *placeTool) Cancel() bool {
	was := t.held != nil
	t.held, t.now, t.lines = nil, nil, noLines
	return was
}

// Roomy wants to show what lies beside the frame.
func (t *placeTool) Roomy() {}

// Hover tells what would be taken hold of.
func (t *placeTool) Hover(p board.Point, g grip) desktop.StandardCursor {
	b, ok := t.box()
	if !ok {
		return desktop.DefaultCursor
	}
	at := b.hit(p, g, true)
	t.w.foot.Hint(partWords(at, "the picture; a double click puts it back"))
	return cursorFor(at)
}

// partWords says what a part of something is for.
func partWords(at boxPart, what string) string {
	const free = " Ctrl or Shift keeps it from snapping."
	switch {
	case at >= corner:
		return "Drag to scale; the corner across stays." + free
	case at == turnHandle:
		return "Drag to turn." + free
	case at == inside:
		return "Drag to move " + what + "." + free
	}
	return ""
}

func cursorFor(at boxPart) desktop.StandardCursor {
	switch {
	case at >= corner:
		return desktop.CrosshairCursor
	case at != noPart:
		return desktop.PointerCursor
	}
	return desktop.DefaultCursor
}

// Paint shows the photograph with what it is taken hold of by.
func (t *placeTool) Paint(m marks) {
	t.stage.paint(m, t.placement(), t.now != nil)
	b, ok := t.box()
	if !ok {
		return
	}
	wide := t.w.board.Aspect.Ratio()
	m.outline(box{board.Point{}, wide, 1, 0}, 0)
	m.outline(b, 0)
	m.turner(b)
	m.handles(b)
	m.hintLines(t.lines, wide)
	if t.held != nil && t.held.at == turnHandle {
		x, y := m.at(b.handle(m.view, gripReach/m.high))
		m.label(x+handleSize, y-handleSize, degreeWords(b.turn))
	}
}

func degreeWords(d float64) string { return inFigures(d, 1) + "°" }

// nudge moves the photograph by thousandths of the height of the frame.
func (t *placeTool) nudge(dx, dy float64) {
	w := t.w
	size, ok := t.size()
	if !ok {
		return
	}
	p := picture.AsByHand(t.placement(), size, w.board.Aspect)
	p.At = clean(board.Point{X: p.At.X + dx/1000, Y: p.At.Y + dy/1000})
	w.do(board.Place(w.selection(), p))
}

// placePicture places the pictures of the chosen panels, a step of its own to
// undo.
func (w *window) placePicture(p board.Placement) {
	w.desk.CloseEdit()
	w.onSelection(func(set []int) board.Edit { return board.Place(set, p) })
	w.desk.CloseEdit()
}

// changePlacement changes how the chosen panel's picture lies, and gives it to
// the other chosen ones. By hand it begins with what there is.
func (w *window) changePlacement(byHand bool, change func(*board.Placement)) board.Edit {
	p := w.board.Panels[w.chosen].Drawing().Placed
	if byHand {
		if size, ok := w.film.PictureSize(w.chosen); ok {
			p = picture.AsByHand(p, size, w.board.Aspect)
			p.Scale = rounded(p.Scale, 5)
		} else {
			p.Fit = board.ByHand
		}
	}
	change(&p)
	return board.Place(w.selection(), p)
}

// hasPicture reports whether the chosen panel has a picture.
func (w *window) hasPicture() bool { return w.chosen >= 0 && w.board.Panels[w.chosen].Picture != "" }
