package picture

import (
	"image"
	"image/color"
	"math"
	"testing"

	"stillbeat/board"
)

// inked draws an outline in white on nothing and returns the area it covers in
// pixels.
func inked(o *outline) (*image.RGBA, float64) {
	img := image.NewRGBA(image.Rect(0, 0, 200, 150))
	o.paint(img, color.White)
	return img, covered(img)
}

func covered(img *image.RGBA) float64 {
	sum := 0.0
	for i := 3; i < len(img.Pix); i += 4 {
		sum += float64(img.Pix[i]) / 255
	}
	return sum
}

func TestOutlineAreas(t *testing.T) {
	pen := func(closed bool, line ...dot) *outline {
		o := &outline{}
		o.pen(line, closed)
		return o
	}
	both := func(p, q []pt) *outline {
		o := &outline{}
		o.shape(p...)
		o.shape(q...)
		return o
	}
	square := []pt{{20, 20}, {60, 20}, {60, 60}, {20, 60}}
	backwards := []pt{{40, 60}, {80, 60}, {80, 20}, {40, 20}}
	for _, c := range []struct {
		name string
		o    *outline
		want float64
	}{
		{"a dot", pen(false, dot{pt{60, 60}, 20.3}), math.Pi * 20.3 * 20.3},
		{"a line is a bar and two half circles", pen(false, dot{pt{30.2, 40}, 4.7}, dot{pt{150.9, 40}, 4.7}), 120.7*9.4 + math.Pi*4.7*4.7},
		{"it slants", pen(false, dot{pt{30, 40}, 5}, dot{pt{150, 130}, 5}), 150*10 + math.Pi*25},
		{"a square is a frame with round corners", pen(true, dot{pt{40, 40}, 5}, dot{pt{100, 40}, 5}, dot{pt{100, 100}, 5}, dot{pt{40, 100}, 5}), 70*70 - 50*50 - 4*(25-math.Pi*25/4)},
		{"there and back is there", pen(false, dot{pt{30.5, 40}, 4}, dot{pt{150.5, 40}, 4}, dot{pt{30.5, 40}, 4}), 120*8 + math.Pi*16},
		{"overlapping shapes count once, whichever way they wind", both(square, backwards), 2400},
		{"beyond the picture nothing", pen(false, dot{pt{-50, 75}, 10}, dot{pt{1e5, 75}, 10}), 200 * 20},
		{"above it nothing", pen(false, dot{pt{50, -50}, 10}, dot{pt{90, -12}, 10}), 0},
		{"all over it everything", pen(false, dot{pt{50, 50}, 1e5}), 200 * 150},
		{"no width draws nothing", pen(false, dot{pt{50, 50}, 0}, dot{pt{90, 90}, 0}), 0},
	} {
		if _, got := inked(c.o); math.Abs(got-c.want) > 0.004*c.want+0.5 {
			t.Errorf("%s: %.2f pixels, want %.2f", c.name, got, c.want)
		}
	}
}

// A line in many short pieces covers what it covers in one: no seams, no knots.
func TestPiecesOfALineMeet(t *testing.T) {
	var many []dot
	for i := range 101 {
		many = append(many, dot{pt{30.3 + 1.2*float32(i), 40.7 + 0.5*float32(i)}, 3.3})
	}
	pieces, whole := &outline{}, &outline{}
	pieces.pen(many, false)
	whole.pen([]dot{many[0], many[100]}, false)
	a, _ := inked(pieces)
	b, _ := inked(whole)
	if d := furthest(a, b); d > 12 {
		t.Errorf("in pieces the line differs by up to %d of 255", d)
	}
}

