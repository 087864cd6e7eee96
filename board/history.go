package board

// MaxHistory is the number of steps undo can go back; older boards are let go.
const MaxHistory = 300

// History is the list of boards a film went through. Undo and redo move along
// it. The zero value is not ready: use NewHistory.
type History struct {
	steps []step
	at    int
}

type step struct {
	board Board
	name  string // the edit that led here
	merge string
}

// NewHistory starts a history at b.
func NewHistory(b Board) *History { return &History{steps: []step{{board: b}}} }

// Board returns the current board.
func (h *History) Board() Board { return h.steps[h.at].board }

// Do applies an edit and drops what could have been redone. On an error the
// history is as it was.
func (h *History) Do(e Edit) error {
	b, err := e.Apply(h.Board())
	if err != nil {
		return err
	}
	if e.Merge != "" && h.at > 0 && h.at == len(h.steps)-1 && h.steps[h.at].merge == e.Merge {
		h.steps[h.at].board = b
		return nil
	}
	h.steps = append(h.steps[:h.at+1:h.at+1], step{b, e.Name, e.Merge})
	if over := len(h.steps) - MaxHistory - 1; over > 0 {
		h.steps = append([]step(nil), h.steps[over:]...)
	}
	h.at = len(h.steps) - 1
	return nil
}

// Close ends a run of merging edits: the next one is a step of its own.
func (h *History) Close() { h.steps[h.at].merge = "" }

// Undo goes back one step and reports whether there was one.
func (h *History) Undo() bool {
	if h.at == 0 {
		return false
	}
	h.at--
	h.Close()
	return true
}

// Redo goes forward one step and reports whether there was one.
func (h *History) Redo() bool {
	if h.at == len(h.steps)-1 {
		return false
	}
	h.at++
	h.Close()
	return true
}

// UndoName returns the name of the step Undo would take back, "" for none.
func (h *History) UndoName() string {
	if h.at == 0 {
		return ""
	}
	return h.steps[h.at].name
}

// RedoName returns the name of the step Redo would do again, "" for none.
func (h *History) RedoName() string {
	if h.at == len(h.steps)-1 {
		return ""
	}
	return h.steps[h.at+1].name
}
