package sketch

import (
	"image"
	"image/color"
	"math"
	"math/rand/v2"
	"reflect"
	"testing"

	"stillbeat/board"
)

var ink = color.NRGBA{30, 25, 20, 255}

// drawn has a hand go along a path at 120 points a second, shaking by so much.
func drawn(p Pen, seconds, shake float64, path func(t float64) board.Point) (*Hand, board.Point) {
	rnd := rand.New(rand.NewPCG(1, 9))
	h := NewHand(p)
	var at board.Point
	for i := 0; float64(i)/120 <= seconds; i++ {
		at = path(float64(i) / 120)
		h.Add(board.Point{X: at.X + shake*(rnd.Float64()-0.5), Y: at.Y + shake*(rnd.Float64()-0.5)}, 5+float64(i)/120)
	}
	return h, at
}

func TestAHandIsSteadiedWithLittleDelay(t *testing.T) {
	// Held still, shaking by a hundredth of the height: most of it is gone.
	h, _ := drawn(Pen{}, 2, 0.01, func(float64) board.Point { return board.Point{X: 0.1} })
	worst := 0.
	for _, d := range h.dots[120:] {
		worst = max(worst, math.Hypot(At(d).X-0.1, At(d).Y))
	}
	if worst > 0.004 {
		t.Errorf("a hand held still strays by %.4f heights, want less than 0.004", worst)
	}
	// Across the frame in half a second: the line is a hundredth behind.
	h, end := drawn(Pen{}, 0.5, 0, func(t float64) board.Point { return board.Point{X: -0.8 + 3.2*t} })
	if lag := end.X - At(h.dots[len(h.dots)-1]).X; lag < 0 || lag > 0.02 {
		t.Errorf("a quick hand is %.4f heights ahead of its line", lag)
	}
	if k := h.Stroke(end); k.Dots[len(k.Dots)-1].X != units(end.X) || len(k.Dots) > 6 || !k.Smooth {
		t.Errorf("a straight quick line has %d dots and ends at %d", len(k.Dots), k.Dots[len(k.Dots)-1].X)
	}
}

func TestABrushIsThinWhereItIsFast(t *testing.T) {
	path := func(speed float64) func(float64) board.Point {
		return func(t float64) board.Point { return board.Point{X: -0.8 + speed*t} }
	}
	slow, _ := drawn(Pen{Brush: true}, 0.6, 0, path(0.1))
	fast, _ := drawn(Pen{Brush: true}, 0.6, 0, path(2.6))
	pen, _ := drawn(Pen{}, 0.6, 0, path(2.6))
	a, b, c := slow.dots[70].Wide, fast.dots[70].Wide, pen.dots[70].Wide
	if !(a > 190 && b < 100 && c == 255) {
		t.Errorf("widths: slow brush %d, fast brush %d, pen %d of 255", a, b, c)
	}
}

func TestSimplifiedLinesStayNear(t *testing.T) {
	rnd := rand.New(rand.NewPCG(3, 3))
	for range 50 {
		var dots []board.Dot
		x, y := 0., 0.
		for range 400 {
			x, y = x+rnd.Float64()*60-10, y+rnd.Float64()*60-30
			dots = append(dots, board.Dot{X: int32(x), Y: int32(y), Wide: 255})
		}
		const within = 40
		few := Simplify(dots, within)
		if few[0] != dots[0] || few[len(few)-1] != dots[len(dots)-1] || len(few) >= len(dots) {
			t.Fatalf("%d of %d dots, ends %v and %v", len(few), len(dots), few[0], few[len(few)-1])
		}
		for _, d := range dots {
			near := math.Inf(1)
			for i := range few[1:] {
				near = min(near, off(few[i], few[i+1], d))
			}
			if near > within {
				t.Fatalf("a dot is %.1f units from the line, want at most %d", near, within)
			}
		}
	}
	if got := Simplify([]board.Dot{{X: 1}}, 5); len(got) != 1 {
		t.Errorf("one dot becomes %d", len(got))
	}
}

func TestShapes(t *testing.T) {
	a, b := board.Point{X: -0.1, Y: -0.2}, board.Point{X: 0.3, Y: 0.1}
	if k := Line(board.Stroke{}, a, b, true); math.Abs(float64((k.Dots[1].Y-k.Dots[0].Y)-(k.Dots[1].X-k.Dots[0].X))) > 2 {
		t.Errorf("a steady line from %v leads to %v, not along an eighth of a turn", k.Dots[0], k.Dots[1])
	}
	box := Around([]board.Stroke{Rectangle(board.Stroke{}, a, b, true)}, []int{0})
	if w, h := box.X1-box.X0, box.Y1-box.Y0; math.Abs(w-0.4) > 1e-3 || math.Abs(h-0.4) > 1e-3 {
		t.Errorf("a square is %.3f x %.3f", w, h)
	}
	for _, d := range Ellipse(board.Stroke{}, a, b, false).Dots {
		p := At(d)
		if r := math.Hypot((p.X-0.1)/0.2, (p.Y+0.05)/0.15); math.Abs(r-1) > 1e-3 {
			t.Errorf("a dot of an ellipse is %.4f of its radius out", r)
		}
	}
}

