package ui

import (
	"slices"
	"testing"

	"fyne.io/fyne/v2"

	"stillbeat/board"
)

// A film of 40 shots of a panel each, so that not all of them are in sight.
func TestTheKeyboardGoesThroughTheShotsOfThePlan(t *testing.T) {
	w := onPlan(t, 40)
	all := make([]int, 39)
	for i := range all {
		all[i] = i + 1
	}
	w.do(board.Open(all, board.OpensShot))
	w.win.Resize(fyne.NewSize(1100, 700))
	v, p := w.planPage.view, w.planPage
	seen := func() bool {
		return slices.ContainsFunc(v.linesOf(v.chosen), func(l planLine) bool { return p.roll.Sees(l.y, planShotH) })
	}
	w.choose(0)
	for want := 1; want < 40; want++ {
		if typeKey(w, fyne.KeyDown); w.chosen != want || v.chosen != want || !seen() {
			t.Fatalf("Down: panel %d, shot %d, want %d; in sight: %v", w.chosen, v.chosen, want, seen())
		}
	}
	if typeKey(w, fyne.KeyDown); v.chosen != 39 {
		t.Errorf("Down on the last shot leads to %d", v.chosen)
	}
	if typeKey(w, fyne.KeyUp); v.chosen != 38 || w.chosen != 38 {
		t.Errorf("Up leads to shot %d", v.chosen)
	}
	if typeKey(w, fyne.KeyHome); p.roll.top != 0 || v.chosen != 38 {
		t.Errorf("Home scrolls to %g and chooses shot %d", p.roll.top, v.chosen)
	}
	if typeKey(w, fyne.KeyReturn); w.pages.up != w.timelinePage || w.chosen != 38 {
		t.Errorf("Return leaves the page %q, with panel %d", w.pages.up.name, w.chosen)
	}
}
