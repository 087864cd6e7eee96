package ui

import (
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"stillbeat/board"
)

// openCard opens a film of four panels, two beats (24 frames) each, in a
// window without a screen.
func openCard(t *testing.T) *window {
	t.Helper()
	w := openWindow(t)
	bringIn(t, w, 4)
	w.foot.said = time.Time{} // hints are heard again
	return w
}

func typeIn(w *window, f *cardField, text string) {
	w.win.Canvas().Focus(f)
	test.Type(f, text)
}

func pressKey(f fyne.Focusable, k fyne.KeyName) { f.TypedKey(&fyne.KeyEvent{Name: k}) }

func TestEachFieldOfTheCardIsWritten(t *testing.T) {
	w := openCard(t)
	w.choose(1)
	w.do(board.Write([]int{1}, "title", func(p *board.Words) { p.Title = "" }))
	w.desk.CloseEdit()
	c := w.card
	for _, f := range []struct {
		field *cardField
		text  string
		of    func(board.Panel) string
		undo  string
	}{
		{c.title, "The kettle", func(p board.Panel) string { return p.Title }, "title of panel 2"},
		{c.action, "It boils.", func(p board.Panel) string { return p.Action }, "action of panel 2"},
		{c.sound, "steam, 音", func(p board.Panel) string { return p.Sound }, "sound of panel 2"},
		{c.note, "more light", func(p board.Panel) string { return p.Note }, "note of panel 2"},
		{c.size, "MCU low", func(p board.Panel) string { return p.Size }, "shot size of panel 2"},
		{c.camera, "drifts", func(p board.Panel) string { return p.Camera }, "camera of panel 2"},
	} {
		typeIn(w, f.field, f.text)
		w.win.Canvas().Unfocus()
		if got := f.of(w.board.Panels[1]); got != f.text || w.desk.UndoName() != f.undo {
			t.Errorf("typed %q: the panel has %q, undo is %q, want %q", f.text, got, w.desk.UndoName(), f.undo)
		}
		before := w.board
		w.desk.Undo()
		if got := f.of(w.board.Panels[1]); got != "" || f.field.Text != "" {
			t.Errorf("one undo of %q leaves %q, in the field %q", f.text, got, f.field.Text)
		}
		if w.desk.Redo(); w.board.Panels[1] != before.Panels[1] {
			t.Errorf("redo of %q is another panel", f.text)
		}
	}
}

func TestSeveralPanelsAreWrittenAtOnce(t *testing.T) {
	w := openCard(t)
	c := w.card
	w.do(board.Write([]int{1}, "rig", func(p *board.Words) { p.Rig = true }))
	w.do(board.Write([]int{1, 2}, "size", func(p *board.Words) { p.Size = "CU" }))
	w.choose(1)
	w.chooseTo(3)
	if c.name.Text != "3 panels" || c.numberRow.field.Visible() || c.headingRow.field.Visible() {
		t.Errorf("the card is of %q, number %v, heading %v", c.name.Text, c.numberRow.field.Visible(), c.headingRow.field.Visible())
	}
	for name, f := range map[string]*cardField{"title": c.title, "size": c.size} {
		if f.Text != "" || f.PlaceHolder != differ {
			t.Errorf("%s differs: the field has %q, in its place %q", name, f.Text, f.PlaceHolder)
		}
	}
	if c.action.PlaceHolder == differ || c.frames.Text != "24" || !c.marks[0].Partial || c.marks[1].Partial {
		t.Errorf("action %q, hold %q, rig half set %v, effect half set %v", c.action.PlaceHolder, c.frames.Text, c.marks[0].Partial, c.marks[1].Partial)
	}

	before, undo := w.board, w.desk.UndoName()
	for range 12 { // walk through all and touch nothing
		w.win.Canvas().FocusNext()
	}
	w.win.Canvas().Unfocus()
	if !slices.Equal(w.board.Panels, before.Panels) || w.desk.UndoName() != undo {
		t.Error("walking through the fields changed the panels")
	}

	typeIn(w, c.title, "Tea")
	w.win.Canvas().Unfocus()
	for i, want := range []string{"a", "Tea", "Tea", "Tea"} {
		if got := w.board.Panels[i].Title; got != want {
			t.Errorf("panel %d is called %q, want %q", i+1, got, want)
		}
	}
	if w.desk.UndoName() != "title of 3 panels" {
		t.Errorf("undo is %q", w.desk.UndoName())
	}
	w.desk.Undo()
	if !slices.Equal(w.board.Panels, before.Panels) {
		t.Error("one undo does not take back what was typed on three panels")
	}
	test.Tap(c.marks[0])
	for i, want := range []bool{false, true, true, true} {
		if got := w.board.Panels[i].Rig; got != want {
			t.Errorf("a half set mark ticked: panel %d has the rig %v", i+1, got)
		}
	}
	test.Tap(c.marks[0])
	if w.board.Panels[1].Rig {
		t.Error("ticked again the mark stays")
	}
	if w.desk.Undo(); !w.board.Panels[3].Rig {
		t.Error("two ticks are one step to undo")
	}
}

