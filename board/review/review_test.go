package review

import (
	"encoding/json"
	"errors"
	"fmt"
	"strings"
	"testing"

	"stillbeat/board"
)

// teaFilm returns a film of three panels of a second each, at 24 fps.
func teaFilm() board.Board {
	b := board.New()
	b.Title, b.NextID = "Tea", 4
	for i, title := range []string{"The kettle", "The spoon", "The cup"} {
		b.Panels = append(b.Panels, board.Panel{ID: board.PanelID(i + 1), Start: board.Free(float64(i)), Words: board.Words{Title: title}})
	}
	b.End = board.Free(3)
	return b
}

// fileOn returns a file with notes on a film.
func fileOn(b board.Board, notes ...Note) File {
	return File{Format: Format, Version: Version, Film: FilmOf(b), Notes: notes}
}

func note(id string, frame board.Frame, panel board.PanelID, in board.Frame) Note {
	return Note{ID: id, Author: "Aunt", Written: 10, Frame: frame, Panel: panel, In: in, Text: "slower"}
}

func text(t testing.TB, f File) []byte {
	t.Helper()
	data, err := json.Marshal(f)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

func take(t testing.TB, b board.Board, f File) board.Board {
	t.Helper()
	e, _, err := Take(b, f, false)
	if err != nil {
		t.Fatal(err)
	}
	out, err := e.Apply(b)
	if err != nil {
		t.Fatal(err)
	}
	return out
}

func TestNotesOfAnOlderFilmStandWhereTheirPanelsAre(t *testing.T) {
	was := teaFilm()
	f := fileOn(was, note("spoon", 30, 2, 6), note("cup", 60, 3, 12), note("kettle", 0, 1, 0))
	read, err := Read(text(t, f))
	if err != nil {
		t.Fatal(err)
	}
	now := was
	for _, e := range []board.Edit{board.Delete([]int{2}), board.Move([]int{1}, 0), board.SetRate(board.FrameRate{Num: 12, Den: 1})} {
		if now, err = e.Apply(now); err != nil {
			t.Fatal(err)
		}
	}
	var got []string
	for _, p := range take(t, now, read).PlacedRemarks() {
		got = append(got, fmt.Sprintf("%s at %d, was at %g s", p.ID, p.Frame, p.Was))
	}
	want := "spoon at 3, was at 1.25 s; kettle at 12, was at 0 s; cup at -1, was at 2.5 s"
	if s := strings.Join(got, "; "); s != want {
		t.Errorf("the notes stand\n%s\nwant\n%s", s, want)
	}
}

func TestIsKnowsTheFilmAgain(t *testing.T) {
	was := teaFilm()
	blank := board.New()
	with := func(change func(*board.Board)) board.Board {
		b := teaFilm()
		change(&b)
		return b
	}
	words := func(b *board.Board, keep int) {
		for i := range b.Panels {
			if i != keep {
				b.Panels[i].Title = "other"
			}
		}
	}
	for _, c := range []struct {
		name     string
		was, now board.Board
		want     bool
	}{
		{"as it was", was, was, true},
		{"another title", was, with(func(b *board.Board) { b.Title = "Coffee" }), true},
		{"other words, the same title", was, with(func(b *board.Board) { words(b, -1) }), true},
		{"one panel still has its words", was, with(func(b *board.Board) { b.Title = "Coffee"; words(b, 2) }), true},
		{"other words and title", was, with(func(b *board.Board) { b.Title = "Coffee"; words(b, -1) }), false},
		{"the same words on other panels", was, with(func(b *board.Board) {
			b.Title = "Coffee"
			b.NextID = 9
			b.Panels = []board.Panel{{ID: 8, Words: board.Words{Title: "The cup"}}}
		}), false},
		{"two blank films", blank, blank, true},
		{"a blank film of another title", blank, with(func(b *board.Board) { *b = board.New(); b.Title = "Tea" }), false},
		{"a blank film against one that is not", blank, with(func(b *board.Board) { b.Title = "" }), false},
	} {
		if got := FilmOf(c.was).Is(c.now); got != c.want {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
	}
	other := with(func(b *board.Board) { b.Title = "Coffee"; words(b, -1) })
	f := fileOn(was, note("a", 0, 1, 0))
	if _, _, err := Take(other, f, false); !errors.Is(err, ErrOtherFilm) || err.Error() != `these notes are on another film, "Tea"` {
		t.Errorf("taken to another film: %v", err)
	}
	if _, n, err := Take(other, f, true); err != nil || n.New != 1 {
		t.Errorf("taken anyway: %+v, %v", n, err)
	}
}

func TestPrintsOfALargeFilmAreBounded(t *testing.T) {
	b := board.New()
	for i := range 5000 {
		b.Panels = append(b.Panels, board.Panel{ID: board.PanelID(i + 1), Picture: "aa", Words: board.Words{Title: "x"}})
	}
	if n := len(PrintsOf(b)); n != 2*maxPrinted {
		t.Errorf("%d prints, want %d", n, 2*maxPrinted)
	}
}

func ExampleTake() {
	film := board.New()
	film.Title = "Tea"
	read, err := Read([]byte(`{"format": "stillbeat notes", "version": 1, "film": {"title": "Tea", "rate": "24", "frames": 240},
		"notes": [{"id": "m5x2-1", "author": "Aunt", "written": 1767225600000, "frame": 31, "panel": 2, "in": 7, "text": "Hold the lid longer."}]}`))
	if err != nil {
		fmt.Println(err)
		return
	}
	edit, n, err := Take(film, read, false)
	fmt.Println(edit.Name, n.New, err)
	// Output: take notes 1 <nil>
}
