package picture

import (
	"image"
	"math"
	"testing"

	"stillbeat/board"
)

// inkedBox returns the box of the pixels that are not blank, in heights of the
// frame from its middle.
func inkedBox(t *testing.T, l board.Letter) (lo, hi board.Point) {
	t.Helper()
	const w, h = 960, 540
	img := filled(w, h, Blank)
	paintLetter(img, l, board.Aspect{}, lensOf(board.Framing{}, w, h))
	box := image.Rectangle{Min: image.Pt(w, h)}
	for y := range h {
		for x := range w {
			if img.RGBAAt(x, y) != Blank {
				box.Min.X, box.Min.Y = min(box.Min.X, x), min(box.Min.Y, y)
				box.Max.X, box.Max.Y = max(box.Max.X, x+1), max(box.Max.Y, y+1)
			}
		}
	}
	at := func(p image.Point) board.Point {
		return board.Point{X: float64(p.X-w/2) / h, Y: float64(p.Y-h/2) / h}
	}
	return at(box.Min), at(box.Max)
}

func TestExtentIsWhereLetteringIsDrawn(t *testing.T) {
	tests := []struct {
		name   string
		letter board.Letter
		slack  float64 // heights of the frame
	}{
		{"a caption is as large as its plate", board.Letter{Kind: board.CaptionCard, Text: "The cup is full", At: board.Point{X: 0.1, Y: 0.3}}, 0.004},
		{"speech without a tail is as large as its bubble", board.Letter{Kind: board.Speech, Text: "More tea?", At: board.Point{X: -0.2, Y: -0.2}, Back: board.Plate}, 0.01},
		{"a straight arrow with its head", board.Letter{Kind: board.Arrow, At: board.Point{X: -0.3}, To: board.Point{X: 0.6}, Back: board.Bare}, 0.07},
		{"a bent arrow goes up on its left", board.Letter{Kind: board.Arrow, At: board.Point{X: -0.3, Y: 0.2}, To: board.Point{X: 0.6}, Bend: 0.3, Back: board.Bare}, 0.07},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			lo, hi := inkedBox(t, tt.letter)
			e := ExtentOf(tt.letter, board.Aspect{})
			got := []float64{e.At.X - e.Half.X, e.At.Y - e.Half.Y, e.At.X + e.Half.X, e.At.Y + e.Half.Y}
			for i, want := range []float64{lo.X, lo.Y, hi.X, hi.Y} {
				if math.Abs(got[i]-want) > tt.slack {
					t.Errorf("extent %.3f, drawn %.3f %.3f", got, lo, hi)
					break
				}
			}
		})
	}
}

func TestCovers(t *testing.T) {
	bent := ExtentOf(board.Letter{Kind: board.Arrow, At: board.Point{X: -0.3}, To: board.Point{X: 0.6}, Bend: 0.2}, board.Aspect{})
	label := ExtentOf(board.Letter{Kind: board.Label, Text: "lid"}, board.Aspect{})
	tests := []struct {
		name string
		e    Extent
		p    board.Point
		want bool
	}{
		{"the middle of a bent arrow lies its bend to the left", bent, board.Point{Y: -0.2}, true},
		{"the straight way between its ends is not on it", bent, board.Point{}, false},
		{"its tip is", bent, board.Point{X: 0.3}, true},
		{"words are covered in their middle", label, board.Point{}, true},
		{"and not far from it", label, board.Point{X: 0.3}, false},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if got := tt.e.Covers(tt.p, 0.01); got != tt.want {
				t.Errorf("Covers(%v) = %v", tt.p, got)
			}
		})
	}
}
