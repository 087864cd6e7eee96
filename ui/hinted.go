package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

var _ desktop.Hoverable = (*hintedButton)(nil)

// hintedButton says in the foot of the window what it does, and by which key,
// while the pointer is on it.
type hintedButton struct {
	widget.Button
	hint string
	win  *window
}

// hinted makes a button; weight is one of the toolkit's importances.
func (w *window) hinted(text string, icon fyne.Resource, weight widget.Importance, hint string, do func()) *hintedButton {
	b := &hintedButton{hint: hint, win: w}
	b.Text, b.Icon, b.Importance, b.OnTapped = text, icon, weight, do
	b.ExtendBaseWidget(b)
	return b
}

// MouseIn says the hint.
func (b *hintedButton) MouseIn(e *desktop.MouseEvent) {
	b.Button.MouseIn(e)
	b.win.foot.Hint(b.hint)
}

// MouseOut takes it back.
func (b *hintedButton) MouseOut() {
	b.Button.MouseOut()
	b.win.foot.Hint("")
}

// Tapped takes the cursor out of a text field, so that the keys are the
// window's again, and does what the button is for.
func (b *hintedButton) Tapped(e *fyne.PointEvent) {
	if c := b.win.win.Canvas(); c.Focused() != fyne.Focusable(b) {
		c.Unfocus()
	}
	b.Button.Tapped(e)
}

// TypedKey presses the button by Space or Return, leaves it by Escape, and
// hands every other key to the window.
func (b *hintedButton) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeySpace, fyne.KeyReturn, fyne.KeyEnter:
		b.Tapped(nil)
	case fyne.KeyEscape:
		b.win.win.Canvas().Unfocus()
	default:
		b.win.typedKey(e)
	}
}