func TestTypingOnOtherPanelsIsAnotherStep(t *testing.T) {
	w := openCard(t)
	w.choose(0)
	w.chooseTo(1)
	typeIn(w, w.card.action, "x")
	w.selectSet([]int{2, 3}, 3) // with the cursor still in the field
	test.Type(w.card.action, "y")
	w.desk.Undo()
	for i, want := range []string{"x", "x", "", ""} {
		if got := w.board.Panels[i].Action; got != want {
			t.Errorf("after one undo panel %d has %q, want %q", i+1, got, want)
		}
	}
}

func TestHoldIsTypedInAnyUnit(t *testing.T) {
	w := openCard(t) // 120 BPM at 24 fps: a beat is 12 frames, a bar 48
	w.choose(0)
	f := w.card.frames
	for _, c := range []struct {
		text string
		want board.Frame
		says string
	}{
		{"36", 36, ""}, {"1.5 s", 36, ""}, {"1,25 s", 30, ""}, {"2 beats", 24, ""}, {"1 bar", 48, ""},
		{"-4", 48, "is no length"}, {"soon", 48, "is no length"}, {"2 furlongs", 48, "is no unit"}, {"", 48, ""},
	} {
		w.foot.words.SetText("")
		w.win.Canvas().Focus(f)
		f.SetText(c.text)
		w.win.Canvas().Unfocus()
		if got := w.starts[1]; got != c.want {
			t.Errorf("typed %q: the hold is %d frames, want %d", c.text, got, c.want)
		}
		if want := itoa(c.want); f.Text != want || !strings.Contains(w.foot.words.Text, c.says) {
			t.Errorf("typed %q: the field has %q, the foot says %q", c.text, f.Text, w.foot.words.Text)
		}
	}
	w.do(board.SetHold([]int{1}, 7))
	w.chooseTo(1)
	if f.Text != "" || f.PlaceHolder != differ {
		t.Errorf("two holds: the field has %q, in its place %q", f.Text, f.PlaceHolder)
	}
	typeIn(w, f, "1 s")
	pressKey(f, fyne.KeyReturn)
	if got := w.starts; !slices.Equal(got, []board.Frame{0, 24, 48, 72, 96}) || w.win.Canvas().Focused() != nil {
		t.Errorf("a second for each: starts %v, cursor in %v", got, w.win.Canvas().Focused())
	}
	undo := w.desk.UndoName()
	typeIn(w, f, "24")
	w.win.Canvas().Unfocus()
	if w.desk.UndoName() != undo {
		t.Errorf("the same hold again is a step: %q", w.desk.UndoName())
	}
	typeIn(w, f, "0")
	if pressKey(f, fyne.KeyReturn); w.win.Canvas().Focused() != fyne.Focusable(f) || f.Text != "0" {
		t.Errorf("Return on what is no hold: the field has %q and lost the cursor", f.Text)
	}
}

func itoa(f board.Frame) string { return strconv.FormatInt(int64(f), 10) }

func TestNoTextIsLostWhenTheSelectionChanges(t *testing.T) {
	w := openCard(t)
	f := w.card.frames
	w.choose(1)
	typeIn(w, f, "30")
	w.choose(2) // the cursor stays in the field
	if h := w.board.Holds(); !slices.Equal(h, []board.Frame{24, 30, 24, 24}) || f.Text != "24" || w.chosen != 2 {
		t.Errorf("holds %v, panel %d in the card with %q: want 30 on panel 2", h, w.chosen+1, f.Text)
	}
	typeIn(w, f, "40")
	w.do(board.SetTitle("elsewhere")) // shown anew, same panel
	if f.Text != "40" || w.starts[3]-w.starts[2] != 24 {
		t.Errorf("while typing: the field has %q, hold %d", f.Text, w.starts[3]-w.starts[2])
	}
	w.do(board.Delete([]int{0, 2})) // the panel is gone
	if len(w.board.Panels) != 2 || slices.Contains(w.board.Holds(), 40) {
		t.Errorf("holds %v after the panel was deleted", w.board.Holds())
	}
	w.choose(0)
	typeIn(w, f, "50")
	old := w.desk
	w.openFilm("") // what was typed is in the film that was left
	if got := old.Board().Holds()[0]; got != 50 {
		t.Errorf("the film left has a hold of %d, want 50", got)
	}
	if len(w.board.Panels) != 0 || w.card.body.Visible() {
		t.Error("an empty film has a card")
	}
}

