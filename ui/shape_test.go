package ui

import (
	"math"
	"strings"
	"testing"

	"stillbeat/board"
)

func TestTheViewerHasTheShapeOfTheFilm(t *testing.T) {
	w := openWindow(t)
	bringIn(t, w, 2)
	w.toggleSecond()
	w.keys.named["Title safe area"].run()
	w.keys.named["Mask: 1:1"].run()
	for _, typed := range []string{"4:3", "1:1", "9:16", "2.39:1", "1.85", "1:4", "4:1", "16:9"} {
		a, err := board.ParseAspect(typed)
		if err != nil {
			t.Fatal(err)
		}
		w.do(board.SetAspect(a))
		settle(t, w)
		for _, v := range w.viewers() {
			pw, ph := v.pixels()
			if off := math.Abs(float64(pw) - float64(ph)*a.Ratio()); off > max(0.5, 0.5*a.Ratio())+0.01 {
				t.Errorf("%s: the picture is %d x %d", typed, pw, ph)
			}
			room, at, size := v.Size(), v.image.Position(), v.image.Size()
			m := float32(v.margin)
			if at.X < m || at.Y < m || at.X+size.Width > room.Width-m || at.Y+size.Height > room.Height-m {
				t.Errorf("%s: the picture, %v at %v, is not within %v", typed, size, at, room)
			}
			if spareX, spareY := room.Width-2*m-size.Width, room.Height-2*m-size.Height; spareX > 2 && spareY > 2 {
				t.Errorf("%s: the picture could be larger: %v and %v are left", typed, spareX, spareY)
			}
			if v.shown == nil || v.shown.Rect.Dx() != pw || v.shown.Rect.Dy() != ph {
				t.Errorf("%s: what is shown is not %d x %d", typed, pw, ph)
			}
			if g := v.over.guides; g.Position() != at || g.Size() != size || g.Image.Bounds() != v.shown.Rect {
				t.Errorf("%s: the guides lie at %v, %v large, the picture at %v, %v", typed, g.Position(), g.Size(), at, size)
			}
		}
	}
}

func TestTheShapeIsChosenInTheWindow(t *testing.T) {
	w := openWindow(t)
	bringIn(t, w, 2)
	shape := func(want, step string) {
		t.Helper()
		if got := w.board.Aspect.String(); got != want || w.header.shape.Text != want {
			t.Errorf("%s: the film is %s, the header says %q; want %s", step, got, w.header.shape.Text, want)
		}
		for _, a := range board.Aspects {
			if c := w.keys.named["Picture of "+a.String()]; c.entry.Checked != (a.String() == want) {
				t.Errorf("%s: %q is ticked: %v", step, c.name, c.entry.Checked)
			}
		}
	}
	shape("16:9", "at first")
	w.keys.named["Picture of 9:16"].run()
	shape("9:16", "from the menu")
	w.header.shape.SetText("2.39:1")
	shape("2.39:1", "picked in the header")
	w.desk.Undo()
	shape("9:16", "undone")
	w.desk.Undo()
	shape("16:9", "undone again")
	w.win.Canvas().Focus(w.header.shape)
	w.header.shape.SetText("5 to 4")
	w.win.Canvas().Unfocus()
	shape("16:9", "after nonsense")
	if !strings.Contains(w.foot.words.Text, "no shape") {
		t.Errorf("the foot says %q", w.foot.words.Text)
	}
	w.win.Canvas().Focus(w.header.shape)
	w.header.shape.SetText("4/5")
	w.win.Canvas().Unfocus()
	shape("4:5", "typed in the header")
	other := w.keys.named["Picture of another shape…"]
	if !other.entry.Checked || !strings.Contains(other.entry.Label, "4:5") {
		t.Errorf("the entry for another shape is %q, ticked: %v", other.entry.Label, other.entry.Checked)
	}
	w.header.shape.SetText("16:9")
	before := w.desk.UndoName()
	if err := w.setShape("32:18"); err != nil || w.desk.UndoName() != before {
		t.Errorf("the same shape typed otherwise is an edit %q, %v", w.desk.UndoName(), err)
	}
	if err := w.setShape("9:1"); err == nil {
		t.Error("a shape of 9:1 is taken")
	}
	shape("16:9", "at last")
}
