package ui

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"fyne.io/fyne/v2/driver/desktop"
	"stillbeat/board"
)

// hold has keys held down for the rest of the test, or until held again.
func hold(t *testing.T, mod fyne.KeyModifier) {
	t.Helper()
	was := modifiers
	t.Cleanup(func() { modifiers = was })
	modifiers = func() fyne.KeyModifier { return mod }
}

func TestTextsAndDialogsHaveTheirKeysFirst(t *testing.T) {
	w := openWindow(t)
	bringIn(t, w, 2)
	w.choose(0)
	menu := func(name string) func() { return func() { w.runByMenu(w.keys.named[name]) } }
	hold(t, ctrl)

	w.app.Clipboard().SetContent("before")
	w.card.Focus(w.win.Canvas())
	menu("Choose all panels")()
	menu("Copy panels")()
	if got := w.app.Clipboard().Content(); got != "a" || len(w.also) > 0 {
		t.Errorf("Ctrl+A and Ctrl+C in the title copy %q, with %d panels chosen", got, len(w.selection()))
	}
	w.app.Clipboard().SetContent("kettle")
	menu("Paste panels")()
	if got := w.board.Panels[0].Title; got != "kettle" || len(w.board.Panels) != 2 {
		t.Errorf("Ctrl+V in the title makes it %q, of %d panels", got, len(w.board.Panels))
	}
	menu("Duplicate")()
	if len(w.board.Panels) != 3 {
		t.Errorf("Ctrl+D while a title is written leaves %d panels, want 3", len(w.board.Panels))
	}
	menu("Undo")()
	if len(w.board.Panels) != 2 {
		t.Errorf("Ctrl+Z while a title is written leaves %d panels, want 2", len(w.board.Panels))
	}

	w.win.Canvas().Unfocus()
	w.findCommand()
	menu("Duplicate")()
	if len(w.board.Panels) != 2 {
		t.Error("Ctrl+D changes the film under a dialog")
	}
	w.win.Canvas().Overlays().Top().Hide()
	menu("Duplicate")()
	if len(w.board.Panels) != 3 {
		t.Error("Ctrl+D does nothing after the dialog is gone")
	}

	d := openKeys(t, w)
	d.words.SetText("about")
	d.ask()
	menu("Snap to beats")()
	if !strings.Contains(d.catch.words.Text, "Snap to beats") {
		t.Errorf("Ctrl+B pressed as a new key: it says %q", d.catch.words.Text)
	}
	hold(t, shift) // the toolkit takes Shift+Delete for Ctrl+X
	menu("Cut panels")()
	if len(w.board.Panels) != 3 || !strings.Contains(d.catch.words.Text, "Shift+Delete") {
		t.Errorf("Shift+Delete pressed as a new key: it says %q, of %d panels", d.catch.words.Text, len(w.board.Panels))
	}
	d.box.Hide()
}

func TestPlusIsTypedInSeveralWays(t *testing.T) {
	w := openWindow(t)
	for _, s := range []desktop.CustomShortcut{
		{KeyName: fyne.KeyEqual, Modifier: ctrl}, {KeyName: fyne.KeyEqual, Modifier: ctrlShift},
	} {
		w.wear(worn, 100)
		w.win.Canvas().(fyne.Shortcutable).TypedShortcut(&s)
		if textPercent != 110 {
			t.Errorf("%s leaves the text at %d %%", s.ShortcutName(), textPercent)
		}
	}
	w.keys.give(w.keys.named["Larger text"], chord{fyne.KeyF6, 0})
	w.rekey()
	w.wear(worn, 100)
	w.win.Canvas().(fyne.Shortcutable).TypedShortcut(&desktop.CustomShortcut{KeyName: fyne.KeyEqual, Modifier: ctrl})
	if textPercent != 100 {
		t.Error("the old key still makes text larger")
	}
	before := w.timeline.view.perSec
	w.typedKey(&fyne.KeyEvent{Name: fyne.KeyEqual})
	if w.timeline.view.perSec <= before {
		t.Error("= does not go closer")
	}
}

// The toolkit gives the letter of a key to what has the cursor after the key
// was handled.
func TestTheKeyOfADialogIsNotWrittenInIt(t *testing.T) {
	w := openWindow(t)
	bringIn(t, w, 3)
	typeKey(w, fyne.KeyR)
	f := w.win.Canvas().Focused().(*field)
	was := f.Text
	f.TypedRune('r')
	if f.Text != was {
		t.Fatalf("the field says %q, before it was %q", f.Text, was)
	}
	f.TypedRune('r')
	if f.Text == was {
		t.Error("the letter cannot be written at all")
	}
	f.OnEscape()
	w.barsDialog()
	f = w.win.Canvas().Focused().(*field)
	if f.TypedRune('3'); f.Text != "3" {
		t.Errorf("3 written over the 4 that stood there makes %q", f.Text)
	}
	f.OnEscape()
	w.holdDialog() // from the menu
	f = w.win.Canvas().Focused().(*field)
	if f.TypedRune('w'); f.Text != "w" {
		t.Errorf("opened from the menu the field says %q", f.Text)
	}
}

// TestFunctionKeysWorkWhileAFieldHasTheCursor: they write nothing, and one who has
// typed a title goes on to draw.
func TestFunctionKeysWorkWhileAFieldHasTheCursor(t *testing.T) {
	w := openWindow(t)
	bringIn(t, w, 2)
	w.choose(0)
	cv := w.win.Canvas()
	run(t, w, "Write on the card")
	words := cv.Focused()
	for _, on := range []fyne.Focusable{words, w.header.rate, w.letters.text} {
		w.faces.Show(w.faces.all[0])
		if on == w.letters.text {
			w.addLetter(board.TitleCard)
		}
		cv.Focus(on)
		on.TypedKey(&fyne.KeyEvent{Name: fyne.KeyF7})
		if !w.faces.drawing() || cv.Focused() != nil {
			t.Errorf("F7 in %T: the pad is up: %v, %T has the cursor", on, w.faces.drawing(), cv.Focused())
		}
	}
	w.findCommand()
	cv.Focused().TypedKey(&fyne.KeyEvent{Name: fyne.KeyF5})
	if !w.faces.drawing() || cv.Overlays().Top() == nil {
		t.Error("under a dialog F5 turns the card")
	}
}
