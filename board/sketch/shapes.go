package sketch

import (
	"math"

	"stillbeat/board"
)

// Line returns a straight line; steady keeps it to eighths of a turn.
func Line(like board.Stroke, a, b board.Point, steady bool) board.Stroke {
	if steady {
		long, turn := math.Hypot(b.X-a.X, b.Y-a.Y), math.Atan2(b.Y-a.Y, b.X-a.X)
		s, c := math.Sincos(math.Round(turn/(math.Pi/4)) * math.Pi / 4)
		b = board.Point{X: a.X + c*long, Y: a.Y + s*long}
	}
	like.Dots = []board.Dot{dotAt(a, 1), dotAt(b, 1)}
	return like
}

// Ellipse returns the ellipse in the box between two corners; steady makes it a
// circle.
func Ellipse(like board.Stroke, a, b board.Point, steady bool) board.Stroke {
	b = squared(a, b, steady)
	like.Smooth, like.Closed, like.Dots = true, true, nil
	const n = 24
	for i := range n {
		s, c := math.Sincos(2 * math.Pi * float64(i) / n)
		like.Dots = append(like.Dots, dotAt(board.Point{X: (a.X+b.X)/2 + c*(b.X-a.X)/2, Y: (a.Y+b.Y)/2 + s*(b.Y-a.Y)/2}, 1))
	}
	return like
}

// Rectangle returns the rectangle between two corners; steady makes it a square.
func Rectangle(like board.Stroke, a, b board.Point, steady bool) board.Stroke {
	b = squared(a, b, steady)
	like.Closed = true
	like.Dots = []board.Dot{dotAt(a, 1), dotAt(board.Point{X: b.X, Y: a.Y}, 1), dotAt(b, 1), dotAt(board.Point{X: a.X, Y: b.Y}, 1)}
	return like
}

func squared(a, b board.Point, steady bool) board.Point {
	if !steady {
		return b
	}
	side := max(math.Abs(b.X-a.X), math.Abs(b.Y-a.Y))
	return board.Point{X: a.X + math.Copysign(side, b.X-a.X), Y: a.Y + math.Copysign(side, b.Y-a.Y)}
}
