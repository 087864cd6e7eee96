package ui

import (
	"math"

	"stillbeat/board"
)

// hints are the lines on which a box has come to lie: NaN for none.
type hintLines struct{ x, y float64 }

var noLines = hintLines{math.NaN(), math.NaN()}

// snapped brings a box onto the middle and the edges of a frame so many heights
// wide, where what was taken hold of is nearer than reach. What it lands on it
// returns.
func (b box) snapped(at boxPart, wide, reach, low, high float64) (box, hintLines) {
	switch {
	case at == inside:
		return b.snappedMove(wide, reach)
	case at == turnHandle:
		return b.snappedTurn(), noLines
	case at >= corner:
		return b.snappedCorner(int(at-corner), wide, reach, low, high)
	}
	return b, noLines
}

func (b box) snappedMove(wide, reach float64) (box, hintLines) {
	lines := noLines
	xs, ys := []float64{0}, []float64{0}
	if w, h, ok := b.upright(); ok {
		xs, ys = append(xs, -w/2, w/2), append(ys, -h/2, h/2)
	}
	b.mid.X, lines.x = land(b.mid.X, xs, wide/2, reach)
	b.mid.Y, lines.y = land(b.mid.Y, ys, 0.5, reach)
	return b, lines
}

// land moves v so that the nearest of the places beside it lies on 0 or an edge,
// the middle on the middle alone.
func land(v float64, beside []float64, edge, reach float64) (float64, float64) {
	best, line := reach, math.NaN()
	out := v
	for k, by := range beside {
		targets := []float64{-edge, edge}
		if k == 0 {
			targets = []float64{0}
		}
		for _, to := range targets {
			if d := math.Abs(v + by - to); d <= best {
				best, out, line = d, to-by, to
			}
		}
	}
	return out, line
}

// snappedTurn brings a turn that is near a quarter or half of a quarter onto it.
func (b box) snappedTurn() box {
	const near = 2.5 // degrees
	if whole := math.Round(b.turn/45) * 45; math.Abs(b.turn-whole) <= near {
		b.turn = wholeTurn(whole)
	}
	return b
}

// snappedCorner scales the box so that the sides at the corner lie on an edge or
// on the middle of the frame.
func (b box) snappedCorner(k int, wide, reach, low, high float64) (box, hintLines) {
	if b.turn != 0 {
		return b, noLines
	}
	c := b.corners()
	held, still := c[k], c[(k+2)%4]
	best, out, lines := reach, b, noLines
	try := func(at, from, to float64, line hintLines) {
		d := math.Abs(at - to)
		if d > best || math.Abs(at-from) < 1e-9 {
			return
		}
		by := (to - from) / (at - from)
		if s := b.scaled(k, by, low, high); by > 0 && math.Abs(s.h-b.h*by) < 1e-9 {
			best, out, lines = d, s, line
		}
	}
	for _, to := range []float64{-wide / 2, 0, wide / 2} {
		try(held.X, still.X, to, hintLines{to, math.NaN()})
	}
	for _, to := range []float64{-0.5, 0, 0.5} {
		try(held.Y, still.Y, to, hintLines{math.NaN(), to})
	}
	return out, lines
}

// within reports whether all of the box lies in another.
func (b box) within(o box) bool {
	const crumb = 5e-5 // places are rounded
	for _, c := range b.corners() {
		if x, y := o.back(c); math.Abs(x) > o.w/2+crumb || math.Abs(y) > o.h/2+crumb {
			return false
		}
	}
	return true
}

// boxOf returns what a framing shows of a frame so many heights wide, and
// framing what shows a box.
func boxOf(f board.Framing, wide float64) box {
	return box{f.At, f.Part() * wide, f.Part(), 0}
}

func (b box) framing() board.Framing {
	f := board.Framing{At: clean(b.mid), Width: rounded(b.h, 5)}
	if f.Width == 1 {
		f.Width = 0
	}
	return f
}

// clean rounds a place to what can be told apart.
func clean(p board.Point) board.Point {
	return board.Point{X: rounded(p.X, 5), Y: rounded(p.Y, 5)}
}

func rounded(v float64, digits int) float64 {
	k := math.Pow10(digits)
	return math.Round(v*k)/k + 0 // no minus zero
}
