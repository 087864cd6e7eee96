package board

import (
	"fmt"
	"slices"
	"strings"
	"testing"
)

// onRun returns a film of six panels on every second beat at 120 a minute, 24
// frames each, with a move over the run from panel from to panel to that hits
// beats.
func onRun(t testing.TB, from, to int, beats ...int) Board {
	t.Helper()
	b := do(t, withSong(t, frameRate24, 120, 40), Insert(0, make([]Panel, 6), 2))
	m := ObjectMove{Object: "cup", First: b.Panels[from].ID, Last: b.Panels[to].ID, Keys: make([]Spot, len(beats)+2)}
	for k, beat := range beats {
		m.Hits = append(m.Hits, Hit{k + 1, Start{Anchor: Anchor{Beat: beat, Of: 1}}})
	}
	return do(t, b, AddObjectMove(m))
}

// runs says over which panels each move goes, counted from 1, and on which
// frames it hits: "2-4 @60".
func runs(b Board) string {
	var out []string
	at := b.places()
	for _, m := range b.Moves {
		s := fmt.Sprintf("%d-%d", at[m.First]+1, at[m.Last]+1)
		for _, h := range m.Hits {
			s += fmt.Sprintf(" @%d", b.Frame(h.Start))
			if !h.Start.Anchored() {
				s += " free"
			}
		}
		out = append(out, s)
	}
	return strings.Join(out, ", ")
}

// The run is panels 2 to 4, frames 24 to 96; the hit, beat 5, is frame 60, in
// panel 3.
func TestMovesOfObjectsFollowTheirPanels(t *testing.T) {
	for _, c := range []struct {
		name string
		edit Edit
		want string
	}{
		{"as it is", SetTitle("tea"), "2-4 @60"},
		{"deleting its first panel shortens it", Delete(one(1)), "2-3 @60"},
		{"deleting its last panel shortens it", Delete(one(3)), "2-3 @60"},
		{"deleting one within it does not", Delete(one(2)), "2-3 @60"},
		{"deleting all of them takes it away", Delete(upTo(1, 4)), ""},
		{"deleting one before it keeps its time", Delete(one(0)), "1-3 @60"},
		{"cutting one out before it moves it and its hit up", CloseUp(one(0)), "1-3 @36"},
		{"cutting out the panel of the hit keeps the hit in the run", CloseUp(one(2)), "2-3 @60"},
		{"a longer hold before it moves both", SetHold(one(0), 36), "2-4 @72"},
		{"a hold off the beat frees the hit", SetHold(one(0), 30), "2-4 @66 free"},
		{"a panel put within belongs to it", Insert(2, make([]Panel, 1), 2), "2-5 @84"},
		{"a panel put before does not", Insert(1, make([]Panel, 1), 2), "3-5 @84"},
		{"a panel put after does not", Insert(4, make([]Panel, 1), 2), "2-4 @60"},
		{"splitting its last panel keeps both parts", Split(3, 84), "2-5 @60"},
		{"splitting its first panel keeps both parts", Split(1, 36), "2-5 @60"},
		{"joining its first with the one before", Join(upTo(0, 2)), "1-3 @60"},
		{"joining its last with the one after", Join(upTo(3, 5)), "2-4 @60"},
		{"joining all of it", Join(upTo(1, 4)), "2-2 @60"},
		{"moved as a whole it goes along", Move(upTo(1, 4), 6), "4-6 @108"},
		{"a panel moved out leaves it", Move(one(1), 6), "2-3 @36"},
		{"panels that change places within stay", Move(one(1), 4), "2-4 @36"},
		{"a panel moved in belongs to it", Move(one(5), 2), "2-5 @84"},
		{"a copy of all its panels has a move of its own", Duplicate(upTo(1, 4)), "2-4 @60, 5-7 @132"},
		{"a copy of a part of them has none", Duplicate(one(1)), "2-5 @84"},
		{"slid with the song the hit stays on its beat", SlideSong(0.5), "2-4 @72"},
		{"on another grid it finds the nearest beat", SetSong(&Song{Name: "b.wav", Seconds: 60}, NewGrid(metronome(100, 60, 0), nil)), "2-4 @58"},
		{"without music it keeps its frame", SetSong(nil, Grid{}), "2-4 @60 free"},
		{"twice as many beats keep it where it is", ScaleTempo(2, 1), "2-4 @60"},
		{"at another rate it keeps its beat", SetRate(FrameRate{12, 1}), "2-4 @30"},
	} {
		t.Run(c.name, func(t *testing.T) {
			if got := runs(do(t, onRun(t, 1, 3, 5), c.edit)); got != c.want {
				t.Errorf("the move is %q, want %q", got, c.want)
			}
		})
	}
}

func TestMovesOfObjectsArePastedIntoAnotherFilm(t *testing.T) {
	b := onRun(t, 1, 2, 3) // hits frame 36, in the middle of its first panel
	from := do(t, b, Nudge(one(1), 2))
	set := []int{2, 1, 5}
	other := do(t, withSong(t, FrameRate{12, 1}, 60, 60), Insert(0, make([]Panel, 3), 4))
	got := do(t, other, Paste(3, []Panel{from.Panels[1], from.Panels[2], from.Panels[5]}, []Frame{24, 24, 24}, from.MovesOf(set)...))
	// The panels start at frame 144; the hit was 10 frames of 24 after its
	// panel: 5 of 12, and no beat is there.
	if want := "4-5 @149 free"; runs(got) != want {
		t.Errorf("the move is %q, want %q", runs(got), want)
	}
	m := from.MovesOf(set)
	if len(m) != 1 || len(from.MovesOf(one(1))) != 0 {
		t.Fatalf("%d moves are copied", len(m))
	}
	m[0].Hits[0].Start.Time = 1e300
	refused(t, other, Paste(0, from.Panels, from.Holds(), m...), "outside the film")
}

func TestEditsOfObjectMoves(t *testing.T) {
	b := onRun(t, 0, 1)
	b = do(t, b, AddObjectMove(ObjectMove{Object: "spoon", First: 3, Last: 3, Keys: make([]Spot, 2)}))
	if ids := []MoveID{b.Moves[0].ID, b.Moves[1].ID}; !slices.Equal(ids, []MoveID{1, 2}) {
		t.Errorf("ids %v", ids)
	}
	if got := []int{len(b.MovesIn(0)), len(b.MovesIn(2)), len(b.MovesIn(5))}; !slices.Equal(got, []int{1, 1, 0}) {
		t.Errorf("moves in the panels: %v", got)
	}
	changed := b.Moves[1]
	changed.Manner = Toppling
	b = do(t, b, SetObjectMove(changed))
	if b.Moves[1].Manner != Toppling || b.ObjectMove(2) != 1 || b.ObjectMove(3) != -1 {
		t.Errorf("moves %+v", b.Moves)
	}
	e := SetObjectMove(changed)
	if e.Merge == "" || e.Name != "change the move of the spoon" {
		t.Errorf("the edit is %+v", e)
	}
	refused(t, b, SetObjectMove(ObjectMove{ID: 9}), "no such move")
	refused(t, b, RemoveObjectMove(9), "no such move")
	refused(t, b, AddObjectMove(ObjectMove{First: 3, Last: 1, Keys: make([]Spot, 2)}), "no run of panels")
	b = do(t, do(t, b, RemoveObjectMove(1)), RemoveObjectMove(2))
	if b.Moves != nil {
		t.Errorf("an empty list is left: %v", b.Moves)
	}
}