func TestStrokesAreMet(t *testing.T) {
	line := Line(board.Stroke{Layer: board.Middle, Width: 200}, board.Point{}, board.Point{X: 0.4}, false)
	patch := Rectangle(board.Stroke{Layer: board.Above, Filled: true}, board.Point{X: -0.5, Y: -0.4}, board.Point{X: -0.1, Y: 0.4}, false)
	hollow := Rectangle(board.Stroke{Layer: board.Below, Width: 100}, board.Point{X: -0.5, Y: -0.4}, board.Point{X: 0.5, Y: 0.4}, false)
	gone := Line(board.Stroke{Layer: board.Above, Erases: true, Width: 4000}, board.Point{}, board.Point{X: 0.4}, false)
	all := []board.Stroke{line, patch, hollow, gone}
	every := [3]bool{true, true, true}
	for name, c := range map[string]struct {
		x, y float64
		seen [3]bool
		want int
	}{
		"on a line":               {0.2, 0.004, every, 0},
		"a little beside it":      {0.2, 0.014, every, 0},
		"further from it":         {0.2, 0.03, every, -1},
		"in a patch":              {-0.3, 0.1, every, 1},
		"in what is hollow":       {0.3, 0.2, every, -1},
		"on its edge":             {0.5, 0.2, every, 2},
		"on its closing edge":     {-0.5, 0.39, every, 1},
		"the patch being hidden":  {-0.5, 0.39, [3]bool{true, true, false}, 2},
		"with nothing to be seen": {0.2, 0, [3]bool{}, -1},
	} {
		if got := Hit(all, board.Point{X: c.x, Y: c.y}, 0.01, c.seen); got != c.want {
			t.Errorf("%s: stroke %d, want %d", name, got, c.want)
		}
	}
	if got := Within(all, Box{-0.6, -0.5, 0, 0.5}, every); !reflect.DeepEqual(got, []int{1}) {
		t.Errorf("in the box at the left: %v, want the patch", got)
	}
}

func TestStrokesAreMovedScaledAndTurned(t *testing.T) {
	k := Line(board.Stroke{Width: 100}, board.Point{X: 0.1}, board.Point{X: 0.3}, false)
	about := board.Point{X: 0.1}
	for name, c := range map[string]struct {
		m     Map
		x, y  float64 // of its end
		width int32
	}{
		"moved":  {Shift(0.1, -0.2), 0.4, -0.2, 100},
		"scaled": {Scale(about, 2, 2), 0.5, 0, 200},
		"turned": {Rotate(about, math.Pi/2), 0.1, 0.2, 100},
		"flat":   {Scale(about, 1, 0), 0.3, 0, 1},
	} {
		got := c.m.Stroke(k)
		if end := At(got.Dots[1]); math.Hypot(end.X-c.x, end.Y-c.y) > 2e-4 || got.Width != c.width {
			t.Errorf("%s it ends at %v and is %d wide, want %g, %g and %d", name, end, got.Width, c.x, c.y, c.width)
		}
	}
	if At(k.Dots[1]).X < 0.29 {
		t.Error("the stroke itself was changed")
	}
}

func TestChangesLeaveTheSketchAsItWas(t *testing.T) {
	one := func(layer board.Layer, filled bool) board.Stroke {
		return board.Stroke{Layer: layer, Filled: filled, Ink: ink, Dots: []board.Dot{{Wide: 9}}, Width: map[bool]int32{false: 50}[filled]}
	}
	s := board.Sketch{Strokes: []board.Stroke{one(board.Middle, false), one(board.Middle, true), one(board.Middle, false), one(board.Above, true)}}
	before := board.Sketch{Strokes: append([]board.Stroke(nil), s.Strokes...)}
	under := UnderLines(s, one(board.Middle, true))
	if len(under.Strokes) != 5 || !under.Strokes[2].Filled || under.Strokes[3].Filled {
		t.Errorf("a patch does not come on the last one and under the line after it: %+v", under.Strokes)
	}
	more, set := Added(s, one(board.Below, false))
	if len(more.Strokes) != 5 || !reflect.DeepEqual(set, []int{4}) {
		t.Errorf("added: %d strokes, chosen %v", len(more.Strokes), set)
	}
	if rest := Without(s, []int{0, 2}); len(rest.Strokes) != 2 || !rest.Strokes[0].Filled {
		t.Errorf("without two: %+v", rest.Strokes)
	}
	Change(s, []int{1}, func(k board.Stroke) board.Stroke { k.Width = 7; return k })
	if !reflect.DeepEqual(s, before) {
		t.Error("the sketch was changed in place")
	}
}

