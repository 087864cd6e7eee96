package motion

import "stillbeat/board"

// Ready is a move that reads right as it is, to begin with.
type Ready struct {
	Name  string // for menus: "a cup is dropped"
	About string
	Move  board.ObjectMove // without panels and id
}

// ReadyMoves lists them. Their figures are common practice: what weighs is at
// 1:6, where a cup on the table looks as large as a tub and falls as slowly.
func ReadyMoves() []Ready {
	at := func(x, y, height float64) board.Spot { return board.Spot{X: x, Y: y, Height: height} }
	return []Ready{
		{"a cup is dropped", "from 20 cm at 1:6: faster and faster, 12 frames at 24 a second",
			board.ObjectMove{Object: "cup", Manner: board.Falling, Scale: 6, Keys: []board.Spot{at(0, 0, 200), at(0, 0, 0)}}},
		{"a cup is pushed off a shelf", "it flies on as it falls",
			board.ObjectMove{Object: "cup", Manner: board.Falling, Scale: 6, Keys: []board.Spot{at(0, 0, 200), at(80, 0, 0)}}},
		{"a spoon falls over", "from leaning a little to flat on the table: it hesitates, then slaps down",
			board.ObjectMove{Object: "spoon", Manner: board.Toppling, Scale: 6, Keys: []board.Spot{at(0, 0, 0), at(15, 0, 149)}}},
		{"a lamp's head swings and settles", "let go from one side, less each time",
			board.ObjectMove{Object: "lamp", Manner: board.Swinging, Scale: 6, Damping: 0.15, Keys: []board.Spot{at(0, 0, 300), at(60, 0, 165)}}},
		{"a teapot lid jumps", "it presses down, jumps, lands and settles: put moment 1 on a beat",
			board.ObjectMove{Object: "lid", Manner: board.Jumping, Scale: 6, Rise: 40, Anticipate: 0.1, Overshoot: 0.1, Keys: []board.Spot{at(0, 0, 90), at(0, 0, 90)}}},
		{"a ball bounces along", "each bounce lower and shorter, then it rolls out",
			board.ObjectMove{Object: "ball", Manner: board.Bouncing, Scale: 6, Rebound: 0.5, Keys: []board.Spot{at(0, 0, 200), at(240, 0, 0)}}},
		{"a saucer slides", "eases out and eases in",
			board.ObjectMove{Object: "saucer", Manner: board.SlowingBoth, Keys: []board.Spot{at(0, 0, 0), at(120, 0, 0)}}},
		{"a spoon leans over and settles", "it springs to its place and beyond",
			board.ObjectMove{Object: "spoon", Manner: board.Settling, Keys: []board.Spot{at(0, 0, 0), at(60, 0, 0)}}},
		{"a cup darts off", "it draws back first, goes too far and comes back",
			board.ObjectMove{Object: "cup", Manner: board.Accelerating, Anticipate: 0.1, Overshoot: 0.08, Keys: []board.Spot{at(0, 0, 0), at(150, 0, 0)}}},
		{"a train of sugar lumps rolls by", "the same step every time",
			board.ObjectMove{Object: "sugar lumps", Keys: []board.Spot{at(0, 0, 0), at(240, 0, 0)}}},
	}
}

// Suggest returns the ready move of a manner, over a run of panels; a manner
// that is not known gets an even one.
func Suggest(m board.Manner, first, last board.PanelID) board.ObjectMove {
	for _, r := range ReadyMoves() {
		if r.Move.Manner == m {
			r.Move.First, r.Move.Last = first, last
			return r.Move
		}
	}
	out := Suggest(board.SlowingBoth, first, last)
	out.Manner = m
	if !m.Spaced() {
		out.Manner = board.Evenly
	}
	return out
}
