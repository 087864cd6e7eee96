package sheet

import (
	"fmt"
	"strings"
	"testing"

	"stillbeat/board"
)

// sliding puts moves of objects on the first panel, each of 23 mm along the set.
func sliding(t *testing.T, b board.Board, objects ...string) board.Board {
	t.Helper()
	for _, name := range objects {
		var err error
		b, err = board.AddObjectMove(board.ObjectMove{Object: name, First: b.Panels[0].ID, Last: b.Panels[0].ID, Keys: []board.Spot{{}, {X: 23}}}).Apply(b)
		if err != nil {
			t.Fatal(err)
		}
	}
	return b
}

func TestAColumnForEachObjectThatMoves(t *testing.T) {
	film := board.New()
	film.Panels, film.NextID, film.End = []board.Panel{{ID: 1}}, 2, board.Free(1) // on ones: 24 exposures, 23 steps
	many := make([]string, MaxColumns+2)
	for k := range many {
		many[k] = fmt.Sprintf("lump %d", k+1)
	}
	tests := []struct {
		name    string
		objects []string
		titles  []string
		at10    string // what the last column says of frame 10
	}{
		{"a film in which nothing moves has none", nil, nil, ""},
		{"an object has one, twice moved or not", []string{"cup", "cup"}, []string{"cup"}, "10.0 mm, step 1.0; 10.0 mm, step 1.0"},
		{"an object without a name is one too", []string{"cup", ""}, []string{"cup", "object"}, "10.0 mm, step 1.0"},
		{"beyond the room they share the last one, by name", many, append(append([]string{}, many[:MaxColumns-1]...), "others"),
			"lump 8 10.0 mm, step 1.0; lump 9 10.0 mm, step 1.0; lump 10 10.0 mm, step 1.0"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			columns := MoveColumns(sliding(t, film, tt.objects...))
			var titles []string
			for _, c := range columns {
				titles = append(titles, c.Title)
			}
			if fmt.Sprint(titles) != fmt.Sprint(tt.titles) {
				t.Fatalf("columns %q, want %q", titles, tt.titles)
			}
			if len(columns) == 0 {
				return
			}
			if got := columns[len(columns)-1].Words(10); got != tt.at10 {
				t.Errorf("frame 10: %q, want %q", got, tt.at10)
			}
			if _, err := Rows(film, Options{Columns: columns}); err != nil {
				t.Errorf("a sheet does not take them: %v", err)
			}
		})
	}
}

// Four objects, each in a shot of its own, on ones at 24 fps: the first hops
// and lands on frame 12.
func TestAPageHasTheColumnsOfWhatMovesOnIt(t *testing.T) {
	b := board.New()
	for i := range 4 {
		b.Panels = append(b.Panels, board.Panel{ID: board.PanelID(i + 1), Start: board.Free(float64(i)), Opens: board.OpensShot,
			Words: board.Words{Action: "The cup turns and looks round for a long while"}})
	}
	b.NextID, b.End = 5, board.Free(4)
	for i, name := range []string{"lump", "spoon", "lamp", "leaf"} {
		m := board.ObjectMove{Object: name, First: b.Panels[i].ID, Last: b.Panels[i].ID, Keys: []board.Spot{{}, {X: 120}}}
		if i == 0 {
			m.Manner, m.Rise, m.Hits = board.Jumping, 40, []board.Hit{{Moment: 1, Start: board.Free(0.5)}}
		}
		b = do(t, b, board.AddObjectMove(m))
	}
	for page, text := range pdfText(t, pdfOf(t, b, Options{Columns: MoveColumns(b)}, Paper{Lines: 96})) {
		for i, name := range []string{"lump", "spoon", "lamp", "leaf"} {
			if strings.Contains(text, name) != (page == i) {
				t.Errorf("page %d has the column %q: %v", page+1, name, page != i)
			}
		}
		want := "mm, step 5.2"
		if page == 0 {
			want = "120.0 mm, 0.0 high, step "
		}
		if !strings.Contains(text, want) || strings.Contains(text, "…") {
			t.Errorf("page %d has no %q, or words are cut:\n%s", page+1, want, text)
		}
	}
}
