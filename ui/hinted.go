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
	say  func(string)
}

// hinted makes a button; weight is one of the toolkit's importances.
func (w *window) hinted(text string, icon fyne.Resource, weight widget.Importance, hint string, do func()) *hintedButton {
	b := &hintedButton{hint: hint, say: func(s string) { w.foot.Hint(s) }}
	b.Text, b.Icon, b.Importance, b.OnTapped = text, icon, weight, do
	b.ExtendBaseWidget(b)
	return b
}

// MouseIn says the hint.
func (b *hintedButton) MouseIn(e *desktop.MouseEvent) {
	b.Button.MouseIn(e)
	b.say(b.hint)
}

// MouseOut takes it back.
func (b *hintedButton) MouseOut() {
	b.Button.MouseOut()
	b.say("")
}
