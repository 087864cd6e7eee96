package motion

import (
	"math"
	"testing"

	"stillbeat/board"
)

func TestSightThroughTwoPlaces(t *testing.T) {
	for _, top := range []bool{false, true} {
		a, b := board.Spot{X: -40, Y: 10, Height: 5}, board.Spot{X: 120, Y: 90, Height: 60}
		pa, pb := board.Point{X: -0.5, Y: 0.3}, board.Point{X: 0.4, Y: -0.1}
		s, err := SightThrough(a, b, pa, pb, top)
		if err != nil {
			t.Fatal(err)
		}
		for _, c := range []struct {
			spot board.Spot
			want board.Point
		}{{a, pa}, {b, pb}, {mixed(a, b, 0.5), board.Point{X: -0.05, Y: 0.1}}} {
			got := Seen(s, c.spot)
			near(t, "x", got.X, c.want.X, 1e-12)
			near(t, "y", got.Y, c.want.Y, 1e-12)
		}
	}
	for _, same := range []board.Spot{{X: 1}, {X: 1, Y: 5}} {
		if _, err := SightThrough(board.Spot{X: 1}, same, board.Point{}, board.Point{X: 1}, false); err == nil {
			t.Errorf("%+v lies where the other does", same)
		}
	}
}

// From the front higher is up in the picture, from above further away is; the
// turn is clockwise.
func TestSeen(t *testing.T) {
	for _, c := range []struct {
		name  string
		sight board.Sight
		want  board.Point
	}{
		{"from the front", board.Sight{PerMM: 0.01}, board.Point{X: 0.1, Y: -0.3}},
		{"from above", board.Sight{PerMM: 0.01, Top: true}, board.Point{X: 0.1, Y: -0.2}},
		{"moved", board.Sight{PerMM: 0.01, At: board.Point{X: 0.5, Y: 0.4}}, board.Point{X: 0.6, Y: 0.1}},
		{"turned by a quarter", board.Sight{PerMM: 0.01, Turn: 90}, board.Point{X: 0.3, Y: 0.1}},
	} {
		got := Seen(c.sight, board.Spot{X: 10, Y: 20, Height: 30})
		near(t, c.name, got.X, c.want.X, 1e-12)
		near(t, c.name, got.Y, c.want.Y, 1e-12)
	}
}

// Dots lie on the line, one for each exposure, and without a sight of its own
// the whole move is in the frame.
func TestTrails(t *testing.T) {
	for _, r := range ReadyMoves() {
		tab := Space(r.Move, on(48, 2), nil, Limits{})
		trail := tab.Trail(tab.Sight())
		if len(trail.Dots) != 24 || len(trail.Line) != 1+23*4 {
			t.Fatalf("%s: %d dots on a line of %d points", r.Name, len(trail.Dots), len(trail.Line))
		}
		low, high := trail.Line[0], trail.Line[0]
		for i, d := range trail.Dots {
			if d.At != trail.Line[4*i] || d.Moment != (tab.Rows[i].Moment != "") {
				t.Errorf("%s: dot %d is off the line", r.Name, i)
			}
			low = board.Point{X: min(low.X, d.At.X), Y: min(low.Y, d.At.Y)}
			high = board.Point{X: max(high.X, d.At.X), Y: max(high.Y, d.At.Y)}
		}
		near(t, r.Name, max(high.X-low.X, high.Y-low.Y), 0.6, 1e-9)
		near(t, r.Name, (low.X+high.X)/2, 0, 1e-9)
		near(t, r.Name, (low.Y+high.Y)/2, 0, 1e-9)
	}
	own := board.Sight{PerMM: 0.001, Turn: 3}
	tab := Space(board.ObjectMove{Keys: make([]board.Spot, 2), Sight: own}, on(4, 1), nil, Limits{})
	if tab.Sight() != own {
		t.Errorf("it is seen as %+v", tab.Sight())
	}
	tab.Move.Sight = board.Sight{}
	if s := tab.Sight(); !(s.PerMM > 0) || math.IsInf(s.PerMM, 0) {
		t.Errorf("a move that goes nowhere is seen as %+v", s)
	}
}
