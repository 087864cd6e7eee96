package ui

import (
	"fmt"
	"slices"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"

	"stillbeat/board"
)

// onWall opens a film of n panels on the page of the wall.
func onWall(t *testing.T, n int) *window {
	t.Helper()
	w := openWindow(t)
	bringIn(t, w, n)
	typeKey(w, fyne.KeyF2)
	if !w.wall.root.Visible() || w.rows.Visible() {
		t.Fatal("F2 does not show the wall")
	}
	return w
}

func typeKey(w *window, name fyne.KeyName) { w.win.Canvas().OnTypedKey()(&fyne.KeyEvent{Name: name}) }

// clickCard presses and releases a button on the card of panel i.
func clickCard(w *window, i int, button desktop.MouseButton, held fyne.KeyModifier) {
	l := w.wall.wall
	l.MouseDown(&desktop.MouseEvent{Button: button, Modifier: held, PointEvent: fyne.PointEvent{Position: onCard(w, i, 0.5)}})
	l.MouseUp(nil)
}

// onCard returns a place on the card of panel i, a part of its width along.
func onCard(w *window, i int, part float64) fyne.Position {
	v := &w.wall.wall.view
	pos, _ := v.place(i)
	x, y := v.card(pos)
	s := v.size()
	return fyne.NewPos(float32(x+part*s.w), float32(y-v.scroll+s.pic/2))
}

func letterTitles(w *window) string {
	out := ""
	for _, p := range w.board.Panels {
		out += p.Title
	}
	return out
}

func TestWallChoosesByMouseAndKeys(t *testing.T) {
	w := onWall(t, 12)
	w.wall.wall.view.zoom = 5
	w.wall.wall.view.lay()
	steps := []struct {
		name string
		do   func()
		want string
	}{
		{"a click", func() { clickCard(w, 3, desktop.MouseButtonPrimary, 0) }, "[3]"},
		{"Shift and a click", func() { clickCard(w, 5, desktop.MouseButtonPrimary, shift) }, "[3 4 5]"},
		{"Ctrl and a click", func() { clickCard(w, 1, desktop.MouseButtonPrimary, ctrl) }, "[1 3 4 5]"},
		{"Ctrl and a click takes away", func() { clickCard(w, 4, desktop.MouseButtonPrimary, ctrl) }, "[1 3 5]"},
		{"a click on one of several", func() { clickCard(w, 3, desktop.MouseButtonPrimary, 0) }, "[3]"},
		{"right", func() { typeKey(w, fyne.KeyRight) }, "[4]"},
		{"down a row", func() { typeKey(w, fyne.KeyDown) }, "[9]"},
		{"Shift and up", func() { w.wall.typedKey(fyne.KeyUp, shift) }, "[4 5 6 7 8 9]"},
		{"the start", func() { typeKey(w, fyne.KeyHome) }, "[0]"},
		{"the end", func() { typeKey(w, fyne.KeyEnd) }, "[11]"},
		{"left", func() { typeKey(w, fyne.KeyLeft) }, "[10]"},
		{"a page up", func() { typeKey(w, fyne.KeyPageUp) }, "[0]"},
		{"a right click", func() { clickCard(w, 7, desktop.MouseButtonSecondary, 0) }, "[7]"},
	}
	for _, s := range steps {
		s.do()
		if got := fmt.Sprint(w.selection()); got != s.want {
			t.Errorf("%s chooses %s, want %s", s.name, got, s.want)
		}
	}
	if w.at != w.starts[7] {
		t.Errorf("the playhead is at frame %d, the panel starts at %d", w.at, w.starts[7])
	}
	menu := w.win.Canvas().Overlays().Top()
	if menu == nil {
		t.Fatal("the right button opens no menu")
	}
	menu.Hide()
}