func TestSmoothCurves(t *testing.T) {
	// Eight points of a circle: the curve through them is nearly one.
	stroke := board.Stroke{Smooth: true, Closed: true, Width: 100}
	const r = 6000
	for i := range 8 {
		s, c := math.Sincos(math.Pi * float64(i) / 4)
		stroke.Dots = append(stroke.Dots, board.Dot{X: int32(math.Round(r * c)), Y: int32(math.Round(r * s)), Wide: 255})
	}
	eye := lensOf(board.Framing{}, 640, 360)
	line := flatten(&stroke, eye, maxLines)
	want := r * 360.0 / board.SketchUnit
	for _, d := range line {
		if got := math.Hypot(float64(d.x)-320, float64(d.y)-180); math.Abs(got-want) > 0.01*want {
			t.Errorf("the curve is %.2f from the middle, want %.2f", got, want)
		}
	}
	for _, k := range stroke.Dots {
		at := eye.at(board.Point{X: float64(k.X) / board.SketchUnit, Y: float64(k.Y) / board.SketchUnit})
		near := math.MaxFloat64
		for _, d := range line {
			near = min(near, math.Hypot(float64(d.x-at.x), float64(d.y-at.y)))
		}
		if near > 0.001 {
			t.Errorf("the curve passes %v at a distance of %.4f", at, near)
		}
	}
	// It is made of so many lines that none is seen: no corner turns sharply.
	n := len(line)
	for i := range line {
		a, b, c := line[i].pt, line[(i+1)%n].pt, line[(i+2)%n].pt
		turn := math.Atan2(float64((b.x-a.x)*(c.y-b.y)-(b.y-a.y)*(c.x-b.x)), float64((b.x-a.x)*(c.x-b.x)+(b.y-a.y)*(c.y-b.y)))
		if math.Abs(turn) > 0.15 {
			t.Errorf("the curve turns by %.3f at %v", turn, b)
		}
	}
}

// sketchOf returns a sketch with strokes straight from corner to corner.
func sketchOf(strokes ...board.Stroke) *board.Sketch { return &board.Sketch{Strokes: strokes} }

func across(layer board.Layer, y int32, ink color.NRGBA) board.Stroke {
	return board.Stroke{Layer: layer, Ink: ink, Width: 2000, Dots: []board.Dot{{X: -9000, Y: y, Wide: 255}, {X: 9000, Y: y, Wide: 255}}}
}

