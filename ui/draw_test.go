package ui

import (
	"image"
	"image/color"
	"math"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"stillbeat/board"
	"stillbeat/board/figure"
	"stillbeat/board/picture"
	"stillbeat/board/sketch"
)

// openPad opens a film of two pictures and a blank panel with the pad up.
func openPad(t *testing.T) *window {
	t.Helper()
	w := openWindow(t)
	bringIn(t, w, 2)
	w.choose(1)
	w.addBlank(false)
	w.win.Resize(w.win.Canvas().Size().AddWidthHeight(1, 0))
	w.keys.named["Draw on the panel"].run()
	settle(t, w)
	second := 0.
	w.pad.clock = func() float64 { second += 1. / 120; return second }
	return w
}

// handAt is a place on the surface of a point of the frame.
func handAt(w *window, p board.Point) fyne.Position {
	pos, size := w.viewer.image.Position(), w.viewer.image.Size()
	return fyne.NewPos(pos.X+size.Width/2+float32(p.X)*size.Height, pos.Y+size.Height/2+float32(p.Y)*size.Height)
}

// handGoes presses at the first point and drags to the others.
func handGoes(w *window, way ...board.Point) {
	w.surface.MouseDown(&desktop.MouseEvent{Button: desktop.MouseButtonPrimary, PointEvent: fyne.PointEvent{Position: handAt(w, way[0])}})
	for i, p := range way[1:] {
		q := way[i]
		for k := range 12 {
			u := float64(k+1) / 12
			w.surface.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: handAt(w, board.Point{X: q.X + (p.X-q.X)*u, Y: q.Y + (p.Y-q.Y)*u})}})
		}
	}
	w.surface.MouseUp(nil)
}