func TestCardStaysWhileOneWrites(t *testing.T) {
	w := openCard(t)
	w.choose(0)
	typeIn(w, w.card.note, "half a sen")
	w.goTo(50, false)
	w.choosePlaying()
	test.Type(w.card.note, "tence")
	if got := w.board.Panels[0].Note; got != "half a sentence" || w.chosen != 0 {
		t.Errorf("written %q on panel 1, the card is of panel %d", got, w.chosen+1)
	}
	w.win.Canvas().Unfocus()
	if w.choosePlaying(); w.chosen != 2 {
		t.Errorf("with the field left the card is of panel %d, want 3", w.chosen+1)
	}
}

func TestTransitionAndExposures(t *testing.T) {
	w := openCard(t)
	c := w.card
	w.choose(1)
	if c.passingRow.Visible() {
		t.Error("a cut has a length")
	}
	c.into.SetSelected("dissolve")
	if got := w.board.Panels[1].Into; got != (board.Transition{Kind: board.Dissolve, Frames: 24}) || !c.passingRow.Visible() || c.passing.Text != "24" {
		t.Errorf("picked a dissolve: %+v, field %q", got, c.passing.Text)
	}
	for _, x := range []struct {
		text string
		want board.Frame
	}{{"12", 12}, {"0.25 s", 6}, {"2 beats", 6}, {"900", 6}} {
		w.win.Canvas().Focus(c.passing)
		c.passing.SetText(x.text)
		w.win.Canvas().Unfocus()
		if got := w.board.Panels[1].Into.Frames; got != x.want || c.passing.Text != itoa(x.want) {
			t.Errorf("typed %q: %d frames, the field has %q", x.text, got, c.passing.Text)
		}
	}
	w.chooseTo(2)
	if c.into.Selected != "" || c.into.PlaceHolder != differ || c.passingRow.Visible() {
		t.Errorf("a dissolve and a cut: %q %q, length %v", c.into.Selected, c.into.PlaceHolder, c.passingRow.Visible())
	}
	c.into.SetSelected("fade")
	if w.board.Panels[1].Into != w.board.Panels[2].Into || w.board.Panels[2].Into.Kind != board.Fade {
		t.Errorf("a fade for both: %+v and %+v", w.board.Panels[1].Into, w.board.Panels[2].Into)
	}
	c.step.SetSelected("on threes")
	if w.board.Panels[1].Step != 3 || w.board.Panels[2].Step != 3 || c.exposing.Text != "16 exposures" {
		t.Errorf("on threes: steps %d and %d, %q", w.board.Panels[1].Step, w.board.Panels[2].Step, c.exposing.Text)
	}
	c.step.SetSelected("as the film")
	w.do(board.SetPanelStep([]int{2}, 6))
	w.choose(2)
	if c.step.Selected != "" || c.step.PlaceHolder != "on 6s" {
		t.Errorf("on sixes the card says %q %q", c.step.Selected, c.step.PlaceHolder)
	}
}

func TestNumbersAndHeading(t *testing.T) {
	w := openCard(t)
	c := w.card
	w.do(board.Open([]int{2}, board.OpensShot))
	w.choose(2)
	if c.name.Text != "Panel 2A" || c.sceneNumber.Visible() || !c.shotNumber.Visible() || c.shot.PlaceHolder != "2" {
		t.Errorf("%q, scene %v, shot %v with %q", c.name.Text, c.sceneNumber.Visible(), c.shotNumber.Visible(), c.shot.PlaceHolder)
	}
	typeIn(w, c.heading, "At the table")
	typeIn(w, c.shot, "12b")
	w.win.Canvas().Unfocus()
	if p := w.board.Panels[2]; p.Heading != "At the table" || p.Fixed.Shot != "12B" || c.name.Text != "Panel 12BA" {
		t.Errorf("heading %q, shot %q, %q", p.Heading, p.Fixed.Shot, c.name.Text)
	}
	w.do(board.Open([]int{3}, board.OpensShot))
	w.choose(3)
	w.win.Canvas().Focus(c.shot)
	c.shot.SetText("12B")
	w.win.Canvas().Unfocus()
	if c.shot.Text != "" || !strings.Contains(w.foot.words.Text, "12B") {
		t.Errorf("a number in use: the field has %q, the foot says %q", c.shot.Text, w.foot.words.Text)
	}
	w.choose(1)
	if c.headingRow.field.Visible() || c.shotNumber.Visible() {
		t.Error("a panel within a shot has a heading, or the number of a shot")
	}
}

