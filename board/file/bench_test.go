package file

import (
	"os"
	"path/filepath"
	"testing"

	"stillbeat/board"
)

func BenchmarkSaveBoard(b *testing.B) {
	film := longBoard(1000, 1500, 3000)
	f := mustCreate(b, filepath.Join(b.TempDir(), "long"+Ext), film)
	b.ReportAllocs()
	i := 0
	for b.Loop() {
		i++
		film.Panels[i%1000].Note = "an edit"
		if err := f.SaveBoard(film); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkSaveBoardNewGrid(b *testing.B) {
	film := longBoard(1000, 1500, 3000)
	f := mustCreate(b, filepath.Join(b.TempDir(), "long"+Ext), film)
	i := 0
	for b.Loop() {
		i++
		film.Grid.Tempo = 100 + float64(i%2)
		if err := f.SaveBoard(film); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkOpen opens a film of 500 panels with 500 pictures of 2 MB and a
// history of 300 steps, half of which move every panel.
func BenchmarkOpen(b *testing.B) {
	path, _ := longFilm(b)
	b.ReportAllocs()
	for b.Loop() {
		f, _, err := Open(path)
		if err != nil {
			b.Fatal(err)
		}
		mustClose(b, f)
	}
}

// BenchmarkSaveEdit saves one edit to that film.
func BenchmarkSaveEdit(b *testing.B) {
	path, h := longFilm(b)
	f, _ := mustOpen(b, path)
	edits := []board.Edit{board.SetHold([]int{2}, 20), board.SetHold([]int{2}, 21), board.MoveBeat(70, h.Board().Grid.Beats[70].Time+0.001), board.SetTitle("tea")}
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		if err := h.Do(edits[i%len(edits)]); err != nil {
			b.Fatal(err)
		}
		h.Close()
		if err := f.Save(h.Past()); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkUndo takes a step back that is not in memory.
func BenchmarkUndo(b *testing.B) {
	path, _ := longFilm(b)
	f, film := mustOpen(b, path)
	rows := f.rows
	b.ReportAllocs()
	for b.Loop() {
		if _, err := f.Before(rows[len(rows)-1].id, film); err != nil {
			b.Fatal(err)
		}
	}
}

var longFilms = map[string]*board.History{}

// longFilm makes the film of the benchmarks, once for all of them.
func longFilm(b *testing.B) (path string, h *board.History) {
	b.Helper()
	for path, h := range longFilms {
		return path, h
	}
	folder, err := os.MkdirTemp("", "stillbeat-bench")
	if err != nil {
		b.Fatal(err)
	}
	path = filepath.Join(folder, "long"+Ext)
	f := mustCreate(b, path, longBoard(500, 1500, 3000))
	h = board.RestoreHistory(f.Past(), f)
	data := make([]byte, 2<<20)
	for i := range 500 {
		data[0], data[1] = byte(i), byte(i>>8)
		ids, err := f.AddMedia(Picture, Media{Name: "photo.jpg", Data: data})
		if err != nil {
			b.Fatal(err)
		}
		if err := h.Do(board.SetPicture([]int{i}, ids[0])); err != nil {
			b.Fatal(err)
		}
	}
	for i := range 150 {
		for _, e := range []board.Edit{board.SetHold([]int{i}, board.Frame(i%5+4)), board.SetStep(i%4 + 1)} {
			if err := h.Do(e); err != nil {
				b.Fatal(err)
			}
		}
	}
	if err := f.Save(h.Past()); err != nil {
		b.Fatal(err)
	}
	mustClose(b, f)
	longFilms[path] = h
	info, err := os.Stat(path)
	if err != nil {
		b.Fatal(err)
	}
	past := 0
	for _, r := range f.rows {
		past += r.size
	}
	b.Logf("a film of %d MB, %d steps in %d kB", info.Size()>>20, len(f.rows), past>>10)
	return path, h
}

func BenchmarkAddPicture(b *testing.B) {
	f := mustCreate(b, filepath.Join(b.TempDir(), "long"+Ext), longBoard(10, 20, 30))
	data := noise(2<<20, 1)
	b.SetBytes(int64(len(data)))
	i := 0
	for b.Loop() {
		i++
		data[i%len(data)]++
		if _, err := f.AddMedia(Picture, Media{Name: "photo.jpg", Data: data}); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkReadPicture(b *testing.B) {
	f := mustCreate(b, filepath.Join(b.TempDir(), "long"+Ext), longBoard(10, 20, 30))
	data := noise(2<<20, 1)
	ids, err := f.AddMedia(Picture, Media{Name: "photo.jpg", Data: data})
	if err != nil {
		b.Fatal(err)
	}
	b.SetBytes(int64(len(data)))
	for b.Loop() {
		if _, err := f.Media(ids[0]); err != nil {
			b.Fatal(err)
		}
	}
}