// drawnOn returns the sketch of a panel as the film has it.
func drawnOn(t *testing.T, w *window, i int) board.Sketch {
	t.Helper()
	s, err := w.desk.Sketch(w.board.Panels[i].Drawing().Sketch)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func TestEachToolLeavesItsStroke(t *testing.T) {
	w := openPad(t)
	a, b := board.Point{X: -0.3, Y: -0.2}, board.Point{X: 0.3, Y: 0.2}
	for i, c := range []struct {
		key  fyne.KeyName
		undo string
		want func(board.Stroke) bool
	}{
		{fyne.Key1, "stroke of panel 3", func(k board.Stroke) bool { return k.Smooth && k.Width == sketch.Widths[1] && !k.Closed }},
		{fyne.Key2, "brush stroke of panel 3", func(k board.Stroke) bool { return k.Smooth && k.Width == 3*sketch.Widths[1] }},
		{fyne.Key3, "erasing of panel 3", func(k board.Stroke) bool { return k.Erases && k.Ink == color.NRGBA{} }},
		{fyne.Key4, "line of panel 3", func(k board.Stroke) bool { return len(k.Dots) == 2 && !k.Smooth }},
		{fyne.Key5, "ellipse of panel 3", func(k board.Stroke) bool { return k.Closed && k.Smooth }},
		{fyne.Key6, "rectangle of panel 3", func(k board.Stroke) bool { return k.Closed && len(k.Dots) == 4 }},
	} {
		typeKey(w, c.key)
		handGoes(w, a, b)
		s := drawnOn(t, w, 2)
		if len(s.Strokes) != i+1 || !c.want(s.Strokes[i]) || w.desk.UndoName() != c.undo {
			t.Fatalf("key %s: %d strokes, the last %+v; undo takes back %q", c.key, len(s.Strokes), s.Strokes[len(s.Strokes)-1], w.desk.UndoName())
		}
	}
	for n := 5; n >= 0; n-- {
		w.desk.Undo()
		if got := len(drawnOn(t, w, 2).Strokes); got != n || len(w.pad.sketch.Strokes) != n {
			t.Errorf("undone there are %d strokes, the pad has %d, want %d", got, len(w.pad.sketch.Strokes), n)
		}
	}
	if w.pad.easel.layers[board.Middle].RGBAAt(w.pad.easel.w/2, w.pad.easel.h/2).A != 0 {
		t.Error("the pad still shows what was undone")
	}
}

// What the pad shows while drawing is what the film shows.
func TestThePadShowsTheFilm(t *testing.T) {
	w := openPad(t)
	for _, i := range []int{0, 2} {
		w.choose(i)
		settle(t, w)
		handGoes(w, board.Point{X: -0.3, Y: -0.2}, board.Point{X: 0.1, Y: 0.3}, board.Point{X: 0.4})
		w.pad.setLayer(board.Above)
		w.pad.setInk(7)
		typeKey(w, fyne.Key2)
		handGoes(w, board.Point{X: -0.2}, board.Point{X: 0.3, Y: -0.1})
		w.pad.addFigure()
		settle(t, w)
		e := w.pad.easel
		want, err := w.desk.Pictures.Draw(w.film.Whole(i), e.w, e.h)
		if err != nil {
			t.Fatal(err)
		}
		far := 0
		for p := range want.Pix {
			if d := int(want.Pix[p]) - int(e.all.Pix[p]); d > 6 || d < -6 {
				far++
			}
		}
		if far > 0 {
			t.Errorf("panel %d: %d channels of the pad are not as in the film", i+1, far)
		}
		typeKey(w, fyne.Key1)
		w.pad.setLayer(board.Middle)
		w.pad.setInk(0)
	}
}

func TestFillOnThePad(t *testing.T) {
	w := openPad(t)
	typeKey(w, fyne.Key5)
	handGoes(w, board.Point{X: -0.3, Y: -0.3}, board.Point{X: 0.3, Y: 0.3})
	w.pad.setInk(3)
	typeKey(w, fyne.Key7)
	handGoes(w, board.Point{})
	s := drawnOn(t, w, 2)
	if len(s.Strokes) != 2 || !s.Strokes[0].Filled || s.Strokes[1].Filled || s.Strokes[0].Ink != sketch.Inks[3].Colour || w.desk.UndoName() != "fill of panel 3" {
		t.Fatalf("after a fill: %d strokes, undo takes back %q", len(s.Strokes), w.desk.UndoName())
	}
	if box := sketch.Around(s.Strokes, []int{0}); math.Abs(box.X1-0.3) > 0.01 || math.Abs(box.Y0+0.3) > 0.01 {
		t.Errorf("the patch reaches over %+v, want the ellipse", box)
	}
}

func TestChosenStrokesAreChanged(t *testing.T) {
	w := openPad(t)
	typeKey(w, fyne.Key6)
	handGoes(w, board.Point{X: -0.4, Y: -0.1}, board.Point{X: -0.2, Y: 0.1})
	handGoes(w, board.Point{X: 0.2, Y: -0.1}, board.Point{X: 0.4, Y: 0.1})
	typeKey(w, fyne.Key8)
	handGoes(w, board.Point{X: -0.45, Y: -0.2}, board.Point{X: -0.1, Y: 0.2}) // a box
	if got := w.pad.choose.set; len(got) != 1 || got[0] != 0 {
		t.Fatalf("the box chooses %v", got)
	}
	handGoes(w, board.Point{X: -0.3}, board.Point{X: -0.3, Y: 0.2}) // within: moves
	if box := sketch.Around(drawnOn(t, w, 2).Strokes, []int{0}); math.Abs(box.Middle().Y-0.2) > 0.01 || w.desk.UndoName() != "move strokes of panel 3" {
		t.Errorf("moved to %+v, undo takes back %q", box, w.desk.UndoName())
	}
	corner := handles(w.pad.choose.around(w.surface.grip(desktop.MouseButtonPrimary).reach), 0)[2]
	before := sketch.Around(w.pad.sketch.Strokes, []int{0})
	handGoes(w, corner, board.Point{X: corner.X + 0.1, Y: corner.Y + 0.1})
	if box := sketch.Around(drawnOn(t, w, 2).Strokes, []int{0}); box.X1 < before.X1+0.07 || math.Abs(box.X0-before.X0) > 0.02 {
		t.Errorf("scaled from %+v to %+v", before, box)
	}
	w.pad.setInk(2)
	w.pad.setLayer(board.Above)
	if k := drawnOn(t, w, 2).Strokes[0]; k.Ink != sketch.Inks[2].Colour || k.Layer != board.Above {
		t.Errorf("its ink is %v, its layer %d", k.Ink, k.Layer)
	}
	w.pad.duplicateHeld()
	if n := len(drawnOn(t, w, 2).Strokes); n != 3 || len(w.pad.choose.set) != 1 || w.pad.choose.set[0] != 2 {
		t.Errorf("duplicated: %d strokes, %v chosen", n, w.pad.choose.set)
	}
	typeKey(w, fyne.KeyDelete)
	if n := len(drawnOn(t, w, 2).Strokes); n != 2 || len(w.board.Panels) != 3 {
		t.Errorf("Delete leaves %d strokes and %d panels", n, len(w.board.Panels))
	}
	typeKey(w, fyne.KeyDelete) // nothing is chosen
	if len(w.board.Panels) != 3 {
		t.Error("with nothing chosen Delete takes a panel out")
	}
}

// What was erased of strokes stays erased when they are moved, and the eraser that
// stays behind bites nothing that is brought there.
func TestErasedStrokesAreMovedAsTheyLook(t *testing.T) {
	w := openPad(t)
	w.pad.setWidth(3)
	typeKey(w, fyne.Key4)
	handGoes(w, board.Point{X: -0.4}, board.Point{X: 0.4})
	typeKey(w, fyne.Key3)
	handGoes(w, board.Point{Y: -0.1}, board.Point{Y: 0.1})
	typeKey(w, fyne.Key8)
	handGoes(w, board.Point{X: -0.5, Y: -0.1}, board.Point{X: 0.5, Y: 0.1}) // a box
	handGoes(w, board.Point{X: 0.2}, board.Point{X: 0.2, Y: 0.3})
	dark := func(x, y float64) bool {
		t.Helper()
		settle(t, w)
		e := w.pad.easel
		at := e.all.RGBAAt(int((x+8./9)*float64(e.h)), int((y+0.5)*float64(e.h)))
		return at.R < 128
	}
	for _, tt := range []struct {
		x, y float64
		want bool
	}{{-0.2, 0.3, true}, {0.2, 0.3, true}, {0, 0.3, false}, {0.2, 0, false}} {
		if dark(tt.x, tt.y) != tt.want {
			t.Errorf("after the move there is ink at %v, %v: %v", tt.x, tt.y, !tt.want)
		}
	}
	if len(w.pad.choose.set) != 2 || w.desk.UndoName() != "move strokes of panel 3" {
		t.Errorf("chosen are %v, undo takes back %q", w.pad.choose.set, w.desk.UndoName())
	}
	if got := w.pad.face.chosen.Text; got != "2 of 2" {
		t.Errorf("it says %q are chosen: an eraser is none to choose", got)
	}
	handGoes(w, board.Point{X: 0.2, Y: 0.3}, board.Point{X: 0, Y: 0}) // to where the eraser went
	if !dark(0, 0) {
		t.Error("the eraser bites what is brought to its place")
	}
	w.pad.duplicateHeld()
	if n := len(w.pad.choose.set); n != 2 {
		t.Errorf("%d strokes are copied, want both pieces", n)
	}
	run(t, w, "Undo")
	run(t, w, "Undo")
	run(t, w, "Undo") // the pieces are one stroke again
	if len(w.pad.choose.set) != 0 {
		t.Errorf("of %d strokes %v are chosen", len(w.pad.sketch.Strokes), w.pad.choose.set)
	}
}

func TestErasedPatchesAreMovedAsTheyLook(t *testing.T) {
	w := openPad(t)
	typeKey(w, fyne.Key6)
	handGoes(w, board.Point{X: -0.4, Y: -0.3}, board.Point{X: 0, Y: 0.3})
	typeKey(w, fyne.Key7)
	handGoes(w, board.Point{X: -0.2})
	w.pad.setWidth(4)
	typeKey(w, fyne.Key3)
	handGoes(w, board.Point{X: -0.2, Y: -0.4}, board.Point{X: -0.2, Y: 0.4})
	typeKey(w, fyne.Key8)
	w.pad.choose.set = []int{0} // the patch
	if !w.pad.sketch.Strokes[0].Filled {
		t.Fatal("the first stroke is no patch")
	}
	handGoes(w, board.Point{X: -0.3}, board.Point{X: -0.15}) // not far: the eraser left behind bites nothing
	handGoes(w, board.Point{X: -0.2}, board.Point{X: 0.2})
	settle(t, w)
	e := w.pad.easel
	for _, tt := range []struct {
		x    float64
		want bool
	}{{0.2, true}, {0.35, false}, {0.5, true}, {-0.3, false}} {
		if got := e.all.RGBAAt(int((tt.x+8./9)*float64(e.h)), e.h/2).R < 128; got != tt.want {
			t.Errorf("after the move there is ink at %v: %v", tt.x, got)
		}
	}
}

func TestAFigureIsPosed(t *testing.T) {
	w := openPad(t)
	w.pad.addFigure()
	s := drawnOn(t, w, 2)
	if len(s.Figures) != 1 || w.pad.kind != toolFigure {
		t.Fatalf("%d figures, tool %d", len(s.Figures), w.pad.kind)
	}
	hand := inHeights(s.Figures[0].Joints()[figure.NearHand])
	to := board.Point{X: hand.X + 0.15, Y: hand.Y - 0.2}
	handGoes(w, hand, to)
	now := drawnOn(t, w, 2).Figures[0]
	if got := inHeights(now.Joints()[figure.NearHand]); math.Hypot(got.X-to.X, got.Y-to.Y) > 0.03 || w.desk.UndoName() != "pose of panel 3" {
		t.Errorf("the hand is at %v, want %v; undo takes back %q", got, to, w.desk.UndoName())
	}
	foot := inHeights(now.Joints()[figure.NearFoot])
	handGoes(w, foot)
	if now := drawnOn(t, w, 2).Figures[0]; now.Pinned != [2]bool{false, true} {
		t.Errorf("after a click on a foot, pinned are %v", now.Pinned)
	}
	w.pad.addHeads(-50)
	w.pad.flipFigure()
	if now := drawnOn(t, w, 2).Figures[0]; now.Heads != 700 || !now.Left {
		t.Errorf("%d heads, left %v", now.Heads, now.Left)
	}
	typeKey(w, fyne.KeyDelete)
	if n := len(drawnOn(t, w, 2).Figures); n != 0 {
		t.Errorf("deleted, there are %d figures", n)
	}
}

func TestStrokesOfThePanelBefore(t *testing.T) {
	w := openPad(t)
	w.choose(1)
	handGoes(w, board.Point{X: -0.3}, board.Point{X: 0.3})
	typeKey(w, fyne.Key6)
	handGoes(w, board.Point{X: -0.3, Y: -0.3}, board.Point{X: 0.3, Y: -0.1})
	w.choose(2)
	w.keys.named[lightTableName].run()
	if n := len(drawnOn(t, w, 2).Strokes); n != 2 || len(w.pad.choose.set) != 2 || w.desk.UndoName() != "copy strokes of panel 3" {
		t.Errorf("%d strokes were copied, %d are chosen, undo takes back %q", n, len(w.pad.choose.set), w.desk.UndoName())
	}
	w.desk.Undo()
	w.choose(1)
	typeKey(w, fyne.Key8)
	handGoes(w, board.Point{X: -0.35, Y: -0.35}, board.Point{X: 0.35, Y: -0.05}) // chooses the rectangle
	w.choose(2)
	w.keys.named[lightTableName].run()
	if s := drawnOn(t, w, 2); len(s.Strokes) != 1 || !s.Strokes[0].Closed {
		t.Errorf("of the strokes chosen %d were copied", len(s.Strokes))
	}
}

func TestPanelsBesideShowThrough(t *testing.T) {
	w := openPad(t)
	w.choose(1)
	handGoes(w, board.Point{X: -0.5}, board.Point{X: 0.5})
	w.choose(2)
	settle(t, w)
	if w.pad.easel.ghosts != nil {
		t.Error("there are ghosts before they were asked for")
	}
	plain := append([]uint8(nil), w.pad.easel.all.Pix...)
	typeKey(w, fyne.Key0)
	for i := 0; i < 50 && w.pad.easel.ghosts == nil; i++ {
		settle(t, w)
	}
	inked := 0
	for x := range w.pad.easel.w {
		if i := w.pad.easel.all.PixOffset(x, w.pad.easel.h/2); w.pad.easel.all.Pix[i+2] != plain[i+2] {
			inked++
		}
	}
	line := w.pad.easel.h // the stroke is a height long
	if inked < line/3 || inked > line*9/10 {
		t.Errorf("of a line of %d pixels %d are seen: want dashes", line, inked)
	}
	typeKey(w, fyne.Key0)
	if w.pad.ready(true); w.pad.easel.ghosts != nil {
		t.Error("the ghosts stay")
	}
	settle(t, w)
}

func TestLayersAreHiddenOnThePadAlone(t *testing.T) {
	w := openPad(t)
	handGoes(w, board.Point{X: -0.3}, board.Point{X: 0.3})
	e := w.pad.easel
	at := image.Pt(e.w/2, e.h/2)
	shown := e.all.RGBAAt(at.X, at.Y)
	w.pad.setHidden(board.Middle, true)
	if e.all.RGBAAt(at.X, at.Y) == shown {
		t.Error("a hidden layer is seen")
	}
	if img, err := w.desk.Pictures.Draw(w.film.Whole(2), e.w, e.h); err != nil || img.RGBAAt(at.X, at.Y).R > shown.R+3 {
		t.Errorf("in the film the line is %v, want about %v, %v", img.RGBAAt(at.X, at.Y), shown, err)
	}
	handGoes(w, board.Point{X: -0.3, Y: 0.2}, board.Point{X: 0.3, Y: 0.2})
	if w.pad.easel.hidden[board.Middle] {
		t.Error("what is drawn on a hidden layer is not seen")
	}
}

func TestWhereNothingCanBeDrawn(t *testing.T) {
	w := openWindow(t)
	w.keys.named["Draw on the panel"].run()
	if f := w.pad.face; f.body.Visible() || !f.begin.Visible() || w.surface.tool != nil {
		t.Error("an empty film does not offer a panel to draw on")
	}
	w.keys.named[drawBlankName].run()
	if len(w.board.Panels) != 1 || !w.faces.drawing() || w.surface.tool == nil || !w.pad.face.body.Visible() {
		t.Errorf("%d panels, the pad is up: %v", len(w.board.Panels), w.faces.drawing())
	}
	typeKey(w, fyne.Key4)
	if len(w.starts) != 2 || w.pad.kind != toolLine {
		t.Errorf("with the pad up a figure sets the hold: %v, tool %d", w.starts, w.pad.kind)
	}
	w.faces.Show(w.faces.words)
	before := w.pad.kind
	typeKey(w, fyne.Key2)
	if w.pad.kind != before {
		t.Error("with the words up a figure takes a tool")
	}
}

// BenchmarkDrawPoint is a point of a brush at 1280 x 720, over a photograph and
// 200 strokes: what the pad does until the toolkit has the picture.
func BenchmarkDrawPoint(b *testing.B) {
	e := newEasel(1280, 720)
	e.parts.Photo = image.NewRGBA(e.all.Rect)
	for i := range e.parts.Photo.Pix {
		e.parts.Photo.Pix[i] = 255
	}
	var s board.Sketch
	for i := range 200 {
		k := board.Stroke{Layer: board.Middle, Smooth: true, Ink: sketch.Inks[0].Colour, Width: 200}
		for d := range 40 {
			k.Dots = append(k.Dots, board.Dot{X: int32(i*97%20000 - 10000 + d*60), Y: int32(i*61%12000 - 6000 + d*d), Wide: 200})
		}
		s.Strokes = append(s.Strokes, k)
	}
	e.Put(s)
	e.All()
	img := image.NewRGBA(image.Rect(0, 0, 1300, 740))
	hand := sketch.NewHand(sketch.Pen{Brush: true, Stroke: board.Stroke{Layer: board.Middle, Width: 400, Ink: sketch.Inks[2].Colour}})
	wet := picture.NewWet(e.layers[board.Middle], board.Stroke{Layer: board.Middle, Width: 400, Ink: sketch.Inks[2].Colour})
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		sin, cos := math.Sincos(float64(i) / 40)
		dots := hand.Add(board.Point{X: 0.7 * sin, Y: 0.4 * cos}, float64(i)/120)
		e.Compose(wet.Go(dots[len(dots)-1]))
		clear(img.Pix)
		for y := range e.h {
			copy(img.Pix[img.PixOffset(10, y+10):], e.all.Pix[y*e.all.Stride:(y+1)*e.all.Stride])
		}
	}
}
