package ui

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

// pickField takes a value that is picked from a list or typed, such as a frame
// rate.
type pickField struct {
	widget.SelectEntry
	done func(string)
	hint hint
}

func newPickField[T fmt.Stringer](usual []T, done func(string)) *pickField {
	r := &pickField{done: done}
	r.ExtendBaseWidget(r)
	names := make([]string, len(usual))
	for i, x := range usual {
		names[i] = x.String()
	}
	r.SetOptions(names)
	r.OnSubmitted = done
	r.OnChanged = func(s string) {
		// What is picked from the list comes whole while the cursor is
		// elsewhere; what is typed is taken when the field is left.
		if !r.typing() {
			done(s)
		}
	}
	return r
}

func (r *pickField) typing() bool {
	c := fyne.CurrentApp().Driver().CanvasForObject(r)
	return c != nil && c.Focused() == fyne.Focusable(r)
}

func (r *pickField) put(s string) {
	if r.Text != s {
		r.SetText(s)
	}
}

// TypedKey leaves the function keys to the window.
func (r *pickField) TypedKey(e *fyne.KeyEvent) {
	if functionKey(e.Name) {
		passOn(fyne.CurrentApp().Driver().CanvasForObject(r), e)
		return
	}
	r.SelectEntry.TypedKey(e)
}

// FocusLost takes what was typed.
func (r *pickField) FocusLost() {
	r.SelectEntry.FocusLost()
	r.done(r.Text)
}
