package board

import (
	"errors"
	"slices"
)

var errNoObjectMove = errors.New("there is no such move")

// ObjectMove returns the place of a move among the film's, -1 if it is gone.
func (b Board) ObjectMove(id MoveID) int {
	return slices.IndexFunc(b.Moves, func(m ObjectMove) bool { return m.ID == id })
}

// MovesIn returns the moves that panel i has a part in, in their order.
func (b Board) MovesIn(i int) (out []ObjectMove) {
	for _, m := range b.Moves {
		if b.Index(m.First) <= i && i <= b.Index(m.Last) {
			out = append(out, m)
		}
	}
	return out
}

// AddObjectMove gives an object a move. Its id is given out here.
func AddObjectMove(m ObjectMove) Edit {
	return Edit{Name: "move of " + m.Named(), Apply: func(b Board) (Board, error) {
		out := b
		m.ID = b.nextMove()
		out.Moves = append(slices.Clone(b.Moves), b.timed(m))
		return out.checked(b)
	}}
}

// SetObjectMove changes the move that has the id of m.
func SetObjectMove(m ObjectMove) Edit {
	return merging(Edit{Name: "change the move of " + m.Named(), Apply: func(b Board) (Board, error) {
		i := b.ObjectMove(m.ID)
		if i < 0 {
			return b, errNoObjectMove
		}
		out := b
		out.Moves = slices.Clone(b.Moves)
		out.Moves[i] = b.timed(m)
		return out.checked(b)
	}})
}

// RemoveObjectMove takes a move out.
func RemoveObjectMove(id MoveID) Edit {
	return Edit{Name: "remove the move", Apply: func(b Board) (Board, error) {
		i := b.ObjectMove(id)
		if i < 0 {
			return b, errNoObjectMove
		}
		out := b
		out.Moves = emptied(slices.Delete(slices.Clone(b.Moves), i, i+1))
		return out.checked(b)
	}}
}

// nextMove returns an id that no move has.
func (b Board) nextMove() MoveID {
	var last MoveID
	for _, m := range b.Moves {
		last = max(last, m.ID)
	}
	return last + 1
}

// timed returns a move that shares nothing with m, its hits with the seconds
// they have on b.
func (b Board) timed(m ObjectMove) ObjectMove {
	m.Keys = slices.Clone(m.Keys)
	return m.withHits(func(s Start) Start { s.Time = b.Seconds(s); return s })
}

// withHits returns the move with the start of each hit changed.
func (m ObjectMove) withHits(change func(Start) Start) ObjectMove {
	m.Hits = slices.Clone(m.Hits)
	for i := range m.Hits {
		m.Hits[i].Start = change(m.Hits[i].Start)
	}
	return m
}

// withHits returns the board with the start of each hit of a move changed.
func (b Board) withHits(change func(Start) Start) Board {
	b.Moves = slices.Clone(b.Moves)
	for i := range b.Moves {
		b.Moves[i] = b.Moves[i].withHits(change)
	}
	return b
}

// emptied makes an empty list nil, as it is read from files.
func emptied(moves []ObjectMove) []ObjectMove {
	if len(moves) == 0 {
		return nil
	}
	return moves
}

// Words returns the manner as people say it, for menus and tables.
func (m Manner) Words() string {
	switch m {
	case Evenly:
		return "even"
	case SlowingIn:
		return "slow in"
	case SlowingOut:
		return "slow out"
	case SlowingBoth:
		return "slow out and in"
	case Accelerating:
		return "accelerating"
	}
	return string(m)
}
