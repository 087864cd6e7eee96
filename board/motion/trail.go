package motion

import (
	"errors"
	"math"

	"stillbeat/board"
)

// Dot is where an object is seen in the frame in one exposure.
type Dot struct {
	Frame  board.Frame
	At     board.Point
	Moment bool // something happens there
}

// Trail is a move as it lies over the picture: the way as a line and a dot for
// each exposure. Close dots are slow.
type Trail struct {
	Line []board.Point
	Dots []Dot
}

// Trail returns the move as the sight shows it.
func (t Table) Trail(s board.Sight) Trail {
	const finer = 4 // parts of the line for each step
	var out Trail
	for i, r := range t.Rows {
		out.Dots = append(out.Dots, Dot{r.Frame, Seen(s, r.At), r.Moment != ""})
		if i > 0 {
			from := float64(t.Rows[i-1].Frame)
			for k := 1; k < finer; k++ {
				spot, _ := t.laid.place(from + (float64(r.Frame)-from)*float64(k)/finer)
				out.Line = append(out.Line, Seen(s, spot))
			}
		}
		out.Line = append(out.Line, Seen(s, r.At))
	}
	return out
}

// onSight returns a spot as a sight of scale 1 at the middle shows it, before it
// is turned.
func onSight(s board.Sight, at board.Spot) (x, y float64) {
	if s.Top {
		return at.X, -at.Y
	}
	return at.X, -at.Height
}

// Seen returns where in the frame a spot of the set is seen.
func Seen(s board.Sight, at board.Spot) board.Point {
	x, y := onSight(s, at)
	sin, cos := math.Sincos(s.Turn * math.Pi / 180)
	return board.Point{X: s.At.X + s.PerMM*(x*cos-y*sin), Y: s.At.Y + s.PerMM*(x*sin+y*cos)}
}

// SightThrough returns the sight that shows two spots of the set at two points
// of the frame; top says that the camera looks down on the set.
func SightThrough(a, b board.Spot, atA, atB board.Point, top bool) (board.Sight, error) {
	s := board.Sight{Top: top}
	ax, ay := onSight(s, a)
	bx, by := onSight(s, b)
	onSet, inFrame := math.Hypot(bx-ax, by-ay), math.Hypot(atB.X-atA.X, atB.Y-atA.Y)
	if onSet == 0 || inFrame == 0 {
		return board.Sight{}, errors.New("it takes two places that are seen apart")
	}
	s.PerMM = inFrame / onSet
	turn := math.Atan2(atB.Y-atA.Y, atB.X-atA.X) - math.Atan2(by-ay, bx-ax)
	s.Turn = math.Remainder(turn*180/math.Pi, 360)
	zero := Seen(s, a)
	s.At = board.Point{X: atA.X - zero.X, Y: atA.Y - zero.Y}
	return s, nil
}

// Sight returns the sight the move has, or where it has none one that shows all
// of it in the middle of the frame, from the side on which it is wider.
func (t Table) Sight() board.Sight {
	if t.Move.Sight.PerMM > 0 {
		return t.Move.Sight
	}
	low, high := t.Rows[0].At, t.Rows[0].At
	for _, r := range t.Rows {
		low = board.Spot{X: min(low.X, r.At.X), Y: min(low.Y, r.At.Y), Height: min(low.Height, r.At.Height)}
		high = board.Spot{X: max(high.X, r.At.X), Y: max(high.Y, r.At.Y), Height: max(high.Height, r.At.Height)}
	}
	s := board.Sight{PerMM: 1, Top: t.Move.Sight.Top || high.Y-low.Y > high.Height-low.Height}
	ax, ay := onSight(s, low)
	bx, by := onSight(s, high)
	size := max(math.Abs(bx-ax), math.Abs(by-ay), 1)
	s.PerMM = 0.6 / size
	s.At = board.Point{X: -s.PerMM * (ax + bx) / 2, Y: -s.PerMM * (ay + by) / 2}
	return s
}