func TestWallReordersByDragging(t *testing.T) {
	w := onWall(t, 6)
	was := letterTitles(w) // abcdef
	l := w.wall.wall
	carry := func(i, to int, part float64) {
		l.MouseDown(&desktop.MouseEvent{Button: desktop.MouseButtonPrimary, PointEvent: fyne.PointEvent{Position: onCard(w, i, 0.5)}})
		l.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: onCard(w, i, 0.52)}})
		if l.view.caret.before >= 0 {
			t.Error("a twitch of the hand is a drag")
		}
		l.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: onCard(w, to, part)}})
	}
	carry(1, 4, 0.9)
	if l.view.caret != (wallGap{5, 4, true}) && l.view.caret != (wallGap{5, 5, false}) {
		t.Errorf("the caret stands at %+v, want before panel 5", l.view.caret)
	}
	l.MouseUp(nil)
	if got := letterTitles(w); got != "acdebf" {
		t.Fatalf("dragged b behind e: %q, want acdebf", got)
	}
	if w.desk.UndoName() == "" || w.board.Panels[w.chosen].Title != "b" {
		t.Errorf("after the drag %q is chosen, undo is %q", w.board.Panels[w.chosen].Title, w.desk.UndoName())
	}
	w.desk.Undo()
	if got := letterTitles(w); got != was {
		t.Errorf("undone: %q, want %q", got, was)
	}

	clickCard(w, 0, desktop.MouseButtonPrimary, 0)
	clickCard(w, 2, desktop.MouseButtonPrimary, ctrl)
	carry(2, 5, 0.9)
	l.MouseUp(nil)
	if got := letterTitles(w); got != "bdefac" {
		t.Errorf("dragged a and c to the end: %q, want bdefac", got)
	}

	carry(0, 3, 0.9)
	typeKey(w, fyne.KeyEscape)
	l.MouseUp(nil)
	if got := letterTitles(w); got != "bdefac" || l.view.caret != noGap {
		t.Errorf("Escape does not end the drag: %q", got)
	}
}

func TestWallDriftsWhileCarrying(t *testing.T) {
	w := onWall(t, 26)
	l := w.wall.wall
	l.view.zoom = 3
	l.view.lay()
	p := onCard(w, 0, 0.5)
	l.MouseDown(&desktop.MouseEvent{Button: desktop.MouseButtonPrimary, PointEvent: fyne.PointEvent{Position: p}})
	l.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(p.X, l.Size().Height-3)}})
	before := l.view.caret.before
	for range 200 {
		l.driftOn()
	}
	if l.view.scroll < l.view.end-l.view.height || l.view.caret.before <= before {
		t.Errorf("near the lower edge: scrolled to %g of %g, caret from %d to %d", l.view.scroll, l.view.end-l.view.height, before, l.view.caret.before)
	}
	l.DragEnd()
	if l.driftSpeed() != 0 || w.board.Panels[0].Title != "b" {
		t.Errorf("after the drag: speed %g, first panel %q", l.driftSpeed(), w.board.Panels[0].Title)
	}
}

func TestWallGoesToThePanelOnTheTimeline(t *testing.T) {
	w := onWall(t, 5)
	clickCard(w, 3, desktop.MouseButtonPrimary, 0)
	w.seek(0)
	w.choose(3)
	w.goTo(0, false)
	typeKey(w, fyne.KeyReturn)
	if w.wall.root.Visible() || !w.rows.Visible() || w.at != w.starts[3] || w.chosen != 3 {
		t.Errorf("Return: wall %v, frame %d, panel %d; want the timeline at frame %d", w.wall.root.Visible(), w.at, w.chosen, w.starts[3])
	}
	w.pages.Show(w.wallPage)
	clickCard(w, 2, desktop.MouseButtonPrimary, 0)
	clickCard(w, 2, desktop.MouseButtonPrimary, 0)
	if w.wall.root.Visible() || w.at != w.starts[2] || w.chosen != 2 {
		t.Errorf("double click: wall %v, frame %d, panel %d", w.wall.root.Visible(), w.at, w.chosen)
	}
	test.Tap(w.wallPage.tab.button)
	if !w.wall.root.Visible() || !w.wallPage.tab.line.Visible() || w.timelinePage.tab.line.Visible() {
		t.Error("the button of the wall does not show it, or not that it is up")
	}
	typeKey(w, fyne.KeyF3)
	if w.wall.root.Visible() {
		t.Error("F3 does not show the timeline")
	}
}

