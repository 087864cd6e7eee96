package board

import (
	"slices"
	"testing"
)

// noted returns the film's notes by frame.
func noted(b Board) map[Frame]string {
	out, starts := map[Frame]string{}, b.Starts()
	for f := range b.Frames() {
		if text := b.NotesOn(f, starts); text != "" {
			out[f] = text
		}
	}
	return out
}

func wantNotes(t *testing.T, when string, b Board, want map[Frame]string) {
	t.Helper()
	got := noted(b)
	if len(got) != len(want) {
		t.Errorf("%s: the notes are %v, want %v", when, got, want)
		return
	}
	for f, text := range want {
		if got[f] != text {
			t.Errorf("%s: the notes are %v, want %v", when, got, want)
			return
		}
	}
}

func TestFrameNotesGoWithTheirPanel(t *testing.T) {
	b := atFrames(0, 24, 48, 72)
	b = do(t, b, SetFrameNote(30, "blink"))
	b = do(t, b, SetFrameNote(26, "lid up"))
	wantNotes(t, "set", b, map[Frame]string{26: "lid up", 30: "blink"})
	wantNotes(t, "the panel before holds longer", do(t, b, SetHold([]int{0}, 30)), map[Frame]string{32: "lid up", 36: "blink"})
	wantNotes(t, "moved to the front", do(t, b, Move([]int{1}, 0)), map[Frame]string{2: "lid up", 6: "blink"})
	wantNotes(t, "duplicated", do(t, b, Duplicate([]int{1})), map[Frame]string{26: "lid up", 30: "blink", 50: "lid up", 54: "blink"})
	wantNotes(t, "at 12 fps", do(t, b, SetRate(FrameRate{12, 1})), map[Frame]string{13: "lid up", 15: "blink"})
	short := do(t, b, SetHold([]int{1}, 4))
	wantNotes(t, "held too short", short, map[Frame]string{26: "lid up", 27: "blink"})
	wantNotes(t, "held long again", do(t, short, SetHold([]int{1}, 24)), map[Frame]string{26: "lid up", 30: "blink"})
	wantNotes(t, "deleted", do(t, b, Delete([]int{1})), nil)
	split := do(t, b, Split(1, 28))
	wantNotes(t, "split", split, map[Frame]string{26: "lid up", 30: "blink"})
	if len(split.Panels[1].Notes()) != 1 || len(split.Panels[2].Notes()) != 1 {
		t.Errorf("split: the parts have %v and %v", split.Panels[1].Notes(), split.Panels[2].Notes())
	}
	wantNotes(t, "joined", do(t, b, Join([]int{0, 1, 2})), map[Frame]string{26: "lid up", 30: "blink"})
}

func TestSetFrameNoteReplacesAndTakesAway(t *testing.T) {
	b := do(t, atFrames(0, 24, 48), SetFrameNote(30, "blink"))
	wantNotes(t, "replaced", do(t, b, SetFrameNote(30, "wink")), map[Frame]string{30: "wink"})
	wantNotes(t, "beside it", do(t, b, SetFrameNote(31, "open")), map[Frame]string{30: "blink", 31: "open"})
	gone := do(t, b, SetFrameNote(30, " \n"))
	if gone.Panels[1].FrameNotes != nil {
		t.Errorf("without words there is still %v", gone.Panels[1].FrameNotes)
	}
	short := do(t, do(t, b, SetFrameNote(28, "lid")), SetHold([]int{1}, 3))
	wantNotes(t, "two on the last frame", short, map[Frame]string{26: "lid\nblink"})
	wantNotes(t, "one in their place", do(t, short, SetFrameNote(26, "both")), map[Frame]string{26: "both"})
	refused(t, b, SetFrameNote(48, "x"), "frame 48 is outside the film")
	refused(t, b, SetFrameNote(-1, "x"), "frame -1 is outside the film")
	refused(t, b, SetFrameNote(3, "\xff"), "panel 1: a note on a frame is empty, too long or not readable")
}

func TestFrameNotesAreKeptInOrder(t *testing.T) {
	b := atFrames(0, 48)
	for _, f := range []Frame{40, 3, 17} {
		b = do(t, b, SetFrameNote(f, "x"))
	}
	if n := b.Panels[0].Notes(); !slices.IsSortedFunc(n, func(a, b FrameNote) int { return int(1e6 * (a.After - b.After)) }) {
		t.Errorf("the notes are %v", n)
	}
}
