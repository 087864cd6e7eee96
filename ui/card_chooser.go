package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

// chooser is a list of which one is chosen.
type chooser struct {
	widget.Select
	card   *card
	hint   string
	tapped bool // opened by the mouse
}

func newChooser(c *card, hint string, options []string, picked func(i int)) *chooser {
	s := &chooser{card: c, hint: hint}
	s.Options = options
	s.OnChanged = func(string) {
		picked(s.SelectedIndex())
		if s.tapped {
			c.leave()
		}
	}
	s.ExtendBaseWidget(s)
	return s
}

// put shows option i, or the words if it is none of them.
func (s *chooser) put(i int, words string) {
	text := ""
	if i >= 0 && i < len(s.Options) {
		text = s.Options[i]
	}
	if s.Selected != text || s.PlaceHolder != words {
		s.Selected, s.PlaceHolder = text, words
		s.Refresh()
	}
}

// Tapped opens the list.
func (s *chooser) Tapped(e *fyne.PointEvent) {
	s.Select.Tapped(e)
	s.tapped = true
}

// TypedKey opens the list by Space or Return and leaves it by Escape; keys it
// has no use for are the window's.
func (s *chooser) TypedKey(e *fyne.KeyEvent) {
	s.tapped = false
	switch e.Name {
	case fyne.KeyEscape:
		s.card.leave()
	case fyne.KeyReturn, fyne.KeyEnter:
		s.Select.TypedKey(&fyne.KeyEvent{Name: fyne.KeySpace})
	case fyne.KeySpace, fyne.KeyUp, fyne.KeyDown, fyne.KeyLeft, fyne.KeyRight:
		s.Select.TypedKey(e)
	default:
		s.card.OnKey(e)
	}
}

// FocusGained says what the choice is for and scrolls to it.
func (s *chooser) FocusGained() {
	s.Select.FocusGained()
	s.card.hint(s.hint)
	s.card.entered(s)
}

// FocusLost takes the hint back.
func (s *chooser) FocusLost() {
	s.Select.FocusLost()
	s.card.hint("")
}

// MouseIn says what the choice is for.
func (s *chooser) MouseIn(e *desktop.MouseEvent) {
	s.Select.MouseIn(e)
	s.card.hint(s.hint)
}

// MouseOut takes the hint back.
func (s *chooser) MouseOut() {
	s.Select.MouseOut()
	s.card.hint("")
}