// painted is a white picture with a black ring, and a black dot in it.
func painted() *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, 320, 180))
	for y := range 180 {
		for x := range 320 {
			r := math.Hypot(float64(x-160)+0.5, float64(y-90)+0.5)
			if r > 56 && r < 62 || r < 15 {
				img.SetRGBA(x, y, color.RGBA{A: 255})
			}
		}
	}
	return img
}

// areaOf is what a patch covers in pixels of painted, holes left out.
func areaOf(k board.Stroke) float64 {
	pixel := float64(board.SketchUnit) / 180
	return math.Abs(ringArea(k.Dots)) / pixel / pixel
}

func TestFill(t *testing.T) {
	img, like := painted(), board.Stroke{Layer: board.Middle, Ink: ink}
	every := [3]bool{true, true, true}
	for name, c := range map[string]struct {
		at      image.Point
		area    float64
		in, out image.Point
	}{
		// A pixel is added all around; ring and dot are what they are to half a pixel.
		"between ring and dot": {image.Pt(160, 60), math.Pi * (57*57 - 14*14), image.Pt(160, 130), image.Pt(160, 90)},
		"in the dot":           {image.Pt(160, 90), math.Pi * 16 * 16, image.Pt(150, 90), image.Pt(160, 60)},
	} {
		k, err := Fill(img, c.at, like)
		if err != nil {
			t.Fatal(err)
		}
		if got := areaOf(k); math.Abs(got-c.area) > 0.03*c.area {
			t.Errorf("%s: %.0f pixels, want %.0f", name, got, c.area)
		}
		for p, want := range map[image.Point]int{c.in: 0, c.out: -1} {
			at := board.Point{X: (float64(p.X) + 0.5 - 160) / 180, Y: (float64(p.Y) + 0.5 - 90) / 180}
			if got := Hit([]board.Stroke{k}, at, 0, every); got != want {
				t.Errorf("%s: the pixel %v is covered: %v, want %v", name, p, got == 0, want == 0)
			}
		}
		if len(k.Dots) > 120 || k.Width != 0 || !k.Filled || k.Ink != ink {
			t.Errorf("%s: %d dots, width %d", name, len(k.Dots), k.Width)
		}
	}
	k, err := Fill(img, image.Pt(3, 3), like)
	if err != nil {
		t.Fatal(err)
	}
	if box := Around([]board.Stroke{k}, []int{0}); box.X0 > -8./9 || box.Y1 < 0.5 {
		t.Errorf("what goes to the edge of the frame ends at %+v", box)
	}
	if _, err := Fill(img, image.Pt(-1, 0), like); err != ErrNoRegion {
		t.Errorf("beside the picture: %v", err)
	}
}

// The roughest region there is still gives a patch that a sketch takes.
func TestFillOfNoise(t *testing.T) {
	rnd := rand.New(rand.NewPCG(5, 5))
	img := image.NewRGBA(image.Rect(0, 0, 400, 300))
	for i := range img.Pix {
		img.Pix[i] = uint8(rnd.IntN(2) * 255)
	}
	for i := 0; i < 400*300; i++ {
		if i%3 > 0 {
			copy(img.Pix[4*i:4*i+4], []uint8{255, 255, 255, 255})
		}
	}
	k, err := Fill(img, image.Pt(1, 0), board.Stroke{Ink: ink})
	if err != nil {
		t.Fatal(err)
	}
	if _, err := board.EncodeSketch(board.Sketch{Strokes: []board.Stroke{k}}); err != nil || len(k.Dots) > maxPatch {
		t.Errorf("%d dots, %v", len(k.Dots), err)
	}
}

func BenchmarkFill(b *testing.B) {
	img := image.NewRGBA(image.Rect(0, 0, 1280, 720))
	for b.Loop() {
		if _, err := Fill(img, image.Pt(600, 300), board.Stroke{}); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkHandPoint(b *testing.B) {
	h := NewHand(Pen{Brush: true})
	for i := 0; b.Loop(); i++ {
		h.Add(board.Point{X: math.Sin(float64(i) / 50), Y: math.Cos(float64(i) / 70)}, float64(i)/120)
	}
}