func TestTabGoesThroughTheCardFromTopToBottom(t *testing.T) {
	w := openCard(t)
	c, cv := w.card, w.win.Canvas()
	w.do(board.SetTransition([]int{0}, board.Transition{Kind: board.Fade, Frames: 16}))
	w.choose(0)
	order := []fyne.Focusable{c.frames, c.title, c.action, c.sound, c.note, c.size, c.camera, c.into, c.passing, c.step,
		c.marks[0], c.marks[1], c.marks[2], c.marks[3], c.heading, c.scene, c.shot, c.panel}
	cv.Focus(order[0])
	seen := func(o fyne.CanvasObject) bool {
		at := fyne.CurrentApp().Driver().AbsolutePositionForObject(o).Y - fyne.CurrentApp().Driver().AbsolutePositionForObject(c.scroll).Y
		return at >= 0 && at+o.Size().Height <= c.scroll.Size().Height
	}
	last := float32(-1)
	for k, want := range order {
		if cv.Focused() != want {
			t.Fatalf("stop %d of Tab is %T %v, want %T", k, cv.Focused(), cv.Focused(), want)
		}
		o := want.(fyne.CanvasObject)
		if !seen(o) {
			t.Errorf("stop %d is out of sight", k)
		}
		d := fyne.CurrentApp().Driver()
		if y := d.AbsolutePositionForObject(o).Y - d.AbsolutePositionForObject(c.scroll.Content).Y; y < last-10 {
			t.Errorf("stop %d is above the one before it", k)
		} else {
			last = y
		}
		if w.foot.words.Text == "" {
			t.Errorf("the foot does not say what stop %d is for", k)
		}
		cv.FocusNext()
	}
	cv.FocusPrevious()
	for k := len(order) - 1; k >= 0; k-- {
		if cv.Focused() != order[k] {
			t.Fatalf("Shift+Tab: stop %d is %T", k, cv.Focused())
		}
		cv.FocusPrevious()
	}
	for k, f := range order {
		cv.Focus(f)
		if pressKey(f, fyne.KeyEscape); cv.Focused() != nil {
			t.Errorf("Escape does not leave stop %d", k)
		}
	}
	for _, f := range []*cardField{c.title, c.size, c.heading, c.frames} {
		cv.Focus(f)
		if pressKey(f, fyne.KeyReturn); cv.Focused() != nil {
			t.Errorf("Return does not leave a field of one line, %q", f.Text)
		}
	}
	cv.Focus(c.action)
	test.Type(c.action, "one")
	pressKey(c.action, fyne.KeyReturn)
	if test.Type(c.action, "two"); w.board.Panels[0].Action != "one\ntwo" {
		t.Errorf("Return in a long text: %q", w.board.Panels[0].Action)
	}
}

func TestSuggestionsArePickedByKey(t *testing.T) {
	w := openCard(t)
	w.choose(0)
	f := w.card.size
	w.win.Canvas().Focus(f)
	pressKey(f, fyne.KeyDown)
	menu, ok := w.win.Canvas().Focused().(*widget.PopUpMenu)
	if !ok {
		t.Fatalf("the down arrow opens %T", w.win.Canvas().Focused())
	}
	if len(menu.Items) != len(board.Sizes) {
		t.Errorf("%d sizes offered, want %d", len(menu.Items), len(board.Sizes))
	}
	for range 3 {
		pressKey(menu, fyne.KeyDown)
	}
	pressKey(menu, fyne.KeyReturn)
	if got := w.board.Panels[0].Size; got != "CU" || w.win.Canvas().Focused() != fyne.Focusable(f) {
		t.Errorf("picked the third: %q, the cursor in %T", got, w.win.Canvas().Focused())
	}
	if hint := f.hint(); !strings.Contains(hint, "the face") {
		t.Errorf("the hint does not say what CU is: %q", hint)
	}
	test.Tap(w.card.camera.ActionItem.(*tapIcon))
	if menu, ok := w.win.Canvas().Focused().(*widget.PopUpMenu); !ok || len(menu.Items) != len(board.Moves) {
		t.Errorf("a click on the sign opens %T", w.win.Canvas().Focused())
	}
}

func TestKeysOfTicksAndChoicesAreTheWindows(t *testing.T) {
	w := openCard(t)
	w.choose(0)
	for _, f := range []fyne.Focusable{w.card.marks[1], w.card.step} {
		w.choose(0)
		w.win.Canvas().Focus(f)
		if pressKey(f, fyne.KeyDelete); len(w.board.Panels) != 3 {
			t.Errorf("Delete on %T: %d panels, want 3", f, len(w.board.Panels))
		}
		w.desk.Undo()
	}
	w.choose(0)
	w.win.Canvas().Focus(w.card.marks[1])
	if w.card.marks[1].TypedRune(' '); !w.board.Panels[0].Effect {
		t.Error("Space does not tick")
	}
	if test.Tap(w.card.marks[1]); w.win.Canvas().Focused() != nil {
		t.Error("a click leaves the keys with the tick")
	}
}
