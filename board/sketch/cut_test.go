package sketch

import (
	"math"
	"slices"
	"testing"

	"stillbeat/board"
	"stillbeat/board/picture"
)

// straight is the course of strokes without curves.
func straight(k board.Stroke) []board.Dot { return k.Dots }

func lineOf(width int32, xy ...int32) board.Stroke {
	k := board.Stroke{Layer: board.Middle, Width: width}
	for i := 0; i < len(xy); i += 2 {
		k.Dots = append(k.Dots, board.Dot{X: xy[i], Y: xy[i+1], Wide: 255})
	}
	return k
}

func eraserOf(width int32, xy ...int32) board.Stroke {
	k := lineOf(width, xy...)
	k.Erases = true
	return k
}

func TestWhatErasersLeaveOfStrokes(t *testing.T) {
	line, across := lineOf(100, -4000, 0, 4000, 0), eraserOf(800, 0, -500, 0, 500)
	square := lineOf(100, -1000, -1000, 1000, -1000, 1000, 1000, -1000, 1000)
	square.Closed = true
	patch := square
	patch.Filled, patch.Width = true, 0
	upper := across
	upper.Layer = board.Above
	for _, tt := range []struct {
		name    string
		strokes []board.Stroke // the first is chosen
		want    [][2]int32     // x where each piece begins and ends
	}{
		{"nothing erases", []board.Stroke{line}, [][2]int32{{-4000, 4000}}},
		{"cut in the middle, round ends within what is left", []board.Stroke{line, across}, [][2]int32{{-4000, -432}, {432, 4000}}},
		{"its end is gone", []board.Stroke{line, eraserOf(800, 4000, 0)}, [][2]int32{{-4000, 3568}}},
		{"all of it is gone", []board.Stroke{line, eraserOf(800, -4500, 0, 4500, 0)}, nil},
		{"erased where it is not", []board.Stroke{line, eraserOf(800, 0, 3000)}, [][2]int32{{-4000, 4000}}},
		{"on another layer", []board.Stroke{line, upper}, [][2]int32{{-4000, 4000}}},
		{"a patch that is missed", []board.Stroke{patch, eraserOf(200, 1050, -1500, 1500, -1150)}, [][2]int32{{-1000, -1000}}},
		{"all of a patch is gone", []board.Stroke{patch, eraserOf(3000, -100, 0, 100, 0)}, nil},
		{"a closed one opens", []board.Stroke{square, eraserOf(400, 1000, 0)}, [][2]int32{{1000, 1000}}},
	} {
		t.Run(tt.name, func(t *testing.T) {
			s, set := Cut(board.Sketch{Strokes: tt.strokes}, []int{0}, Drawer{straight, picture.PaintStrokes})
			if len(set) != len(tt.want) || len(s.Strokes) != len(tt.want)+len(tt.strokes)-1 {
				t.Fatalf("%d pieces of %d strokes, want %d", len(set), len(s.Strokes), len(tt.want))
			}
			for i, at := range set {
				d := s.Strokes[at].Dots
				if a, b := d[0].X, d[len(d)-1].X; abs(a-tt.want[i][0]) > 10 || abs(b-tt.want[i][1]) > 10 {
					t.Errorf("piece %d runs from %d to %d, want %v", i, a, b, tt.want[i])
				}
			}
		})
	}
	cut, _ := Cut(board.Sketch{Strokes: []board.Stroke{patch, eraserOf(500, 0, -2000, 0, 2000)}}, []int{0}, Drawer{straight, picture.PaintStrokes})
	if got, want := math.Abs(ringArea(cut.Strokes[0].Dots)), 1500.*2000; math.Abs(got-want) > want/100 {
		t.Errorf("a stripe out of a patch leaves %v square units, want %v", got, want)
	}
	before := lineOf(100, -4000, 0, 4000, 0)
	s, _ := Cut(board.Sketch{Strokes: []board.Stroke{across, before}}, []int{1}, Drawer{straight, picture.PaintStrokes})
	if len(s.Strokes) != 2 {
		t.Error("what is drawn after the eraser is cut")
	}
}

func abs(v int32) int32 { return max(v, -v) }

func TestLinesAreRaisedOverErasers(t *testing.T) {
	far := lineOf(100, 6000, 6000, 7000, 6000)
	line, across, later := lineOf(100, -4000, 0, 4000, 0), eraserOf(800, 0, -500, 0, 500), lineOf(50, 0, 0, 10, 10)
	s, set := Raised(board.Sketch{Strokes: []board.Stroke{line, far, across, later}}, []int{0, 1})
	var widths []int32
	for _, k := range s.Strokes {
		widths = append(widths, k.Width)
	}
	// What lies under the eraser goes over it and no further; what does not stays.
	if want := []int32{100, 800, 100, 50}; !slices.Equal(widths, want) || !slices.Equal(set, []int{0, 2}) || s.Strokes[0].Dots[0].X != 6000 {
		t.Errorf("strokes %v, chosen %v", widths, set)
	}
}
