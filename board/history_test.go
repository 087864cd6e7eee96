package board

import (
	"fmt"
	"reflect"
	"testing"
)

// mustDo applies edits to a history.
func mustDo(t *testing.T, h *History, edits ...Edit) {
	t.Helper()
	for _, e := range edits {
		if err := h.Do(e); err != nil {
			t.Fatalf("%s: %v", e.Name, err)
		}
	}
}

func TestTypedTextUndoesAsOneStep(t *testing.T) {
	h := NewHistory(atFrames(0, 5, 9))
	mustDo(t, h, setWords(0, Words{Title: "w"}), setWords(0, Words{Title: "wi"}), setWords(0, Words{Title: "wide"}))
	mustDo(t, h, setWords(1, Words{Title: "close"})) // another panel: another step
	if !h.Undo() || h.Board().Panels[0].Title != "wide" || h.Board().Panels[1].Title != "" {
		t.Errorf("one undo leaves %+v", h.Board().Panels)
	}
	if !h.Undo() || h.Board().Panels[0].Title != "" {
		t.Errorf("two undos leave %q", h.Board().Panels[0].Title)
	}
	if h.Undo() {
		t.Error("there is a third step")
	}
	if !h.Redo() || h.Board().Panels[0].Title != "wide" {
		t.Errorf("redo gives %q", h.Board().Panels[0].Title)
	}
}

func TestWhatEndsARunOfTyping(t *testing.T) {
	for name, pause := range map[string]func(*History){
		"close":          func(h *History) { h.Close() },
		"undo and redo":  func(h *History) { h.Undo(); h.Redo() },
		"another edit":   func(h *History) { mustDo(t, h, SetStep(2)); h.Undo() },
		"another merger": func(h *History) { mustDo(t, h, setWords(0, Words{Title: "x"})); h.Undo() },
	} {
		h := NewHistory(atFrames(0, 5))
		mustDo(t, h, SetTitle("one"))
		pause(h)
		mustDo(t, h, SetTitle("two"))
		if !h.Undo() || h.Board().Title != "one" {
			t.Errorf("%s: undo gives %q, want the text before it", name, h.Board().Title)
		}
	}
	h := NewHistory(New())
	mustDo(t, h, SetTitle("one"))
	if h.Do(SetTitle("\xff")) == nil {
		t.Fatal("a title that is no text is taken")
	}
	mustDo(t, h, SetTitle("two"))
	if !h.Undo() || h.Board().Title != "" {
		t.Errorf("a refused letter ends the run: undo gives %q", h.Board().Title)
	}
}

func TestAnEditDropsWhatCouldBeRedone(t *testing.T) {
	h := NewHistory(New())
	mustDo(t, h, SetStep(2), SetStep(3))
	h.Undo()
	if h.Do(SetStep(99)) == nil {
		t.Fatal("step 99 is taken")
	}
	if h.RedoName() == "" {
		t.Error("a refused edit dropped the redo")
	}
	mustDo(t, h, SetStep(4))
	if h.Redo() || h.Board().Step != 4 {
		t.Errorf("redo after a new edit gives step %d", h.Board().Step)
	}
	h.Undo()
	if h.Board().Step != 2 {
		t.Errorf("undo gives step %d, want 2", h.Board().Step)
	}
}

func TestStepsHaveNames(t *testing.T) {
	h := NewHistory(atFrames(0, 5, 9))
	if h.UndoName() != "" || h.RedoName() != "" {
		t.Errorf("a new history undoes %q, redoes %q", h.UndoName(), h.RedoName())
	}
	mustDo(t, h, Delete(upTo(0, 1)), moveTo(0, 0), Insert(0, make([]Panel, 2), 1))
	for _, want := range []string{"add 2 panels", "move panel 1", "delete panel 1"} {
		if got := h.UndoName(); got != want {
			t.Errorf("undo is called %q, want %q", got, want)
		}
		h.Undo()
		if got := h.RedoName(); got != want {
			t.Errorf("redo is called %q, want %q", got, want)
		}
	}
}

func TestHistoryIsBounded(t *testing.T) {
	h := NewHistory(New())
	for i := range MaxHistory + 50 {
		mustDo(t, h, SetTitle(fmt.Sprint(i)))
		h.Close()
	}
	n := 0
	for h.Undo() {
		n++
	}
	if n != MaxHistory || h.Board().Title != "49" {
		t.Errorf("%d steps back to %q, want %d back to 49", n, h.Board().Title, MaxHistory)
	}
	if h.UndoName() != "" {
		t.Errorf("with nothing to undo, undo is called %q", h.UndoName())
	}
	for h.Redo() {
		n--
	}
	if n != 0 || h.Board().Title != fmt.Sprint(MaxHistory+49) {
		t.Errorf("redone to %q, %d steps off", h.Board().Title, n)
	}
}

func TestHistoryKeepsItsBoards(t *testing.T) {
	h := NewHistory(small(t))
	boards := []Board{deepCopy(h.Board())}
	for _, e := range []Edit{SetHold(one(0), 30), Duplicate(one(0)), moveTo(0, 2), Split(0, 3), SlideSong(1), Snap(SnapOptions{To: ToHalf, Shortest: 1}), Delete(upTo(1, 2))} {
		mustDo(t, h, e)
		boards = append(boards, deepCopy(h.Board()))
	}
	for i := len(boards) - 1; i >= 0; i-- {
		if !reflect.DeepEqual(h.Board(), boards[i]) {
			t.Errorf("step %d has become %+v, was %+v", i, h.Board(), boards[i])
		}
		h.Undo()
	}
}
