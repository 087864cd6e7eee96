package ui

import (
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
)

// MouseDown begins a press on what is shown, or a scroll on the strip at the
// right or with the middle button.
func (r *roll) MouseDown(e *desktop.MouseEvent) {
	x, y := inText(e.Position)
	switch {
	case e.Button == desktop.MouseButtonTertiary:
		r.holds, r.last = rollPan, y
	case e.Button != desktop.MouseButtonPrimary:
	case x > r.width-wallBarW && r.of.long() > r.height:
		r.holds = rollBar
		r.barTo(y)
	case y >= r.of.head():
		off := r.tappedAt.Subtract(e.Position)
		twice := time.Since(r.tapped) < 400*time.Millisecond && max(off.X, -off.X, off.Y, -off.Y) < dragSlack
		r.tapped, r.tappedAt = time.Now(), e.Position
		if r.of.press(x, y+r.top, twice, e.Modifier) {
			r.holds = rollPress
		}
	}
}

// MouseUp ends what MouseDown began.
func (r *roll) MouseUp(*desktop.MouseEvent) { r.holds = rollStill }

// DragEnd ends a drag that left the roll.
func (r *roll) DragEnd() { r.holds = rollStill }

// Dragged goes on with what MouseDown began.
func (r *roll) Dragged(e *fyne.DragEvent) {
	x, y := inText(e.Position)
	switch r.holds {
	case rollPress:
		r.of.drag(x, y+r.top)
	case rollBar:
		r.barTo(y)
	case rollPan:
		r.byHand(r.top + r.last - y)
		r.last = y
	}
}

// Scrolled scrolls.
func (r *roll) Scrolled(e *fyne.ScrollEvent) { r.byHand(r.top - 2.5*float64(e.Scrolled.DY)) }

// MouseIn, MouseMoved and MouseOut say what is under the pointer.
func (r *roll) MouseIn(e *desktop.MouseEvent) { r.MouseMoved(e) }

// MouseMoved follows the pointer.
func (r *roll) MouseMoved(e *desktop.MouseEvent) {
	if x, y := inText(e.Position); r.OnHint != nil && r.holds == rollStill && y >= r.of.head() {
		r.OnHint(r.of.hint(x, y+r.top))
	}
}

// MouseOut takes the words back.
func (r *roll) MouseOut() {
	if r.OnHint != nil {
		r.OnHint("")
	}
}
