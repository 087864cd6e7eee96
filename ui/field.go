package ui

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

// field is a text entry that leaves Tab to walk on and gives the keys back to
// the window with Escape.
type field struct {
	widget.Entry
	OnDone   func()       // focus left, or Return in a field of one line
	OnReturn func()       // Return in a field of one line, in place of leaving it
	OnEscape func()       // Escape, in place of leaving it
	OnArrow  func(by int) // Up and Down in a field of one line
	opener   fyne.KeyName // key that opened it, "" for none
	hint     hint         // what it is for, said under the pointer
}

func newField(placeHolder string, lines int) *field {
	f := &field{}
	f.setUp(placeHolder, lines)
	f.ExtendBaseWidget(f)
	return f
}

// setUp makes the entry one of so many lines, for fields built on this one.
func (f *field) setUp(placeHolder string, lines int) {
	f.PlaceHolder = placeHolder
	f.MultiLine = lines > 1
	f.Wrapping = fyne.TextWrapOff
	f.Scroll = fyne.ScrollHorizontalOnly
	if f.MultiLine {
		f.Wrapping = fyne.TextWrapWord
		f.Scroll = fyne.ScrollVerticalOnly
		f.SetMinRowsVisible(lines)
	}
}

// AcceptsTab lets Tab go to the next field, from long texts too.
func (f *field) AcceptsTab() bool { return false }

// TypedRune writes a letter, but not that of the key that opened the field: the
// toolkit hands it over after the key, to what has the cursor by then.
func (f *field) TypedRune(r rune) {
	opener := f.opener
	f.opener = ""
	if !strings.EqualFold(string(opener), string(r)) {
		f.Entry.TypedRune(r)
	}
}

// TypedKey ends the field's turn on Escape, on Return in a short one, and on a
// function key, which is the window's.
func (f *field) TypedKey(e *fyne.KeyEvent) {
	f.opener = ""
	leave := e.Name == fyne.KeyEscape ||
		!f.MultiLine && (e.Name == fyne.KeyReturn || e.Name == fyne.KeyEnter)
	switch {
	case functionKey(e.Name):
		passOn(f.canvas(), e)
		return
	case f.OnArrow != nil && e.Name == fyne.KeyUp:
		f.OnArrow(-1)
		return
	case f.OnArrow != nil && e.Name == fyne.KeyDown:
		f.OnArrow(1)
		return
	case !leave:
		f.Entry.TypedKey(e)
		return
	case e.Name == fyne.KeyEscape && f.OnEscape != nil:
		f.OnEscape()
		return
	case e.Name != fyne.KeyEscape && f.OnReturn != nil:
		f.OnReturn()
		return
	}
	if c := fyne.CurrentApp().Driver().CanvasForObject(f); c != nil {
		c.Unfocus()
	}
}

// FocusLost tells that the text is done.
func (f *field) FocusLost() {
	f.Entry.FocusLost()
	if f.OnDone != nil {
		f.OnDone()
	}
}

// selectAll chooses the whole text, to be written over.
func (f *field) selectAll() { f.TypedShortcut(&fyne.ShortcutSelectAll{}) }

// put sets the text unless it is that already.
func (f *field) put(s string) {
	if f.Text != s {
		f.SetText(s)
	}
}
