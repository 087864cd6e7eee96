package ui

import (
	"math"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"

	"stillbeat/board"
	"stillbeat/board/picture"
)

// openFrame opens a film of four panels of 16:9 pictures with the face up and
// the first panel's picture read.
func openFrame(t *testing.T) *window {
	t.Helper()
	w := openCard(t)
	w.choose(0)
	w.faces.Show(w.framing.face)
	warmUp(t, w)
	return w
}

func warmUp(t *testing.T, w *window) {
	t.Helper()
	if err := w.film.Warm(w.chosen, board.Placement{}, picture.Bench{High: 200}); err != nil {
		t.Fatal(err)
	}
	settle(t, w)
	w.faces.Present()
}

// onPicture drags on the viewer from one point of the frame to another.
func onPicture(w *window, from, to board.Point) {
	s := w.surface
	at := func(p board.Point) fyne.PointEvent {
		pos, size := s.frame()
		return fyne.PointEvent{Position: fyne.NewPos(pos.X+size.Width/2+float32(p.X)*size.Height, pos.Y+size.Height/2+float32(p.Y)*size.Height)}
	}
	s.MouseDown(&desktop.MouseEvent{PointEvent: at(from), Button: desktop.MouseButtonPrimary})
	for k := 1; k <= 4; k++ {
		part := float64(k) / 4
		s.Dragged(&fyne.DragEvent{PointEvent: at(board.Point{X: from.X + (to.X-from.X)*part, Y: from.Y + (to.Y-from.Y)*part})})
	}
	s.MouseUp(nil)
}

func placedOf(w *window, i int) board.Placement { return w.board.Panels[i].Drawing().Placed }

func about(a, b float64) bool { return math.Abs(a-b) < 0.01 }

func TestPictureIsDraggedInTheFrame(t *testing.T) {
	w := openFrame(t)
	onPicture(w, board.Point{X: 0.1, Y: 0.1}, board.Point{X: 0.3, Y: 0.25})
	p := placedOf(w, 0)
	if p.Fit != board.ByHand || !about(p.At.X, 0.2) || !about(p.At.Y, 0.15) || p.Times() != 1 {
		t.Errorf("dragged by 0.2, 0.15 it lies %+v", p)
	}
	if got := w.framing.lay.x.Text; got != inFigures(100*p.At.X, 2)+" %" {
		t.Errorf("the field says %q, the picture is at %g", got, p.At.X)
	}
	if w.desk.Undo(); placedOf(w, 0) != (board.Placement{}) {
		t.Errorf("one undo leaves it at %+v", placedOf(w, 0))
	}

	// From near the upper left corner inwards: the lower right one stays.
	onPicture(w, board.Point{X: -8. / 9, Y: -0.5}, board.Point{X: -0.4, Y: -0.225})
	p = placedOf(w, 0)
	b, _ := w.pictureBox()
	if c := b.corners(); !about(c[2].X, 8./9) || !about(c[2].Y, 0.5) || !about(c[0].Y, -0.225) || p.Turn != 0 {
		t.Errorf("scaled, its corners are %v (%+v)", c, p)
	}
	w.desk.Undo()

	g := w.surface.grip(desktop.MouseButtonPrimary)
	from := box{w: 16. / 9, h: 1}.handle(g.view, g.reach)
	onPicture(w, from, board.Point{X: -from.Y, Y: from.X}) // a quarter clockwise
	if p = placedOf(w, 0); p.Turn != 90 && p.Turn != -90 {
		t.Errorf("turned by a quarter it is %+v", p)
	}

	w.surface.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: middle(w)}})
	w.surface.MouseUp(nil)
	w.surface.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: middle(w)}})
	w.surface.MouseUp(nil)
	if p = placedOf(w, 0); p != (board.Placement{}) {
		t.Errorf("after a double click it lies %+v", p)
	}
}

func middle(w *window) fyne.Position {
	pos, size := w.surface.frame()
	return fyne.NewPos(pos.X+size.Width/2, pos.Y+size.Height/2)
}

