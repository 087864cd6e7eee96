package ui

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
)

func TestChangingAKey(t *testing.T) {
	w := openWindow(t)
	bringIn(t, w, 3)
	d := openKeys(t, w)
	cv := w.win.Canvas()
	typed := func(key fyne.KeyName) { cv.Focused().TypedKey(&fyne.KeyEvent{Name: key}) }

	test.Type(d.words, "dup")
	typed(fyne.KeyReturn)
	if cv.Focused() != fyne.Focusable(d.catch) {
		t.Fatal("Return does not ask for the key")
	}
	typed(desktop.KeyControlLeft) // on the way
	hold(t, ctrl)
	d.catch.TypedShortcut(&desktop.CustomShortcut{KeyName: fyne.KeyJ, Modifier: ctrl})
	if got := w.keys.of("Duplicate"); got != "Ctrl+J" {
		t.Fatalf("Duplicate is on %q after Ctrl+J was pressed; it says %q", got, d.catch.words.Text)
	}

	// All that shows keys shows the new one.
	if got := matching(w.commands, "ctrl+j"); len(got) != 1 || got[0].name != "Duplicate" {
		t.Errorf("the searchable list finds %d commands for ctrl+j", len(got))
	}
	for _, m := range w.win.MainMenu().Items {
		for _, item := range m.Items {
			if item.Label == "Duplicate" && chordOf(item.Shortcut) != (chord{fyne.KeyJ, ctrl}) {
				t.Errorf("the menu has %v", item.Shortcut)
			}
		}
	}
	if got := hintOf(t, w, "Duplicate"); got != "A copy after this panel, with its hold: Ctrl+J" {
		t.Errorf("the button's hint is %q", got)
	}

	// A clash is told, and taken over.
	hold(t, 0)
	d.words.SetText("join")
	d.ask()
	typed(fyne.KeyS)
	if w.keys.of("Join") != "J" || !strings.Contains(d.catch.words.Text, "Split at the playhead") || d.change.Text != "Take it over" {
		t.Errorf("S, which is taken: Join is on %s, it says %q", w.keys.of("Join"), d.catch.words.Text)
	}
	typed(fyne.KeyEscape)
	if w.keys.of("Join") != "J" || w.keys.of("Split at the playhead") != "S" {
		t.Error("Escape does not leave both as they are")
	}
	d.ask()
	typed(fyne.KeyTab)
	if w.keys.of("Join") != "J" || !strings.Contains(d.catch.words.Text, "Tab") {
		t.Errorf("Tab: it says %q", d.catch.words.Text)
	}
	typed(fyne.KeyS)
	typed(fyne.KeyReturn)
	if w.keys.of("Join") != "S" || w.keys.of("Split at the playhead") != "" {
		t.Errorf("taken over: Join is on %q, Split on %q", w.keys.of("Join"), w.keys.of("Split at the playhead"))
	}

	// The new key works, the old one no more.
	d.box.Hide()
	w.choose(0)
	w.typedKey(&fyne.KeyEvent{Name: fyne.KeyJ})
	if n := len(w.board.Panels); n != 3 {
		t.Errorf("J still joins: %d panels", n)
	}
	w.typedKey(&fyne.KeyEvent{Name: fyne.KeyS})
	if n := len(w.board.Panels); n != 2 {
		t.Errorf("S does not join: %d panels", n)
	}

	// They are there the next time.
	again := newWindow(w.app, Options{Ear: clickEar{}, Mute: true, post: func(f func()) { posted <- f }}, w.desk)
	if got := again.keys.of("Join") + " " + again.keys.of("Duplicate"); got != "S Ctrl+J" {
		t.Errorf("in the next window Join and Duplicate are on %s", got)
	}

	// One as it was, then all.
	d = openKeys(t, w)
	d.words.SetText("split at the")
	d.asItWas()
	if !strings.Contains(d.catch.words.Text, "Join") || w.keys.of("Join") != "S" {
		t.Errorf("as it was, while its key is another's: %q", d.catch.words.Text)
	}
	d.ask()
	if w.keys.of("Split at the playhead") != "S" || w.keys.of("Join") != "" {
		t.Errorf("taken back: Split is on %q, Join on %q", w.keys.of("Split at the playhead"), w.keys.of("Join"))
	}
	d.allAsTheyWere()
	if w.keys.of("Join") != "J" || w.keys.of("Duplicate") != "Ctrl+D" || w.keys.save() != "{}" {
		t.Errorf("all as they were: %s", w.keys.save())
	}
	d.give(chord{})
	if w.keys.of("Split at the playhead") != "" {
		t.Error("its key is not taken away")
	}
	d.words.SetText("no such command")
	d.ask()
	d.asItWas()
	d.give(chord{fyne.KeyF12, 0})
	if w.keys.holder(chord{fyne.KeyF12, 0}) != nil {
		t.Error("with no command in the list F12 does one")
	}
}

// openKeys opens the dialog of the keys.
func openKeys(t *testing.T, w *window) *keysDialog {
	t.Helper()
	d := w.keysDialog()
	if w.win.Canvas().Overlays().Top() == nil {
		t.Fatal("the dialog does not open")
	}
	return d
}

func TestStripThatTakesKeys(t *testing.T) {
	w := openWindow(t)
	var took []string
	c := newCatcher(w, func(c chord) { took = append(took, c.String()) }, func() { took = append(took, "left") })
	c.Say("Press the new key for “Join”.")
	box := test.NewTempWindow(t, container.NewStack(c))
	box.Resize(fyne.NewSize(340, 70))
	test.AssertRendersToMarkup(t, "keys-strip.xml", box.Canvas())
	box.Canvas().Focus(c)
	test.AssertRendersToMarkup(t, "keys-strip-taking.xml", box.Canvas())
	if w.catcher != c {
		t.Error("the window does not send its keys to the strip")
	}
	for _, key := range []fyne.KeyName{fyne.KeyF7, fyne.KeyBackspace, desktop.KeyShiftLeft, fyne.KeyEqual, fyne.KeyEscape} {
		c.TypedKey(&fyne.KeyEvent{Name: key})
	}
	if got, want := strings.Join(took, " "), "F7 Delete + left"; got != want {
		t.Errorf("it took %q, want %q", got, want)
	}
	box.Canvas().Unfocus()
	if w.catcher != nil {
		t.Error("without the focus it still takes keys")
	}
}
