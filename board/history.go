package board

import "slices"

// MaxHistory is the number of steps undo can go back; older boards are let go.
const MaxHistory = 300

// History is the list of boards a film went through. Undo and redo move along
// it. The zero value is not ready: use NewHistory or RestoreHistory.
type History struct {
	// Lost is told why steps are gone that the shelf could not give back. It
	// may be nil.
	Lost func(error)

	past  Past
	merge string // what an edit needs to join the last step; "" ends the run
	next  StepID
	shelf Shelf // may be nil: all boards are in memory
}

// NewHistory starts a history at b.
func NewHistory(b Board) *History { return RestoreHistory(NewPast(b), nil) }

// RestoreHistory goes on with a history; the boards it lacks are on the shelf.
func RestoreHistory(p Past, s Shelf) *History {
	h := &History{past: p, shelf: s}
	for _, step := range p.Steps {
		h.next = max(h.next, step.ID+1)
	}
	return h
}

// Shelve says where boards are that are not in memory.
func (h *History) Shelve(s Shelf) { h.shelf = s }

// Board returns the current board.
func (h *History) Board() Board { return h.past.Board() }

// Past returns the history as it is now.
func (h *History) Past() Past { return h.past }

// Do applies an edit and drops what could have been redone. On an error the
// history is as it was.
func (h *History) Do(e Edit) error {
	b, err := e.Apply(h.Board())
	if err != nil {
		return err
	}
	keep := h.past.At + 1
	if e.Merge != "" && e.Merge == h.merge {
		keep--
	}
	steps := append(h.past.Steps[:keep:keep], Step{h.next, e.Name, &b})
	h.next++
	if over := len(steps) - MaxHistory - 1; over > 0 {
		steps = steps[over:]
	}
	h.merge = e.Merge
	h.moveTo(Past{steps, len(steps) - 1})
	return nil
}

// Close ends a run of merging edits: the next one is a step of its own.
func (h *History) Close() { h.merge = "" }

// Forget lets go of all boards but the current one.
func (h *History) Forget() {
	h.Close()
	h.past = Past{Steps: []Step{{ID: h.past.Steps[h.past.At].ID, Board: h.past.Steps[h.past.At].Board}}}
}

// Undo goes back one step and reports whether there was one.
func (h *History) Undo() bool {
	at := h.past.At
	if at == 0 {
		return false
	}
	if h.past.Steps[at-1].Board == nil {
		b, err := h.shelf.Before(h.past.Steps[at].ID, h.Board())
		if err != nil {
			h.lose(Past{h.past.Steps[at:], 0}, err)
			return false
		}
		h.put(at-1, b)
	}
	h.Close()
	h.moveTo(Past{h.past.Steps, at - 1})
	return true
}

// Redo goes forward one step and reports whether there was one.
func (h *History) Redo() bool {
	at := h.past.At
	if at == len(h.past.Steps)-1 {
		return false
	}
	if h.past.Steps[at+1].Board == nil {
		b, err := h.shelf.After(h.past.Steps[at+1].ID, h.Board())
		if err != nil {
			h.lose(Past{h.past.Steps[:at+1], at}, err)
			return false
		}
		h.put(at+1, b)
	}
	h.Close()
	h.moveTo(Past{h.past.Steps, at + 1})
	return true
}

func (h *History) put(i int, b Board) {
	h.past.Steps = slices.Clone(h.past.Steps)
	h.past.Steps[i].Board = &b
}

func (h *History) moveTo(p Past) {
	h.past = p
	if h.shelf != nil {
		h.past.Steps = p.released(h.shelf)
	}
}

func (h *History) lose(rest Past, err error) {
	h.past = rest
	if h.Lost != nil {
		h.Lost(err)
	}
}

// UndoName returns the name of the step Undo would take back, "" for none.
func (h *History) UndoName() string {
	if h.past.At == 0 {
		return ""
	}
	return h.past.Steps[h.past.At].Name
}

// RedoName returns the name of the step Redo would do again, "" for none.
func (h *History) RedoName() string {
	if h.past.At == len(h.past.Steps)-1 {
		return ""
	}
	return h.past.Steps[h.past.At+1].Name
}