func TestChosenPanelsArePlacedAlike(t *testing.T) {
	w := openFrame(t)
	w.selectSet([]int{0, 1, 2}, 0)
	w.fitPicture(board.Filled)
	w.flipPicture()
	for i := range 3 {
		if p := placedOf(w, i); p != (board.Placement{Fit: board.Filled, Flip: true}) {
			t.Errorf("panel %d lies %+v", i+1, p)
		}
	}
	if placedOf(w, 3) != (board.Placement{}) {
		t.Error("a panel that is not chosen was placed too")
	}
	typeNumber(w, w.framing.lay.turn, "12,5°")
	if p := placedOf(w, 2); p.Turn != 12.5 || p.Fit != board.ByHand || !p.Flip {
		t.Errorf("with a turn typed panel 3 lies %+v", p)
	}
}

func typeNumber(w *window, f *numberField, text string) {
	w.win.Canvas().Focus(f)
	f.SetText("")
	test.Type(f, text)
	f.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
}

func TestNumbersOfThePicture(t *testing.T) {
	w := openFrame(t)
	lay := w.framing.lay
	for _, c := range []struct {
		field *numberField
		typed string
		of    func(board.Placement) float64
		want  float64
	}{
		{lay.x, "25", func(p board.Placement) float64 { return p.At.X }, 0.25},
		{lay.y, "-10 %", func(p board.Placement) float64 { return p.At.Y }, -0.1},
		{lay.by, "150", func(p board.Placement) float64 { return p.Scale }, 1.5},
		{lay.turn, "-30", func(p board.Placement) float64 { return p.Turn }, -30},
	} {
		typeNumber(w, c.field, c.typed)
		if got := c.of(placedOf(w, 0)); !about(got, c.want) {
			t.Errorf("typed %q: %g, want %g", c.typed, got, c.want)
		}
		before := placedOf(w, 0)
		for _, wrong := range []string{"a lot", "1e9", ""} {
			typeNumber(w, c.field, wrong)
			w.win.Canvas().Unfocus()
			if placedOf(w, 0) != before || c.field.Text != c.field.shown {
				t.Errorf("%q was taken: %+v, the field says %q", wrong, placedOf(w, 0), c.field.Text)
			}
		}
	}
}

func TestArrowsNudgeThePicture(t *testing.T) {
	w := openFrame(t)
	steps := len(w.desk.Past().Steps)
	for range 3 {
		w.typedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	}
	if p := placedOf(w, 0); !about(p.At.X*1000, 3) || w.at != 0 {
		t.Errorf("after three steps it lies %+v, the playhead on %d", p, w.at)
	}
	if got := len(w.desk.Past().Steps) - steps; got != 1 {
		t.Errorf("three steps in a row are %d to undo", got)
	}
	if !w.framing.typed(fyne.KeyUp, shift) {
		t.Fatal("an arrow with Shift is not taken")
	}
	if p := placedOf(w, 0); !about(p.At.Y*1000, -10) {
		t.Errorf("ten times as far up it lies %+v", p)
	}
	if w.framing.typed(fyne.KeyRight, ctrl) || w.framing.typed(fyne.KeySpace, 0) {
		t.Error("keys of the window are taken")
	}
}

func TestEscapeLeavesWhatIsHeldWhereItWas(t *testing.T) {
	w := openFrame(t)
	s := w.surface
	s.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: middle(w)}, Button: desktop.MouseButtonPrimary})
	s.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: middle(w).AddXY(60, 20)}})
	if w.framing.place.now == nil {
		t.Fatal("nothing is held")
	}
	w.typedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	s.MouseUp(nil)
	if p := placedOf(w, 0); p != (board.Placement{}) {
		t.Errorf("it lies %+v", p)
	}
}