func TestErasersWorkInTheirLayer(t *testing.T) {
	red, blue := color.NRGBA{200, 30, 20, 255}, color.NRGBA{20, 60, 200, 255}
	eraser := board.Stroke{Layer: board.Middle, Erases: true, Width: 1500, Dots: []board.Dot{{Y: -8000, Wide: 255}, {Y: 8000, Wide: 255}}}
	after := across(board.Middle, 4000, red)
	s := sketchOf(across(board.Below, -4000, blue), across(board.Middle, 0, red), eraser, after)
	img := filled(320, 180, Blank)
	for _, layer := range board.Layers {
		paintLayer(img, s, layer, lensOf(board.Framing{}, 320, 180))
	}
	for _, c := range []struct {
		name string
		x, y int
		want color.RGBA
	}{
		{"what was drawn is gone", 160, 90, Blank},
		{"beside it it stays", 100, 90, color.RGBA(red)},
		{"another layer stays", 160, 90 - 44, color.RGBA(blue)},
		{"what is drawn later stays", 160, 90 + 44, color.RGBA(red)},
	} {
		if got := img.RGBAAt(c.x, c.y); !near(got, c.want, 1) {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
	}
}

// A filled shape whose outline crosses itself is filled on both sides.
func TestFills(t *testing.T) {
	eight := board.Stroke{Closed: true, Filled: true, Ink: color.NRGBA{0, 0, 0, 255},
		Dots: []board.Dot{{X: -6000, Y: -3000, Wide: 255}, {X: 6000, Y: 3000, Wide: 255}, {X: 6000, Y: -3000, Wide: 255}, {X: -6000, Y: 3000, Wide: 255}}}
	for _, width := range []int32{0, 400} {
		eight.Width = width
		img := filled(320, 180, Blank)
		paintLayer(img, sketchOf(eight), board.Below, lensOf(board.Framing{}, 320, 180))
		for _, x := range []int{160 - 40, 160 + 40} {
			if got := img.RGBAAt(x, 90); got != (color.RGBA{A: 255}) {
				t.Errorf("line %d: the half at %d is %v", width, x, got)
			}
		}
		if got := img.RGBAAt(160, 60); got != Blank {
			t.Errorf("line %d: outside it is %v", width, got)
		}
	}
}

// Strokes are as crisp at any size: drawn larger and averaged they are what
// they are drawn small.
func TestStrokesAtAnySize(t *testing.T) {
	s := sketchOf(board.Stroke{Smooth: true, Ink: color.NRGBA{0, 0, 0, 255}, Width: 300,
		Dots: []board.Dot{{X: -9000, Wide: 60}, {X: -3000, Y: -5000, Wide: 255}, {X: 2000, Y: 5000, Wide: 180}, {X: 9000, Wide: 255}}})
	draw := func(w, h int) *image.RGBA {
		img := filled(w, h, Blank)
		paintLayer(img, s, board.Below, lensOf(board.Framing{}, w, h))
		return img
	}
	small, large := draw(320, 180), draw(1280, 720)
	mean := image.NewRGBA(small.Rect)
	for i := range mean.Pix {
		x, y, sum := i/4%320, i/4/320, 0
		for k := range 16 {
			sum += int(large.Pix[large.PixOffset(4*x+k%4, 4*y+k/4)+i%4])
		}
		mean.Pix[i] = uint8((sum + 8) / 16)
	}
	if d := furthest(small, mean); d > 32 { // an eighth of a pixel at an edge
		t.Errorf("drawn small it differs by up to %d", d)
	}
}

func TestStrangeStrokes(t *testing.T) {
	same := board.Dot{X: 100, Y: 100, Wide: 255}
	far := int32(20 * board.SketchUnit)
	for name, k := range map[string]board.Stroke{
		"one dot":             {Dots: []board.Dot{same}},
		"one dot, closed":     {Closed: true, Dots: []board.Dot{same}},
		"one place":           {Smooth: true, Dots: []board.Dot{same, same, same, same}},
		"one place, filled":   {Closed: true, Filled: true, Dots: []board.Dot{same, same, same}},
		"two dots, closed":    {Smooth: true, Closed: true, Dots: []board.Dot{same, {X: 900, Y: 100, Wide: 255}}},
		"there and back":      {Smooth: true, Dots: []board.Dot{same, {X: 900, Y: 100, Wide: 255}, same}},
		"from edge to edge":   {Smooth: true, Dots: []board.Dot{{X: -far, Y: far, Wide: 255}, same, {X: far, Y: -far, Wide: 0}}},
		"hardly moved at all": {Smooth: true, Dots: []board.Dot{{X: 0, Wide: 255}, {X: 1, Wide: 255}, {X: 2, Wide: 255}, {X: 1, Wide: 255}}},
	} {
		k.Width, k.Ink = 300, color.NRGBA{0, 0, 0, 255}
		for _, part := range []float64{board.MinFraming, 1, board.MaxFraming} {
			img := filled(96, 54, Blank)
			paintLayer(img, sketchOf(k), board.Below, lensOf(board.Framing{At: board.Point{X: 0.01, Y: 0.01}, Width: part}, 96, 54))
			for _, o := range strokeOutlines(&k, lensOf(board.Framing{Width: part}, 96, 54), maxLines) {
				for _, p := range o.points {
					if math.IsNaN(float64(p.x+p.y)) || math.IsInf(float64(p.x+p.y), 0) {
						t.Fatalf("%s at %g: a point is no number", name, part)
					}
				}
			}
		}
	}
}

// The longest sketch there may be, all of it bending in the frame, is drawn in
// bounded memory.
func TestALongSketchTakesBoundedMemory(t *testing.T) {
	k := board.Stroke{Smooth: true, Ink: color.NRGBA{0, 0, 0, 255}, Width: 60, Dots: make([]board.Dot, board.MaxDots/16)}
	for i := range k.Dots {
		k.Dots[i] = board.Dot{X: int32(i * 7919 % 20000), Y: int32(i * 104729 % 16000), Wide: 255}
	}
	before := allocated()
	strokeOutlines(&k, lensOf(board.Framing{}, 96, 54), maxLines/len(k.Dots))
	if got := allocated() - before; got > 320<<20 { // measured: 256 MB
		t.Errorf("%d MB are allocated", got>>20)
	}
}

func FuzzStrokes(f *testing.F) {
	data, err := board.EncodeSketch(scene())
	if err != nil {
		f.Fatal(err)
	}
	f.Add(data, 1.0)
	f.Fuzz(func(t *testing.T, data []byte, part float64) {
		s, err := board.DecodeSketch(data)
		if err != nil || !(part >= board.MinFraming && part <= board.MaxFraming) {
			return
		}
		img := filled(32, 18, Blank)
		for _, layer := range board.Layers {
			paintLayer(img, &s, layer, lensOf(board.Framing{Width: part}, 32, 18))
		}
		for i := 3; i < len(img.Pix); i += 4 {
			if img.Pix[i] != 255 {
				t.Fatal("the picture has a hole")
			}
		}
	})
}
