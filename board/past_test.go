package board

import (
	"errors"
	"testing"
)

// recordedShelf holds the boards of the steps it was given.
type recordedShelf struct {
	before, after map[StepID]Board
	damaged       StepID
	asked         int
}

func (s *recordedShelf) record(p Past) {
	for i := 1; i < len(p.Steps); i++ {
		if p.Steps[i-1].Board != nil && p.Steps[i].Board != nil {
			s.before[p.Steps[i].ID], s.after[p.Steps[i].ID] = *p.Steps[i-1].Board, *p.Steps[i].Board
		}
	}
}

func (s *recordedShelf) Holds(id StepID) bool { _, ok := s.after[id]; return ok }

func (s *recordedShelf) Before(id StepID, _ Board) (Board, error) { return s.give(s.before, id) }

func (s *recordedShelf) After(id StepID, _ Board) (Board, error) { return s.give(s.after, id) }

func (s *recordedShelf) give(from map[StepID]Board, id StepID) (Board, error) {
	s.asked++
	if id == s.damaged {
		return Board{}, errors.New("a damaged step")
	}
	return from[id], nil
}

// number is an edit that leaves a mark on boards of any size.
func number(n int) Edit {
	return Edit{Name: "number", Apply: func(b Board) (Board, error) {
		b.NextID = PanelID(n)
		return b, nil
	}}
}

// longHistory returns a history of boards of 20,000 panels whose steps are
// numbers, with all but the last two on a shelf.
func longHistory(t *testing.T, steps int) (*History, *recordedShelf) {
	t.Helper()
	b := New()
	b.Panels = make([]Panel, MaxPanels)
	s := &recordedShelf{before: map[StepID]Board{}, after: map[StepID]Board{}}
	h := RestoreHistory(NewPast(b), s)
	for i := range steps {
		mustDo(t, h, number(i+1))
		if i < steps-2 {
			s.record(h.Past())
		}
	}
	return h, s
}

func held(h *History) (n int) {
	for _, s := range h.Past().Steps {
		if s.Board != nil {
			n++
		}
	}
	return n
}

func TestLongBoardsAreLeftToTheShelf(t *testing.T) {
	h, s := longHistory(t, 200)
	limit := maxHeld/MaxPanels + nearby + 2
	if n := held(h); n > limit || n < limit/2 {
		t.Errorf("%d boards are in memory, want %d", n, limit)
	}
	snapshot := h.Past()
	for i := 199; i > 0; i-- {
		if !h.Undo() || h.Board().NextID != PanelID(i) {
			t.Fatalf("undo gives %d, want %d", h.Board().NextID, i)
		}
	}
	if n := held(h); n > limit {
		t.Errorf("%d boards are in memory after going back", n)
	}
	for i := 2; i <= 200; i++ {
		if !h.Redo() || h.Board().NextID != PanelID(i) {
			t.Fatalf("redo gives %d, want %d", h.Board().NextID, i)
		}
	}
	if s.asked == 0 {
		t.Error("the shelf was never asked")
	}
	if snapshot.Board().NextID != 200 || len(snapshot.Steps) != 201 {
		t.Error("a past given away was changed")
	}
}

func TestBoardsThatNobodyElseHasStay(t *testing.T) {
	h, s := longHistory(t, 100)
	clear(s.after)
	before := held(h)
	mustDo(t, h, number(0))
	if n := held(h); n != before+1 {
		t.Errorf("%d boards are in memory, want %d", n, before+1)
	}
}

func TestStepsThatAreLost(t *testing.T) {
	for _, c := range []struct {
		name    string
		damaged StepID
		from    func(*History)
		went    int
	}{
		{"on the way back", 50, func(*History) {}, 200 - 50},
		{"on the way forth", 150, func(h *History) {
			for h.Undo() {
			}
		}, 149},
	} {
		t.Run(c.name, func(t *testing.T) {
			h, s := longHistory(t, 200)
			c.from(h)
			var lost error
			h.Lost = func(err error) { lost = err }
			s.damaged = c.damaged
			back := h.Past().At > 0
			went := 0
			for back && h.Undo() || !back && h.Redo() {
				went++
			}
			if lost == nil || went != c.went {
				t.Errorf("%d steps, then %v, want %d", went, lost, c.went)
			}
			if back && h.UndoName() != "" || !back && h.RedoName() != "" {
				t.Error("what is lost is still offered")
			}
			mustDo(t, h, number(0))
			if !h.Undo() {
				t.Error("nothing can be undone any more")
			}
		})
	}
}

func TestForget(t *testing.T) {
	h := NewHistory(New())
	mustDo(t, h, SetTitle("a"), SetStep(2), SetStep(3))
	h.Undo()
	last := h.Past().Steps[3].ID
	h.Forget()
	if h.Undo() || h.Redo() || h.Board().Step != 2 {
		t.Errorf("the film is on %ds", h.Board().Step)
	}
	mustDo(t, h, SetTitle("b"))
	if got := h.Past().Steps[1].ID; got <= last {
		t.Errorf("step %d has a number given out before: %d is the last", got, last)
	}
}
