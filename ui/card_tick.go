package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// tick is a mark that a panel has or has not; with several panels chosen of
// which some have it, it is half set.
type tick struct {
	widget.Check
	card *card
	hint string
}

func newTick(c *card, text, hint string, ticked func(on bool)) *tick {
	t := &tick{card: c, hint: hint}
	t.Text, t.OnChanged = text, ticked
	t.ExtendBaseWidget(t)
	return t
}

// put shows the mark.
func (t *tick) put(on, some bool) {
	if t.Checked != on || t.Partial != some {
		t.Checked, t.Partial = on, some
		t.Refresh()
	}
}

// Tapped sets the mark and leaves the keys to the window.
func (t *tick) Tapped(e *fyne.PointEvent) {
	t.Check.Tapped(e)
	t.card.leave()
}

// TypedKey sets the mark by Return, as Space does, and leaves it by Escape;
// keys it has no use for are the window's.
func (t *tick) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeyEscape:
		t.card.leave()
	case fyne.KeySpace: // comes as a rune as well
	case fyne.KeyReturn, fyne.KeyEnter:
		t.SetChecked(!t.Checked)
	default:
		t.card.OnKey(e)
	}
}

// FocusGained says what the mark is for and scrolls to it.
func (t *tick) FocusGained() {
	t.Check.FocusGained()
	t.card.hint(t.hint)
	t.card.entered(t)
}

// FocusLost takes the hint back.
func (t *tick) FocusLost() {
	t.Check.FocusLost()
	t.card.hint("")
}

// MouseIn says what the mark is for.
func (t *tick) MouseIn(e *desktop.MouseEvent) {
	t.Check.MouseIn(e)
	t.card.hint(t.hint)
}

// MouseOut takes the hint back.
func (t *tick) MouseOut() {
	t.Check.MouseOut()
	t.card.hint("")
}

// tapIcon is a sign in a field that can be clicked but that Tab passes by.
type tapIcon struct {
	widget.Icon
	tapped func()
}

func newTapIcon(r fyne.Resource, tapped func()) *tapIcon {
	i := &tapIcon{tapped: tapped}
	i.Resource = r
	i.ExtendBaseWidget(i)
	return i
}

// MinSize is that of the icon with a margin.
func (i *tapIcon) MinSize() fyne.Size {
	return fyne.NewSquareSize(theme.IconInlineSize() + theme.InnerPadding())
}

// Tapped does what the sign is for.
func (i *tapIcon) Tapped(*fyne.PointEvent) { i.tapped() }
