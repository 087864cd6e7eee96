package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// The fields of the window tell what they are for, as its buttons do.

// MouseIn says what the field is for.
func (f *field) MouseIn(e *desktop.MouseEvent) { f.hint.in(e) }

// MouseMoved waits for the pointer to rest.
func (f *field) MouseMoved(e *desktop.MouseEvent) { f.hint.moved(e) }

// MouseOut takes the hint back.
func (f *field) MouseOut() { f.hint.out() }

// MouseIn says what the field is for.
func (r *pickField) MouseIn(e *desktop.MouseEvent) { r.hint.in(e) }

// MouseMoved waits for the pointer to rest.
func (r *pickField) MouseMoved(e *desktop.MouseEvent) { r.hint.moved(e) }

// MouseOut takes the hint back.
func (r *pickField) MouseOut() { r.hint.out() }

// hintedSelect is a choice that tells what it is for.
type hintedSelect struct {
	widget.Select
	hint hint
}

func newHintedSelect(h hint, options []string, changed func(string)) *hintedSelect {
	s := &hintedSelect{hint: h}
	s.Options, s.OnChanged = options, changed
	s.ExtendBaseWidget(s)
	return s
}

// MouseIn says what the choice is for.
func (s *hintedSelect) MouseIn(e *desktop.MouseEvent) {
	s.Select.MouseIn(e)
	s.hint.in(e)
}

// MouseMoved waits for the pointer to rest.
func (s *hintedSelect) MouseMoved(e *desktop.MouseEvent) { s.hint.moved(e) }

// MouseOut takes the hint back.
func (s *hintedSelect) MouseOut() {
	s.Select.MouseOut()
	s.hint.out()
}

// hintedCheck is a tick that tells what it is for.
type hintedCheck struct {
	widget.Check
	hint hint
}

func newHintedCheck(h hint, text string, changed func(bool)) *hintedCheck {
	c := &hintedCheck{hint: h}
	c.Text, c.OnChanged = text, changed
	c.ExtendBaseWidget(c)
	return c
}

// MouseIn says what the tick is for.
func (c *hintedCheck) MouseIn(e *desktop.MouseEvent) {
	c.Check.MouseIn(e)
	c.hint.in(e)
}

// MouseMoved waits for the pointer to rest.
func (c *hintedCheck) MouseMoved(e *desktop.MouseEvent) {
	c.Check.MouseMoved(e)
	c.hint.moved(e)
}

// MouseOut takes the hint back.
func (c *hintedCheck) MouseOut() {
	c.Check.MouseOut()
	c.hint.out()
}

// CreateRenderer lays an edge over the choice.
func (s *hintedSelect) CreateRenderer() fyne.WidgetRenderer {
	return edged(s.Select.CreateRenderer(), func() bool { return false })
}