func TestCameraIsMovedOnThePicture(t *testing.T) {
	w := openFrame(t)
	w.framing.turn(w.framing.camera)
	travel := func() board.CameraMove { return w.board.Panels[0].Drawing().Travel }
	run(t, w, "Camera: push in")
	if m := travel(); m.Holds() || m.To.Part() >= m.From.Part() || m.Spacing != board.SlowInOut {
		t.Fatalf("pushed in: %+v", m)
	}
	onPicture(w, board.Point{}, board.Point{X: 0.062}) // the smaller one is the end
	m := travel()
	if !about(m.To.At.X, 0.062) || m.To.At.Y != 0 || m.From != (board.Framing{}) {
		t.Errorf("the end dragged by 0.062: %+v", m)
	}
	if w.framing.travel.warning.Visible() {
		t.Errorf("it warns: %q", w.framing.travel.warning.Text)
	}
	typeNumber(w, w.framing.travel.to.x, "60")
	if !w.framing.travel.warning.Visible() {
		t.Errorf("the end beyond the picture (%+v) is not told", travel())
	}
	run(t, w, swapName)
	if n := travel(); !about(n.From.At.X, 0.6) || n.To != (board.Framing{}) {
		t.Errorf("swapped: %+v", n)
	}
	end := travel().To
	w.choose(1)
	run(t, w, "Camera: pan right")
	run(t, w, moveOnName)
	if n := w.board.Panels[1].Drawing().Travel; n.From != end || n.To.At.X <= 0 {
		t.Errorf("going on where panel 1 ends (%+v): %+v", end, n)
	}
	run(t, w, "Camera: hold")
	if n := w.board.Panels[1].Drawing().Travel; !n.Holds() {
		t.Errorf("held: %+v", n)
	}
}

func TestNothingIsFramedInAFilmThatIsOnlyShown(t *testing.T) {
	w := openFrame(t)
	w.framing.lay.present(false)
	w.framing.travel.present(false)
	for _, f := range []*numberField{w.framing.lay.x, w.framing.lay.turn, w.framing.travel.from.width, w.framing.travel.to.x} {
		if !f.Disabled() {
			t.Errorf("%q can be typed over", f.Text)
		}
	}
	for _, b := range append([]*hintedButton{w.framing.lay.flip, w.framing.lay.back, w.framing.lay.fits[board.Filled], w.framing.travel.swap}, w.framing.travel.ready...) {
		if !b.Disabled() {
			t.Errorf("%q can be pressed", b.Text)
		}
	}
}

func TestFaceWithoutAPictureOrAPanel(t *testing.T) {
	w := openFrame(t)
	w.do(board.SetPicture([]int{0}, ""))
	if w.framing.lay.fits[board.Filled].Disabled() == false || w.framing.lay.size.Text == "" {
		t.Error("a panel without a picture can be placed")
	}
	onPicture(w, board.Point{}, board.Point{X: 0.3})
	w.typedKey(&fyne.KeyEvent{Name: fyne.KeyRight})
	if placedOf(w, 0) != (board.Placement{}) {
		t.Errorf("it lies %+v", placedOf(w, 0))
	}
	w.openFilm("")
	if w.framing.body.Visible() || !w.framing.empty.Visible() {
		t.Error("a film without panels shows fields")
	}
}

func TestPanelAtWorkIsTheChosenOne(t *testing.T) {
	w := openFrame(t)
	w.selectSet([]int{0, 1}, 0)
	w.seek(w.starts[2] + 3) // the choice stays
	if w.chosen != 0 || w.viewer.shot != w.film.Whole(0) {
		t.Errorf("panel %d is chosen, and the viewer shows another", w.chosen+1)
	}
}

func TestPlacesAreThoseOfTheFrameInEveryShape(t *testing.T) {
	w := openFrame(t)
	for _, a := range []board.Aspect{{W: 4, H: 3}, {W: 239, H: 100}, {W: 9, H: 16}} {
		w.do(board.SetAspect(a))
		warmUp(t, w)
		pos, size := w.surface.frame()
		if !about(float64(size.Width/size.Height), a.Ratio()) {
			t.Fatalf("%v: the frame is %v", a, size)
		}
		corner := w.surface.point(pos)
		if !about(corner.X, -a.Ratio()/2) || !about(corner.Y, -0.5) {
			t.Errorf("%v: the corner of the frame is at %v", a, corner)
		}
		img := w.viewer.image.Size()
		if size.Width > img.Width+1 || size.Height > img.Height+1 {
			t.Errorf("%v: a frame of %v in a picture of %v", a, size, img)
		}
	}
}
