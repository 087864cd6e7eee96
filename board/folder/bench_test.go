package folder

import (
	"context"
	"os"
	"path/filepath"
	"testing"

	"stillbeat/board"
)

// benchFilm has fifty pictures of 2 MB, as photographs have.
func benchFilm(b *testing.B) (board.Board, store, int64) {
	b.Helper()
	film, s := teaFilm(b)
	clear(s)
	film.Panels, film.Song, film.NextID = nil, nil, 1
	photograph := append(greyPicture(b, 0), make([]byte, 2<<20)...)
	for i := range 50 {
		data := append([]byte{}, photograph...)
		data[len(data)-1] = byte(i)
		film.Panels = append(film.Panels, board.Panel{ID: film.NextID, Start: board.Free(float64(i)), Picture: s.add("photograph.png", data)})
		film.NextID++
	}
	film.End = board.Free(50)
	return film, s, int64(50 * len(photograph))
}

func BenchmarkWrite(b *testing.B) {
	film, s, size := benchFilm(b)
	b.SetBytes(size)
	b.ReportAllocs()
	dir := filepath.Join(b.TempDir(), "film")
	for b.Loop() {
		must(b, Write(context.Background(), dir, film, s.source, nil))
		b.StopTimer()
		must(b, os.RemoveAll(dir))
		b.StartTimer()
	}
}

func BenchmarkRead(b *testing.B) {
	film, s, size := benchFilm(b)
	dir := written(b, film, s)
	b.SetBytes(size)
	b.ReportAllocs()
	for b.Loop() {
		_, _, err := Read(context.Background(), dir, nil)
		must(b, err)
	}
}

// BenchmarkFilmJSON lays out and parses the film.json of ten thousand panels.
func BenchmarkFilmJSON(b *testing.B) {
	film, _ := teaFilm(b)
	panel := film.Panels[1]
	film.Panels = nil
	for i := range 10000 {
		panel.ID = board.PanelID(i + 1)
		film.Panels = append(film.Panels, panel)
	}
	doc := newDocument(film, map[board.MediaID]string{panel.Picture: "pictures/002 IMG_0412.png", film.Song.Media: "song/waltz.wav"}, nil)
	b.ReportAllocs()
	for b.Loop() {
		text, err := layout(doc)
		must(b, err)
		_, err = parse(text)
		must(b, err)
		b.SetBytes(int64(len(text)))
	}
}
