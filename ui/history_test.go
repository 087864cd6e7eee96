package ui

import (
	"testing"

	"fyne.io/fyne/v2"

	"stillbeat/board"
)

func TestGoingThroughWhatWasDone(t *testing.T) {
	w := openWindow(t)
	bringIn(t, w, 3)
	start := w.desk.Past().At
	for _, title := range []string{"Tea", "Coffee", "Cocoa"} {
		w.do(board.SetTitle(title))
		w.desk.CloseEdit()
	}
	if got := w.desk.Past().At; got != start+3 {
		t.Fatalf("three titles are steps %d to %d", start, got)
	}
	for _, tt := range []struct {
		step  int
		title string
	}{{start + 1, "Tea"}, {start + 3, "Cocoa"}, {start + 2, "Coffee"}, {start + 99, "Cocoa"}, {start, ""}} {
		w.goToStep(tt.step)
		if w.board.Title != tt.title || w.header.title.Text != tt.title {
			t.Errorf("step %d: the title is %q, in the header %q, want %q", tt.step, w.board.Title, w.header.title.Text, tt.title)
		}
	}

	// By the list: it opens on where one is; one up from there by the keys.
	w.goToStep(start + 2)
	w.historyDialog()
	list := w.win.Canvas().Focused().(*keyList)
	if got := list.Length(); got != len(w.desk.Past().Steps) {
		t.Errorf("the list has %d lines for %d steps", got, len(w.desk.Past().Steps))
	}
	list.Select(start + 1)
	list.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if w.board.Title != "Tea" || w.win.Canvas().Overlays().Top() != nil {
		t.Errorf("taken by Return, the step leads to %q", w.board.Title)
	}
	w.historyDialog()
	w.win.Canvas().Focused().(*keyList).TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if w.board.Title != "Tea" || w.win.Canvas().Overlays().Top() != nil {
		t.Errorf("left by Escape, the list leads to %q", w.board.Title)
	}
}
