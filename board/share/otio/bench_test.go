package otio

import (
	"testing"

	"stillbeat/board"
)

// longFilm has as many panels as a film may, on a song with a beat for each.
func longFilm(t testing.TB) board.Board {
	b := board.New()
	b.Song = &board.Song{Name: "tune.wav", Seconds: 10000}
	beats := make([]float64, board.MaxPanels)
	for i := range beats {
		beats[i] = float64(i) / 2
		b.Panels = append(b.Panels, board.Panel{ID: b.NextID, Picture: "p", Words: board.Words{Title: "cup", Note: "slowly"},
			Start: board.Start{Time: beats[i], Anchor: board.Anchor{Beat: i, Of: 1}}})
		b.NextID++
	}
	b.Grid = board.NewGrid(beats, nil)
	b.End = board.Free(10000)
	must(t, b.Check())
	return b
}

func BenchmarkWrite(b *testing.B) {
	film := longFilm(b)
	b.ReportAllocs()
	for b.Loop() {
		text, err := Write(film, Options{})
		must(b, err)
		b.SetBytes(int64(len(text)))
	}
}

func BenchmarkRead(b *testing.B) {
	text, err := Write(longFilm(b), Options{})
	must(b, err)
	b.SetBytes(int64(len(text)))
	b.ReportAllocs()
	for b.Loop() {
		_, _, err := Read(text)
		must(b, err)
	}
}

func BenchmarkTake(b *testing.B) {
	film := longFilm(b)
	text, err := Write(film, Options{})
	must(b, err)
	timing, _, err := Read(text)
	must(b, err)
	b.ReportAllocs()
	for b.Loop() {
		_, _, err := film.Take(timing)
		must(b, err)
	}
}
