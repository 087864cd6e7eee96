package picture

import (
	"image/color"
	"math"
	"testing"

	"stillbeat/board"
)

var inkNRGBA = color.NRGBA{inkDark.R, inkDark.G, inkDark.B, 255}

// wave is a stroke of a brush that swells and thins.
func wave(layer board.Layer, y, width int32, ink color.NRGBA) board.Stroke {
	k := board.Stroke{Layer: layer, Smooth: true, Ink: ink, Width: width}
	for i := range 24 {
		k.Dots = append(k.Dots, board.Dot{X: int32(-9000 + 780*i), Y: y + int32(1800*math.Sin(float64(i)*0.7)), Wide: uint8(140 + 110*math.Sin(float64(i)/3))})
	}
	return k
}

func corners4(x0, y0, x1, y1 int32) []board.Dot {
	return []board.Dot{{X: x0, Y: y0, Wide: 255}, {X: x1, Y: y0, Wide: 255}, {X: x1, Y: y1, Wide: 255}, {X: x0, Y: y1, Wide: 255}}
}

// scene is a sketch with all that strokes can do.
func scene() board.Sketch {
	blue, red := color.NRGBA{0x2b, 0x79, 0xc0, 255}, color.NRGBA{0xc0, 0x39, 0x2b, 150}
	return board.Sketch{Paper: color.NRGBA{0xe9, 0xe0, 0xcf, 255}, Strokes: []board.Stroke{
		{Layer: board.Below, Closed: true, Filled: true, Ink: color.NRGBA{0xd4, 0xc6, 0xa8, 255}, Dots: corners4(-15000, 3500, 15000, 8500)},
		wave(board.Middle, -3500, 420, inkNRGBA), wave(board.Middle, 0, 260, red),
		{Layer: board.Middle, Closed: true, Filled: true, Ink: blue, Width: 160, Dots: corners4(-9000, 2500, -5000, 6500)},
		{Layer: board.Middle, Smooth: true, Closed: true, Ink: inkNRGBA, Width: 200, Dots: []board.Dot{{X: 5000, Y: 1000, Wide: 255}, {X: 9000, Y: 4000, Wide: 255}, {X: 5000, Y: 7000, Wide: 255}, {X: 1000, Y: 4000, Wide: 255}}},
		{Layer: board.Middle, Erases: true, Width: 600, Dots: []board.Dot{{X: -11000, Y: -6500, Wide: 255}, {X: 9500, Y: 6500, Wide: 255}}},
		{Layer: board.Above, Ink: inkNRGBA, Width: 350, Dots: []board.Dot{{X: 11000, Y: -5000, Wide: 255}, {X: 12500, Y: -1000, Wide: 255}, {X: 10500, Y: -2000, Wide: 80}}},
		{Layer: board.Above, Ink: inkNRGBA, Width: 500, Dots: []board.Dot{{X: -12500, Y: -6000, Wide: 255}}},
	}}
}

// showpiece is a film of 60 frames with everything a panel can have, and its
// pictures.
func showpiece(t *testing.T) (board.Board, media) {
	t.Helper()
	sketch, err := board.EncodeSketch(scene())
	if err != nil {
		t.Fatal(err)
	}
	m := media{"wide": asPNG(t, gradient(480, 270)), "tall": asPNG(t, gradient(240, 320)), "ink": sketch}
	letter := func(k board.LetterKind, text string, x, y float64) board.Edit {
		l := board.NewLetter(k, text, board.Aspect{})
		l.At = board.Point{X: x, Y: y}
		return board.AddLetter([]int{2}, l)
	}
	arrow := board.NewLetter(board.Arrow, "slides", board.Aspect{})
	arrow.At, arrow.To, arrow.Bend, arrow.Ink = board.Point{X: -0.1, Y: 0.22}, board.Point{X: 0.5, Y: -0.1}, 0.1, "c0392b"
	return tale(t, []board.Frame{0, 20, 32, 44, 60}, []board.MediaID{"wide", "", "tall", "wide"},
		board.SetStep(2), board.SetMove([]int{0}, board.CameraMove{To: board.Framing{At: board.Point{X: 0.2, Y: 0.1}, Width: 0.5}, Spacing: board.SlowInOut}),
		board.SetSketch([]int{1, 3}, "ink"), board.SetTransition([]int{1}, board.Transition{Kind: board.Dissolve, Frames: 8}),
		board.SetTransition([]int{2}, board.Transition{Kind: board.Wipe, Frames: 6}), board.SetTransition([]int{3}, board.Transition{Kind: board.Fade, Frames: 8}),
		board.Place([]int{3}, board.Placement{Fit: board.ByHand, At: board.Point{X: 0.1, Y: -0.05}, Scale: 0.8, Turn: 12, Flip: true}),
		letter(board.TitleCard, "The Salt — Η άλς", 0, -0.36), letter(board.CaptionCard, "Où est le sel? איפה המלח?\nأين الملح؟ 塩はどこ? नमक", 0, 0.36),
		letter(board.Speech, "Is it tea?", -0.45, -0.12), letter(board.Label, "sugar bowl", 0.5, -0.15), board.AddLetter([]int{2}, arrow),
	), m
}

// The goldens show: a push on its way, a dissolve, a sketch, a wipe, all kinds
// of lettering, half a fade, and a photograph turned with strokes about it.
func TestGoldenFrames(t *testing.T) {
	b, m := showpiece(t)
	f := NewFilm(NewCache(m, 0), b)
	for name, n := range map[string]board.Frame{"push": 9, "dissolve": 21, "sketch": 26, "wipe": 32, "lettering": 38, "fade": 46, "turned": 55} {
		golden(t, "golden/"+name, frameOf(t, f, n, 320, 180))
	}
	for name, w := range map[string]int{"thumbnail": 96, "small": 160} {
		img, err := f.Panel(2, 0, w, w*9/16)
		if err != nil {
			t.Fatal(err)
		}
		golden(t, "golden/"+name, img)
	}
	tall, err := board.SetAspect(board.Aspect{W: 9, H: 16}).Apply(b)
	if err != nil {
		t.Fatal(err)
	}
	img, err := NewFilm(NewCache(m, 0), tall).Panel(2, 0, 180, 320)
	if err != nil {
		t.Fatal(err)
	}
	golden(t, "golden/tall", img)
}

// What a viewer, an export and a thumbnail get of one frame is one picture at
// several sizes.
func TestSizesShowTheSame(t *testing.T) {
	b, m := showpiece(t)
	f := NewFilm(NewCache(m, 0), b)
	for n := board.Frame(0); n < b.Frames(); n += 7 {
		large, small := frameOf(t, f, n, 640, 360), frameOf(t, f, n, 160, 90)
		mean := resample(large, box{0, 0, 640, 360}, 160, 90)
		sum := 0.0
		for i := range mean.Pix {
			sum += math.Abs(float64(mean.Pix[i]) - float64(small.Pix[i]))
		}
		if off := sum / float64(len(mean.Pix)); off > 2.5 { // small letters: edges are mixed as levels, not as light
			t.Errorf("frame %d differs by %.2f levels on the mean", n, off)
		}
	}
}
