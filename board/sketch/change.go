package sketch

import (
	"math"
	"slices"

	"stillbeat/board"
)

// Map moves, scales and turns strokes: (x, y) to (A*x + B*y + C, D*x + E*y + F),
// in heights of the frame.
type Map struct{ A, B, C, D, E, F float64 }

// Shift moves.
func Shift(x, y float64) Map { return Map{1, 0, x, 0, 1, y} }

// Scale scales about a point, x and y each by its own factor.
func Scale(about board.Point, x, y float64) Map {
	return Map{x, 0, about.X * (1 - x), 0, y, about.Y * (1 - y)}
}

// Rotate turns about a point, clockwise, in radians.
func Rotate(about board.Point, angle float64) Map {
	s, c := math.Sincos(angle)
	return Map{c, -s, about.X - c*about.X + s*about.Y, s, c, about.Y - s*about.X - c*about.Y}
}

// Of returns where a point goes.
func (m Map) Of(p board.Point) board.Point {
	return board.Point{X: m.A*p.X + m.B*p.Y + m.C, Y: m.D*p.X + m.E*p.Y + m.F}
}

// Stroke returns a stroke moved; its width grows with its area.
func (m Map) Stroke(k board.Stroke) board.Stroke {
	dots := make([]board.Dot, len(k.Dots))
	for i, d := range k.Dots {
		dots[i] = dotAt(m.Of(At(d)), 1)
		dots[i].Wide = d.Wide
	}
	k.Dots = dots
	if k.Width > 0 {
		k.Width = int32(min(max(math.Round(float64(k.Width)*math.Sqrt(math.Abs(m.A*m.E-m.B*m.D))), 1), 4*board.SketchUnit))
	}
	return k
}

// Change returns a sketch with the chosen strokes changed one by one.
func Change(s board.Sketch, set []int, change func(board.Stroke) board.Stroke) board.Sketch {
	s.Strokes = slices.Clone(s.Strokes)
	for _, i := range set {
		s.Strokes[i] = change(s.Strokes[i])
	}
	return s
}

// Without returns a sketch without the chosen strokes.
func Without(s board.Sketch, set []int) board.Sketch {
	var rest []board.Stroke
	for i, k := range s.Strokes {
		if !slices.Contains(set, i) {
			rest = append(rest, k)
		}
	}
	s.Strokes = rest
	return s
}

// Added returns a sketch with more strokes on top, and which they are.
func Added(s board.Sketch, more ...board.Stroke) (board.Sketch, []int) {
	var set []int
	for i := range more {
		set = append(set, len(s.Strokes)+i)
	}
	s.Strokes = append(s.Strokes[:len(s.Strokes):len(s.Strokes)], more...)
	return s, set
}

// Chosen returns copies of chosen strokes.
func Chosen(s board.Sketch, set []int) []board.Stroke {
	var out []board.Stroke
	for _, i := range set {
		out = append(out, s.Strokes[i])
	}
	return out
}

// UnderLines puts a patch of colour into a sketch so that the lines of its
// layer stay over it: on the last patch or eraser there.
func UnderLines(s board.Sketch, patch board.Stroke) board.Sketch {
	at := 0
	for i, k := range s.Strokes {
		if k.Layer == patch.Layer && (k.Erases || k.Filled && k.Width == 0) {
			at = i + 1
		}
	}
	s.Strokes = slices.Insert(slices.Clone(s.Strokes), at, patch)
	return s
}
