package board

import "slices"

// StepID names a step of a film's history for as long as the film exists. A
// later step has a larger one.
type StepID int64

// Step is a board the film went through.
type Step struct {
	ID    StepID
	Name  string // of the edit that led here
	Board *Board // never changed; nil if only the shelf has it
}

// Past is what a film went through, oldest first, and where in it the film
// is. It is a value: histories never change the steps of one given away.
type Past struct {
	Steps []Step
	At    int // index of the current step, whose board is in memory
}

// NewPast returns the past of a film that went through nothing yet.
func NewPast(b Board) Past { return Past{Steps: []Step{{Board: &b}}} }

// Board returns the current board.
func (p Past) Board() Board { return *p.Steps[p.At].Board }

// A Shelf has the boards of a history that are not in memory. Each is found
// from the one beside it.
type Shelf interface {
	// Holds reports whether the shelf has what leads through the step.
	Holds(StepID) bool
	// Before returns the board before a step, given the one after it.
	Before(step StepID, after Board) (Board, error)
	// After returns the board after a step, given the one before it.
	After(step StepID, before Board) (Board, error)
}

// Boards in memory. A panel takes about 300 bytes.
const (
	maxHeld = 1_000_000 // panels of all boards in memory, where the shelf has the others
	nearby  = 4         // boards each way that stay in memory whatever their size
)

// released returns the steps with boards far from the current one left to the
// shelf, so that the history of a large film does not fill the memory.
func (p Past) released(s Shelf) []Step {
	out, cloned := p.Steps, false
	release := func(i int, link StepID) {
		if out[i].Board == nil || !s.Holds(link) {
			return
		}
		if !cloned {
			out, cloned = slices.Clone(out), true
		}
		out[i].Board = nil
	}
	held := 0
	room := func(i, away int) bool {
		if b := p.Steps[i].Board; b != nil {
			held += len(b.Panels)
		}
		return away <= nearby || held <= maxHeld
	}
	for away := 1; away < len(p.Steps); away++ {
		if i := p.At - away; i >= 0 && !room(i, away) {
			release(i, p.Steps[i+1].ID)
		}
		if i := p.At + away; i < len(p.Steps) && !room(i, away) {
			release(i, p.Steps[i].ID)
		}
	}
	return out
}
