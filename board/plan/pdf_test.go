package plan

import (
	"bytes"
	"fmt"
	"io"
	"strings"
	"testing"

	"stillbeat/board"
)

func TestCallSheetGolden(t *testing.T) {
	pages := pdfText(t, pdfOf(t, teaTable(t), Paper{}))
	if len(pages) != 8 {
		t.Fatalf("%d pages, want one and 7 sessions", len(pages))
	}
	golden(t, "a4.txt", strings.Join(pages[:3], "--\n")) // all of it, a shot with a rig, the beginning of a long one
	golden(t, "letter.txt", strings.Join(pdfText(t, pdfOf(t, shotsFilm(t, 2, 1, 48), Paper{Size: "letter"})), "--\n"))
}

// A session has one page, however much is written; one of very many shots goes on.
func TestPagesOfSessions(t *testing.T) {
	long := strings.Repeat("The cup turns and looks at the spoon. ", 40)
	panels, holds := make([]board.Panel, 200), make([]board.Frame, 200)
	for i := range panels {
		panels[i], holds[i] = board.Panel{Picture: "aa", Still: true, Words: board.Words{Action: fmt.Sprint(i, long)}}, 24
	}
	one := board.UsualPlanning
	one.Session, one.Pace = board.MaxMinutes, 0.1
	many := one
	many.SetUp = 1
	for _, c := range []struct {
		name  string
		b     board.Board
		pages int
	}{
		{"no film", board.New(), 1},
		{"one session", shotsFilm(t, 2, 1, 24), 1},
		{"two sessions have a page before them", shotsFilm(t, 2, 3, 24), 3},
		{"200 panels in a shot", do(t, film(t, 2, panels, holds...), board.SetPlan(one)), 1},
		{"24 shots in a session", do(t, shotsFilm(t, 2, 24, 24), board.SetPlan(many)), 1},
		{"60 shots in a session", do(t, shotsFilm(t, 2, 60, 24), board.SetPlan(many)), 2},
		{"words from the right", do(t, shotsFilm(t, 2, 1, 24), board.SetTitle("茶壶 الكوب"), board.Write([]int{0}, "action", func(w *board.Words) { w.Action = "الكوب يدور" })), 1},
	} {
		pages := pdfText(t, pdfOf(t, c.b, Paper{}))
		if len(pages) != c.pages {
			t.Errorf("%s: %d pages, want %d", c.name, len(pages), c.pages)
		}
		for i, p := range pages {
			if want := fmt.Sprintf("%d/%d", i+1, c.pages); !strings.Contains(p, want) {
				t.Errorf("%s: page %d has no %s:\n%s", c.name, i+1, want, p)
			}
		}
	}
}

func TestTheSameFilmMakesTheSameCallSheets(t *testing.T) {
	if !bytes.Equal(pdfOf(t, teaTable(t), Paper{}), pdfOf(t, teaTable(t), Paper{})) {
		t.Error("call sheets of one film differ")
	}
}

func TestWrongPaper(t *testing.T) {
	if err := planOf(t, board.New()).PDF(io.Discard, board.New(), Paper{Size: "a3"}); err == nil || err.Error() != `"a3" is no paper: it is a4 or letter` {
		t.Errorf("it says %v", err)
	}
}

func Example() {
	b, _ := board.Paste(0, []board.Panel{{Words: board.Words{Action: "The cup turns"}}, {Still: true}}, []board.Frame{24, 240}).Apply(board.New())
	p, err := Make(b)
	fmt.Println(p.Take, "of", p.OnSheet, Hours(p.Minutes), len(p.Sessions), err)
	// Output: 25 of 264 2 h 09 min 1 <nil>
}
