package ui

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

var (
	_ desktop.Hoverable = (*hintedButton)(nil)
	_ desktop.Hoverable = (*hintedSelect)(nil)
	_ desktop.Hoverable = (*pickField)(nil)
	_ desktop.Hoverable = (*field)(nil)
)

// hint is what something is for: said in the foot of the window while the
// pointer is on it, and beside the pointer once that rests.
type hint struct {
	words func() string
	win   *window
}

// hints makes a hint that is always the same.
func (w *window) hints(words string) hint { return hint{func() string { return words }, w} }

func (h hint) in(e *desktop.MouseEvent) {
	if h.words == nil {
		return
	}
	h.win.foot.Hint(h.words())
	h.moved(e)
}

func (h hint) moved(e *desktop.MouseEvent) {
	if h.words != nil && h.win.win.Canvas().Overlays().Top() == nil {
		h.win.note.Rest(h.words(), e.AbsolutePosition)
	}
}

func (h hint) out() {
	if h.words != nil {
		h.win.foot.Hint("")
		h.win.note.Away()
	}
}

// hintedButton tells what it does and by which key. It has an edge where the
// look has heavy borders, and while it has the keys.
type hintedButton struct {
	widget.Button
	hint     hint
	commands []string // that do the same, by their names
	focused  bool
}

// hinted makes a button; weight is one of the toolkit's importances.
func (w *window) hinted(text string, icon fyne.Resource, weight widget.Importance, words string, do func()) *hintedButton {
	b := &hintedButton{}
	b.hint = hint{func() string { return w.keys.hint(words, b.commands) }, w}
	b.Text, b.Icon, b.Importance, b.OnTapped = text, icon, weight, do
	b.ExtendBaseWidget(b)
	return b
}

// by names the commands that do what the button does, for their keys.
func (b *hintedButton) by(commands ...string) *hintedButton {
	b.commands = commands
	return b
}

// withKeys puts a key behind words, if there is one.
func withKeys(words, key string) string {
	if key == "" {
		return words
	}
	return words + ": " + key
}

// hint joins words with the key of the first command; without words the
// commands' own names stand for them.
func (k *keyset) hint(words string, commands []string) string {
	if words != "" {
		key := ""
		if len(commands) > 0 {
			key = k.of(commands[0])
		}
		return withKeys(words, key)
	}
	var parts []string
	for _, name := range commands {
		parts = append(parts, withKeys(name, k.of(name)))
	}
	return strings.Join(parts, ". ")
}

// MouseIn says the hint.
func (b *hintedButton) MouseIn(e *desktop.MouseEvent) {
	b.Button.MouseIn(e)
	b.hint.in(e)
}

// MouseMoved waits for the pointer to rest.
func (b *hintedButton) MouseMoved(e *desktop.MouseEvent) { b.hint.moved(e) }

// MouseOut takes the hint back.
func (b *hintedButton) MouseOut() {
	b.Button.MouseOut()
	b.hint.out()
}

// FocusGained draws the edge of a button that has the keys.
func (b *hintedButton) FocusGained() {
	b.focused = true
	b.Button.FocusGained()
}

// FocusLost takes it away.
func (b *hintedButton) FocusLost() {
	b.focused = false
	b.Button.FocusLost()
}

// Tapped takes the cursor out of a text field, so that the keys are the
// window's again, and does what the button is for.
func (b *hintedButton) Tapped(e *fyne.PointEvent) {
	b.hint.win.note.Away()
	if c := b.hint.win.win.Canvas(); c.Focused() != fyne.Focusable(b) {
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
		b.hint.win.win.Canvas().Unfocus()
	default:
		b.hint.win.typedKey(e)
	}
}

// CreateRenderer lays the edge over the button.
func (b *hintedButton) CreateRenderer() fyne.WidgetRenderer {
	return edged(b.Button.CreateRenderer(), func() bool { return b.focused })
}
