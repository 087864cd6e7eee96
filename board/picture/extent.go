package picture

import (
	"math"

	"stillbeat/board"
)

// Extent is where lettering lies in the frame, in heights of the frame.
type Extent struct {
	At   board.Point   // its middle
	Half board.Point   // half its width and height, with what it stands on
	Path []board.Point // of an arrow: points along its middle, from its start to its tip
}

// ExtentOf returns where lettering lies; where there are no words yet, room for
// a letter.
func ExtentOf(l board.Letter, a board.Aspect) Extent {
	if l.Kind == board.Arrow {
		return arrowExtent(l)
	}
	w, h := halfOf(l, set(l.Text, wideEms(l, a)))
	return Extent{At: l.At, Half: board.Point{X: w, Y: h}}
}

// halfOf returns half the width and height of lettering set in a block.
func halfOf(l board.Letter, b block) (w, h float64) {
	if b.lines == 0 {
		b.lines, b.wide = 1, 2
	}
	room := padding
	if l.Kind == board.Speech {
		room = bubble
	}
	return (b.wide/2 + room) * l.Em(), (b.high()/2 + room) * l.Em()
}

// arrowExtent follows the curve of an arrow: quadratic, its middle l.Bend to
// the left of the straight way.
func arrowExtent(l board.Letter) Extent {
	const steps = 24
	turn := board.Point{X: l.At.X + l.To.X/2, Y: l.At.Y + l.To.Y/2}
	if long := math.Hypot(l.To.X, l.To.Y); long > 0 {
		turn.X += 2 * l.Bend * l.To.Y / long
		turn.Y -= 2 * l.Bend * l.To.X / long
	}
	var e Extent
	lo, hi := board.Point{X: math.Inf(1), Y: math.Inf(1)}, board.Point{X: math.Inf(-1), Y: math.Inf(-1)}
	for i := range steps + 1 {
		t := float64(i) / steps
		u := 1 - t
		p := board.Point{
			X: u*u*l.At.X + 2*u*t*turn.X + t*t*(l.At.X+l.To.X),
			Y: u*u*l.At.Y + 2*u*t*turn.Y + t*t*(l.At.Y+l.To.Y),
		}
		e.Path = append(e.Path, p)
		lo, hi = board.Point{X: min(lo.X, p.X), Y: min(lo.Y, p.Y)}, board.Point{X: max(hi.X, p.X), Y: max(hi.Y, p.Y)}
	}
	shaft := l.Em() * headHalf
	e.At = board.Point{X: (lo.X + hi.X) / 2, Y: (lo.Y + hi.Y) / 2}
	e.Half = board.Point{X: (hi.X-lo.X)/2 + shaft, Y: (hi.Y-lo.Y)/2 + shaft}
	return e
}

// Covers reports whether a point is on the lettering, or nearer to it than
// reach.
func (e Extent) Covers(p board.Point, reach float64) bool {
	if e.Path == nil {
		return math.Abs(p.X-e.At.X) <= e.Half.X+reach && math.Abs(p.Y-e.At.Y) <= e.Half.Y+reach
	}
	for i := 1; i < len(e.Path); i++ {
		if nearSegment(p, e.Path[i-1], e.Path[i]) <= reach {
			return true
		}
	}
	return false
}

// nearSegment returns how far a point is from a straight line between two.
func nearSegment(p, a, b board.Point) float64 {
	dx, dy := b.X-a.X, b.Y-a.Y
	t := 0.0
	if n := dx*dx + dy*dy; n > 0 {
		t = min(max(((p.X-a.X)*dx+(p.Y-a.Y)*dy)/n, 0), 1)
	}
	return math.Hypot(p.X-a.X-t*dx, p.Y-a.Y-t*dy)
}