func TestWallSearches(t *testing.T) {
	w := onWall(t, 8) // titles a to h
	w.do(board.Write([]int{2, 5, 6}, "words", func(x *board.Words) { x.Note = "mind the lamp" }))
	w.findOnWall()
	field := w.wall.words
	test.Type(field, "lamp")
	if got := w.wall.found.Text; got != "3 found" {
		t.Errorf("the window says %q", got)
	}
	if v := &w.wall.wall.view; !v.faded(0) || v.faded(2) || len(v.order) != 8 {
		t.Error("what does not fit is not faded, or off the wall")
	}
	enter := func() { field.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn}) }
	for _, want := range []int{2, 5, 6, 2} {
		if enter(); w.chosen != want {
			t.Errorf("Enter chooses %d, want %d", w.chosen, want)
		}
	}
	if got := w.wall.found.Text; got != "1 of 3 found" {
		t.Errorf("on the first found the window says %q", got)
	}
	w.choose(0)
	w.wall.setOnly(true)
	if got := fmt.Sprint(w.wall.wall.view.order, w.selection()); got != "[2 5 6] [2]" {
		t.Errorf("narrowed: on the wall and chosen are %s", got)
	}
	w.chooseAll()
	if got := fmt.Sprint(w.selection()); got != "[2 5 6]" {
		t.Errorf("all found: %s", got)
	}
	w.win.Canvas().Unfocus()
	typeKey(w, fyne.KeyDelete)
	if got := letterTitles(w); got != "abdeh" {
		t.Errorf("deleted what was found: %q left", got)
	}
	w.desk.Undo()
	w.choose(2)
	w.addBlank(false)                                                                // does not fit, but one has to see what one made
	if got := fmt.Sprint(w.wall.wall.view.order, w.chosen); got != "[2 3 4 6 7] 3" { // 4 was chosen after the deletion
		t.Errorf("a new panel while narrowed: on the wall and chosen are %s", got)
	}
	typeKey(w, fyne.KeyEscape)
	if field.Text != "" || len(w.wall.wall.view.order) != len(w.board.Panels) {
		t.Error("Escape does not end the search")
	}
}

func TestEditsWorkOnTheWall(t *testing.T) {
	w := onWall(t, 4)
	typeKey(w, fyne.KeyHome)
	typeKey(w, fyne.KeyRight)
	w.duplicate()
	if got := letterTitles(w); got != "abbcd" {
		t.Errorf("duplicated: %q", got)
	}
	if v := &w.wall.wall.view; len(v.order) != 5 || v.chosen != w.chosen || !slices.Equal(v.selected, w.selection()) {
		t.Errorf("the wall shows %d panels, %d and %v chosen; the window %d and %v", len(v.order), v.chosen, v.selected, w.chosen, w.selection())
	}
	w.copyPanels()
	typeKey(w, fyne.KeyEnd)
	w.pastePanels()
	settle(t, w)
	if got := letterTitles(w); got != "abbcdb" {
		t.Errorf("pasted: %q", got)
	}
	typeKey(w, fyne.KeyN)
	if !w.wall.wall.view.hasShots() {
		t.Error("a new shot has no bracket on the wall")
	}
	typeKey(w, fyne.KeyPlus)
	if got, want := w.wall.size.Text, fmt.Sprintf("%d in a row", w.wall.wall.view.perRow()); got != want || w.wall.wall.view.zoom == 0 {
		t.Errorf("zoomed: the window says %q, want %q", got, want)
	}
}

func TestWallShowsThePlayhead(t *testing.T) {
	w := onWall(t, 3) // of 24 frames each
	r := w.wall.wall.renderer
	for _, tt := range []struct {
		at     board.Frame
		panel  int
		part   float64
		hidden bool
	}{{at: 0}, {at: 30, panel: 1, part: 0.25}, {at: 71, panel: 2, part: 23. / 24}, {at: 72, hidden: true}} {
		w.seek(tt.at)
		x, y := w.wall.wall.view.card(tt.panel)
		want := fyne.NewPos(float32(x+tt.part*w.wall.wall.view.size().w)-0.75, float32(y))
		if r.line.Hidden != tt.hidden || !tt.hidden && r.line.Position() != want {
			t.Errorf("at frame %d the line is at %v, hidden %v; want %v, %v", tt.at, r.line.Position(), r.line.Hidden, want, tt.hidden)
		}
	}
}

func TestForeignTitlesAreTextObjects(t *testing.T) {
	w := onWall(t, 3)
	w.do(board.Write([]int{1}, "words", func(x *board.Words) { x.Title = "茶壶在想茶杯" }))
	var got []string
	for _, text := range w.wall.wall.renderer.words {
		if text.Visible() {
			got = append(got, text.Text)
		}
	}
	if !slices.Equal(got, []string{"茶壶在想茶杯"}) {
		t.Errorf("text objects %q, want the one title the figures' font lacks", got)
	}
}
