package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

var (
	_ desktop.Hoverable = (*cardField)(nil)
	_ desktop.Hoverable = (*chooser)(nil)
	_ desktop.Hoverable = (*tick)(nil)
)

// cardField is a field of the card. It says in the foot what it is for, and
// may have suggestions, which the down arrow opens.
type cardField struct {
	field
	card    *card
	usual   string // stands in it while it is empty
	shown   string // what the film says, for a field taken when it is left
	whole   bool   // what is typed takes the place of what is there
	text    textHeight
	hint    func() string
	suggest func() []suggestion
}

// suggestion is a text that may be picked in place of typing it.
type suggestion struct{ text, words string }

func newCardField(c *card, usual string, lines int, hint string) *cardField {
	f := &cardField{card: c, usual: usual, hint: func() string { return hint }}
	f.setUp(usual, lines)
	if f.MultiLine {
		f.OnCursorChanged = func() { c.keepInSight(f) }
	}
	f.OnReturn, f.OnEscape = c.leave, c.leave
	f.ExtendBaseWidget(f)
	return f
}

// show puts what the film says into the field; where the panels differ that
// is nothing, and the field says so.
func (f *cardField) show(text string, same bool) {
	usual := f.usual
	if !same {
		text, usual = "", differ
	}
	f.shown = text
	f.put(text)
	if f.PlaceHolder != usual {
		f.SetPlaceHolder(usual)
	}
}

// differ stands in a field of panels that differ.
const differ = "different"

// suggesting gives the field suggestions.
func (f *cardField) suggesting(what func() []suggestion) {
	f.suggest = what
	f.ActionItem = newTapIcon(theme.Icon(theme.IconNameArrowDropDown), f.open)
	f.OnArrow = func(int) { f.open() }
}

// open lists the suggestions under the field.
func (f *cardField) open() {
	cv := fyne.CurrentApp().Driver().CanvasForObject(f.card.root)
	if cv == nil {
		return
	}
	cv.Focus(f)
	menu := fyne.NewMenu("")
	for _, s := range f.suggest() {
		label := s.text
		if s.words != "" {
			label += "   " + s.words
		}
		item := fyne.NewMenuItem(label, func() {
			f.SetText(s.text)
			f.CursorColumn = len([]rune(s.text))
			f.Refresh()
			f.card.done()
		})
		item.Checked = s.text == f.Text
		menu.Items = append(menu.Items, item)
	}
	widget.ShowPopUpMenuAtRelativePosition(menu, cv, fyne.NewPos(0, f.Size().Height), f)
}

// MinSize has room for the whole text in a field of several lines: the card
// scrolls, not the field.
func (f *cardField) MinSize() fyne.Size {
	m := f.field.MinSize()
	if f.MultiLine && f.Size().Width > 0 {
		m.Height = max(m.Height, f.text.height(f.Text, f.Size().Width)+2*theme.InputBorderSize())
	}
	return m
}

// textHeight measures wrapped text.
type textHeight struct {
	shape  *widget.RichText
	text   string
	width  float32
	figure float32
}

func (t *textHeight) height(text string, width float32) float32 {
	if t.shape == nil {
		t.shape = widget.NewRichText(&widget.TextSegment{})
		t.shape.Wrapping = fyne.TextWrapWord
	}
	if text != t.text || width != t.width {
		t.text, t.width = text, width
		t.shape.Segments[0].(*widget.TextSegment).Text = text
		t.shape.Resize(fyne.NewSize(width, 0))
		t.shape.Refresh()
		t.figure = t.shape.MinSize().Height
	}
	return t.figure
}

// TypedKey types a new line as any other letter: the toolkit's own way puts the
// cursor a row too far where the line before gets room for one more word.
func (f *cardField) TypedKey(e *fyne.KeyEvent) {
	if f.MultiLine && (e.Name == fyne.KeyReturn || e.Name == fyne.KeyEnter) {
		f.TypedRune('\n')
		return
	}
	f.field.TypedKey(e)
}

// FocusGained says what the field is for and scrolls to it.
func (f *cardField) FocusGained() {
	f.Entry.FocusGained()
	if f.whole && f.Text != "" {
		f.TypedShortcut(&fyne.ShortcutSelectAll{})
	}
	f.card.writing = true
	f.card.hint(f.hint())
	f.card.entered(f)
}

// FocusLost tells that the text is done.
func (f *cardField) FocusLost() {
	if f.whole { // nothing stays selected, or it would go with the first letter typed next
		f.Entry.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEnd})
	}
	f.card.writing = false
	f.card.hint("")
	f.field.FocusLost()
}

// MouseIn says what the field is for.
func (f *cardField) MouseIn(*desktop.MouseEvent) { f.card.hint(f.hint()) }

// MouseMoved does nothing.
func (f *cardField) MouseMoved(*desktop.MouseEvent) {}

// MouseOut takes the hint back.
func (f *cardField) MouseOut() { f.card.hint("") }
