package sketch

import (
	"math"

	"stillbeat/board"
)

// Box is an upright rectangle in the frame.
type Box struct{ X0, Y0, X1, Y1 float64 }

// BoxOf returns the box between two corners.
func BoxOf(a, b board.Point) Box {
	return Box{min(a.X, b.X), min(a.Y, b.Y), max(a.X, b.X), max(a.Y, b.Y)}
}

// Holds reports whether a point is in the box.
func (b Box) Holds(p board.Point) bool {
	return p.X >= b.X0 && p.X <= b.X1 && p.Y >= b.Y0 && p.Y <= b.Y1
}

// Middle returns its middle.
func (b Box) Middle() board.Point { return board.Point{X: (b.X0 + b.X1) / 2, Y: (b.Y0 + b.Y1) / 2} }

// Grown returns the box with room about it.
func (b Box) Grown(by float64) Box { return Box{b.X0 - by, b.Y0 - by, b.X1 + by, b.Y1 + by} }

// Around returns the box about strokes, their width included.
func Around(strokes []board.Stroke, set []int) Box {
	b := Box{math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)}
	for _, i := range set {
		half := float64(strokes[i].Width) / 2 / board.SketchUnit
		for _, d := range strokes[i].Dots {
			p := At(d)
			b.X0, b.Y0, b.X1, b.Y1 = min(b.X0, p.X-half), min(b.Y0, p.Y-half), max(b.X1, p.X+half), max(b.Y1, p.Y+half)
		}
	}
	return b
}

// Hit returns the uppermost stroke that a point meets, nearer than reach, -1
// for none. seen says which layers are looked at; strokes that erase are not
// met.
func Hit(strokes []board.Stroke, p board.Point, reach float64, seen [3]bool) int {
	for layer := len(seen) - 1; layer >= 0; layer-- {
		for i := len(strokes) - 1; i >= 0; i-- {
			if k := strokes[i]; int(k.Layer) == layer && seen[layer] && !k.Erases && meets(k, p, reach) {
				return i
			}
		}
	}
	return -1
}

func meets(k board.Stroke, p board.Point, reach float64) bool {
	reach += float64(k.Width) / 2 / board.SketchUnit
	n := len(k.Dots)
	if n == 1 {
		q := At(k.Dots[0])
		return math.Hypot(p.X-q.X, p.Y-q.Y) <= reach
	}
	winds := 0
	for i := range n {
		a, b := At(k.Dots[i]), At(k.Dots[(i+1)%n])
		if (i < n-1 || k.Closed) && fromLine(a, b, p) <= reach {
			return true
		}
		// How often it winds about the point (non-zero rule).
		if side := (b.X-a.X)*(p.Y-a.Y) - (p.X-a.X)*(b.Y-a.Y); a.Y <= p.Y && b.Y > p.Y && side > 0 {
			winds++
		} else if a.Y > p.Y && b.Y <= p.Y && side < 0 {
			winds--
		}
	}
	return k.Filled && winds != 0
}

func fromLine(a, b, p board.Point) float64 {
	x, y := b.X-a.X, b.Y-a.Y
	k := 0.
	if long := x*x + y*y; long > 0 {
		k = min(max(((p.X-a.X)*x+(p.Y-a.Y)*y)/long, 0), 1)
	}
	return math.Hypot(p.X-a.X-k*x, p.Y-a.Y-k*y)
}

// Within returns the strokes that lie in a box with all their dots, in layers
// that are seen.
func Within(strokes []board.Stroke, b Box, seen [3]bool) []int {
	var out []int
next:
	for i, k := range strokes {
		if k.Erases || !seen[k.Layer] {
			continue
		}
		for _, d := range k.Dots {
			if !b.Holds(At(d)) {
				continue next
			}
		}
		out = append(out, i)
	}
	return out
}
