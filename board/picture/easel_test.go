package picture

import (
	"image"
	"image/color"
	"image/draw"
	"math"
	"testing"

	"stillbeat/board"
)

// wavy is a stroke of a brush that crosses itself.
func wavy(n int) board.Stroke {
	k := board.Stroke{Layer: board.Middle, Ink: color.NRGBA{30, 25, 20, 255}, Width: 400}
	for i := range n {
		s, c := math.Sincos(4 * math.Pi * float64(i) / float64(n))
		k.Dots = append(k.Dots, board.Dot{X: int32(9000 * s), Y: int32(5000 * c * (1 - float64(i)/float64(2*n))), Wide: uint8(120 + i%100)})
	}
	return k
}

// What is drawn dot by dot is what the whole stroke is drawn as, but for the
// edges of its corners; with ink that lets through, too, and when it erases.
func TestWetStrokesDryAsTheyWere(t *testing.T) {
	thin := wavy(200)
	thin.Ink.A = 90
	gone := wavy(200)
	gone.Erases, gone.Ink = true, color.NRGBA{}
	for name, k := range map[string]board.Stroke{"ink": wavy(200), "thin ink": thin, "eraser": gone} {
		ground := image.NewRGBA(image.Rect(0, 0, 640, 360))
		draw.Draw(ground, ground.Rect, image.NewUniform(color.RGBA{90, 140, 60, 255}), image.Point{}, draw.Src)
		wet, dry := image.NewRGBA(ground.Rect), image.NewRGBA(ground.Rect)
		copy(wet.Pix, ground.Pix)
		copy(dry.Pix, ground.Pix)
		w := NewWet(wet, k)
		var changed image.Rectangle
		for _, d := range k.Dots {
			changed = changed.Union(w.Go(d))
		}
		touched := PaintStrokes(dry, []board.Stroke{k})
		if !touched.In(changed.Inset(-2)) {
			t.Errorf("%s: %v was drawn, %v is told", name, touched, changed)
		}
		far := 0
		for i := range wet.Pix {
			if d := int(wet.Pix[i]) - int(dry.Pix[i]); d > 40 || d < -40 {
				far++
			}
		}
		if far > len(wet.Pix)/2000 {
			t.Errorf("%s: %d of %d channels differ by more than 40", name, far, len(wet.Pix))
		}
		w.Wash()
		for i := range wet.Pix {
			if wet.Pix[i] != ground.Pix[i] {
				t.Fatalf("%s: washed off, pixel %d is %d, was %d", name, i/4, wet.Pix[i], ground.Pix[i])
			}
		}
	}
}

// The parts of a panel laid on each other are the panel.
func TestPartsMakeThePanel(t *testing.T) {
	s := board.Sketch{Strokes: []board.Stroke{wavy(50)}}
	data, err := board.EncodeSketch(s)
	if err != nil {
		t.Fatal(err)
	}
	c := NewCache(media{"cup": asPNG(t, quartered(320, 240)), "ink": data}, 0)
	b := board.New()
	letter := board.NewLetter(board.Speech, "Salt?", board.Aspect{})
	b.Panels = []board.Panel{{ID: 1, Picture: "cup", Drawn: &board.Drawn{Sketch: "ink", Lettering: []board.Letter{letter}}}}
	b.End, b.NextID = board.Free(1), 2
	f := NewFilm(c, b)
	want, err := c.Draw(f.Whole(0), 320, 180)
	if err != nil {
		t.Fatal(err)
	}
	p, err := f.Apart(0, 320, 180)
	if err != nil {
		t.Fatal(err)
	}
	got := filled(320, 180, p.Ground)
	draw.Draw(got, got.Rect, p.Photo, image.Point{}, draw.Over)
	PaintStrokes(got, s.Strokes)
	draw.Draw(got, got.Rect, p.Letters, image.Point{}, draw.Over)
	for i := range got.Pix {
		if d := int(got.Pix[i]) - int(want.Pix[i]); d > 2 || d < -2 {
			t.Fatalf("pixel %d, %d: %d, the panel has %d", i/4%320, i/4/320, got.Pix[i], want.Pix[i])
		}
	}
	if _, err := f.Apart(1, 320, 180); err != ErrOutside {
		t.Errorf("a panel that is not there: %v", err)
	}
}

// A figure is drawn as its strokes, under those of its layer.
func TestFiguresAreDrawn(t *testing.T) {
	f := board.Figure{Layer: board.Middle, Ink: color.NRGBA{200, 20, 20, 255}}
	s := board.Sketch{Figures: []board.Figure{f}, Strokes: []board.Stroke{wavy(9)}}
	s.Figures[0].Size, s.Figures[0].Heads = 9000, 750
	if got := s.On(board.Middle); len(got) != len(f.Strokes())+1 || got[len(got)-1].Width != 400 {
		t.Fatalf("%d strokes, the last %d wide", len(got), got[len(got)-1].Width)
	}
	if len(s.On(board.Above)) != 0 {
		t.Error("it is on another layer too")
	}
}

// Ghosts of a line of a hundred pixels: dashes and dots cover the part of it
// that they should.
func TestGhostsAreBrokenLines(t *testing.T) {
	line := board.Stroke{Layer: board.Middle, Width: 900, Dots: []board.Dot{{X: -board.SketchUnit / 2, Wide: 255}, {X: board.SketchUnit / 2, Wide: 255}}}
	for name, c := range map[string]struct {
		d     Dashes
		runs  int
		inked float64 // pixels of the line
	}{
		"dashed": {Dashes{2, 20, 10}, 4, 20 + 20 + 20 + 10},
		"dotted": {Dashes{2, 0, 10}, 10, 0},
		"whole":  {Dashes{2, 1000, 10}, 1, 100},
	} {
		l := lensOf(board.Framing{}, 160, 100)
		runs := c.d.cut(flatten(&line, l, 1))
		inked := 0.
		for _, r := range runs {
			inked += float64(hypot(r[len(r)-1].x-r[0].x, r[len(r)-1].y-r[0].y))
		}
		if len(runs) != c.runs || math.Abs(inked-c.inked) > 0.2 {
			t.Errorf("%s: %d runs of %.2f pixels, want %d of %g", name, len(runs), inked, c.runs, c.inked)
		}
	}
	dst := image.NewRGBA(image.Rect(0, 0, 160, 100))
	gone := line
	gone.Erases = true
	PaintGhosts(dst, []board.Stroke{gone}, color.Black, Dashes{2, 20, 10})
	if dst.RGBAAt(80, 50).A != 0 {
		t.Error("what erases leaves a ghost")
	}
	PaintGhosts(dst, []board.Stroke{line}, color.Black, Dashes{2, 20, 10})
	if dst.RGBAAt(35, 50).A < 200 || dst.RGBAAt(55, 50).A > 20 || dst.RGBAAt(35, 55).A != 0 {
		t.Errorf("on a dash %d, between dashes %d, beside it %d", dst.RGBAAt(35, 50).A, dst.RGBAAt(55, 50).A, dst.RGBAAt(35, 55).A)
	}
}

// BenchmarkWetPoint draws one point more of a long stroke at 1280 x 720.
func BenchmarkWetPoint(b *testing.B) {
	dst := image.NewRGBA(image.Rect(0, 0, Width, Height))
	k := wavy(600)
	w := NewWet(dst, k)
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		w.Go(k.Dots[i%len(k.Dots)])
	}
}
