package ui

import (
	"slices"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"stillbeat/board"
)

// run does the command of a name, as its menu entry does.
func run(t *testing.T, w *window, name string) {
	t.Helper()
	for _, c := range w.commands {
		if c.name == name {
			c.run()
			return
		}
	}
	t.Fatalf("no command %q", name)
}

// titles lists the panels by their titles, with the starts.
func titles(w *window) string {
	var out []string
	for _, p := range w.board.Panels {
		out = append(out, p.Title)
	}
	return strings.Join(out, " ")
}

func wantSelection(t *testing.T, w *window, chosen int, want ...int) {
	t.Helper()
	if got := w.selection(); w.chosen != chosen || !slices.Equal(got, want) {
		t.Errorf("chosen %d of %v, want %d of %v", w.chosen, got, chosen, want)
	}
	if got := w.timeline.view.selected; !slices.Equal(got, want) {
		t.Errorf("the timeline marks %v, want %v", got, want)
	}
}

func TestChoosingPanels(t *testing.T) {
	w := openWindow(t)
	bringIn(t, w, 5)
	w.choose(1)
	wantSelection(t, w, 1, 1)
	w.timeline.OnChoose(3, chooseRun)
	wantSelection(t, w, 3, 1, 2, 3)
	w.timeline.OnChoose(2, chooseMore)
	wantSelection(t, w, 3, 1, 3)
	w.timeline.OnChoose(0, chooseMore)
	wantSelection(t, w, 0, 0, 1, 3)
	w.seek(w.starts[4] + 1) // the playhead leaves several alone
	wantSelection(t, w, 0, 0, 1, 3)
	run(t, w, "Choose up to the next panel")
	wantSelection(t, w, 1, 0, 1)
	run(t, w, "Choose all panels")
	wantSelection(t, w, 1, 0, 1, 2, 3, 4)
	// What is chosen stays so while panels before it come and go.
	w.choose(3)
	w.timeline.OnChoose(4, chooseMore)
	w.do(board.CloseUp([]int{0}))
	wantSelection(t, w, 3, 2, 3)
	w.desk.Undo()
	wantSelection(t, w, 4, 3, 4)
	w.choose(2)
	wantSelection(t, w, 2, 2)
	w.choose(99)
	wantSelection(t, w, 2, 2)
}

func TestAPanelIsDraggedToAnotherPlace(t *testing.T) {
	w := openWindow(t)
	bringIn(t, w, 4)
	v := &w.timeline.view
	y := v.panelTop() + 30
	middle := func(i int) float64 { return (v.frameX(w.starts[i]) + v.frameX(w.starts[i+1])) / 2 }
	press(w, middle(0), y)
	dragTo(w, middle(0)+3, y)
	if v.caret >= 0 {
		t.Error("three pixels are taken for a drag")
	}
	dragTo(w, middle(2)+5, y)
	if v.caret != 3 {
		t.Errorf("the caret stands before panel %d, want 3", v.caret)
	}
	w.timeline.MouseUp(nil)
	if got := titles(w); got != "b c a d" || v.caret >= 0 {
		t.Errorf("dragged, the panels are %q, the caret at %d", got, v.caret)
	}
	w.desk.Undo()
	// Several chosen go together, and a press without a drag chooses one.
	w.choose(0)
	w.timeline.OnChoose(1, chooseMore)
	press(w, middle(1), y)
	dragTo(w, middle(3)+9, y)
	w.timeline.MouseUp(nil)
	if got := titles(w); got != "c d a b" {
		t.Errorf("two dragged, the panels are %q", got)
	}
	wantSelection(t, w, 3, 2, 3)
	press(w, middle(2), y)
	w.timeline.MouseUp(nil)
	wantSelection(t, w, 2, 2)
}

func TestTheRightButtonOpensAMenu(t *testing.T) {
	w := openWindow(t)
	bringIn(t, w, 3)
	v := &w.timeline.view
	for _, y := range []float64{v.panelTop() + 30, timeRulerH + 5} {
		w.timeline.MouseDown(&desktop.MouseEvent{Button: desktop.MouseButtonSecondary,
			PointEvent: fyne.PointEvent{Position: fyne.NewPos(float32(v.frameX(w.starts[1]+4)), float32(y))}})
		top := w.win.Canvas().Overlays().Top()
		if top == nil {
			t.Fatalf("no menu at %g", y)
		}
		top.Hide()
	}
	wantSelection(t, w, 1, 1)
}

func TestTheMiddleButtonPans(t *testing.T) {
	w := openWindow(t)
	bringIn(t, w, 3)
	w.timeline.zoom(4, 0)
	from := w.timeline.view.from
	w.timeline.MouseDown(&desktop.MouseEvent{Button: desktop.MouseButtonTertiary, PointEvent: fyne.PointEvent{Position: fyne.NewPos(300, 50)}})
	dragTo(w, 200, 50)
	w.timeline.MouseUp(nil)
	if got, want := w.timeline.view.from-from, 100/w.timeline.view.perSec; got < want-1e-6 || got > want+1e-6 {
		t.Errorf("dragged 100 to the left the timeline moved by %g s, want %g", got, want)
	}
}

func TestADraggedStartPushes(t *testing.T) {
	w := openWindow(t)
	bringIn(t, w, 4)
	run(t, w, "A dragged start takes all after it along")
	v := &w.timeline.view
	press(w, v.frameX(24), v.lineY())
	dragTo(w, v.frameX(60), v.lineY()) // beyond the next start
	w.timeline.MouseUp(nil)
	if want := []board.Frame{0, 60, 84, 108, 132}; !slices.Equal(w.starts, want) {
		t.Errorf("starts %v, want %v", w.starts, want)
	}
	run(t, w, "A dragged start trades time")
	if w.timeline.pushing {
		t.Error("the mode stays")
	}
}

// At the end of the film the last panel is up, in the viewer and in the card.
func TestTheLastPanelIsChosenAtTheEnd(t *testing.T) {
	w := fourPanels(t)
	w.choose(1)
	run(t, w, "To the end")
	if w.chosen != 3 || w.viewer.panel.ID != w.board.Panels[3].ID {
		t.Errorf("panel %d is chosen, want 3", w.chosen)
	}
	w.choose(1)
	w.selectSet([]int{0, 1}, 1)
	if run(t, w, "To the end"); w.chosen != 1 || len(w.selection()) != 2 {
		t.Errorf("of two chosen panels %d is chosen", w.chosen)
	}
}
