package plan

import (
	"fmt"

	"stillbeat/board"
)

// Kind says what a finding is about.
type Kind string

// The kinds.
const (
	TooLong    Kind = "shot longer than a session"
	NotStill   Kind = "still but it moves"
	Impossible Kind = "no plan"
)

// Finding is something to be seen to before the shoot.
type Finding struct {
	Panel  int // index of the panel, the first of the shot it is about, -1: all of the film
	Kind   Kind
	Reason string // a clause in lower case
}

// Findings returns what stands against the plan of a film, in the order of the
// film.
func Findings(b board.Board) []Finding {
	p, err := Make(b)
	if err != nil {
		return []Finding{{-1, Impossible, err.Error()}}
	}
	return p.Findings(b)
}

// Findings returns what stands against the plan, made of b.
func (p Plan) Findings(b board.Board) (out []Finding) {
	parts := map[int]int{}
	for _, s := range p.Sessions {
		for _, piece := range s.Pieces {
			parts[piece.Shot] = piece.Parts
		}
	}
	c := newCounter(b)
	for i, s := range p.Shots {
		if n := parts[i]; n > 1 {
			out = append(out, Finding{s.Panels[0].Panel, TooLong, fmt.Sprintf("shot %s takes %s, longer than a session of %s: it is cut into %d; end each part on a hold or under a cut",
				s.Name, Hours(s.Minutes), Hours(p.Figures.Session), n)})
		}
		for _, panel := range s.Panels {
			if b.Panels[panel.Panel].Still && c.moves(panel.Panel) {
				out = append(out, Finding{panel.Panel, NotStill, "the panel is marked still, but an object or the camera moves in it: all its exposures are counted"})
			}
		}
	}
	return out
}
