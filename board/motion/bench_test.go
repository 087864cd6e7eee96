package motion

import (
	"testing"

	"stillbeat/board"
)

// A film of a minute on ones with a hundred moves, one of each kind in turn.
func BenchmarkTables(b *testing.B) {
	film := board.New()
	for i := range 60 {
		film.Panels = append(film.Panels, board.Panel{ID: board.PanelID(i + 1), Start: board.Free(float64(i))})
	}
	film.NextID, film.End = 61, board.Free(60)
	rows := 0
	for i := range 100 {
		m := Suggest(board.Manners[i%len(board.Manners)], board.PanelID(i%58+1), board.PanelID(i%58+3))
		m.ID = board.MoveID(i + 1)
		film.Moves = append(film.Moves, m)
	}
	if err := film.Check(); err != nil {
		b.Fatal(err)
	}
	b.ReportAllocs()
	for b.Loop() {
		rows = 0
		for _, t := range Tables(film, Limits{}) {
			rows += len(t.Rows)
		}
	}
	if rows != 7200 {
		b.Fatalf("%d rows", rows)
	}
}

func BenchmarkTrail(b *testing.B) {
	tab := Space(Suggest(board.Swinging, 1, 1), on(240, 1), nil, Limits{})
	sight := tab.Sight()
	b.ReportAllocs()
	for b.Loop() {
		tab.Trail(sight)
	}
}
