package file

import (
	"path/filepath"
	"testing"
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

// BenchmarkOpen opens a film of 1000 panels with 64 pictures of 2 MB.
func BenchmarkOpen(b *testing.B) {
	path := filepath.Join(b.TempDir(), "long"+Ext)
	f := mustCreate(b, path, longBoard(1000, 1500, 3000))
	for i := range 64 {
		if _, err := f.AddMedia(Picture, Media{"photo.jpg", noise(2<<20, uint64(i))}); err != nil {
			b.Fatal(err)
		}
	}
	mustClose(b, f)
	b.ReportAllocs()
	for b.Loop() {
		f, _, err := Open(path)
		if err != nil {
			b.Fatal(err)
		}
		mustClose(b, f)
	}
}

func BenchmarkAddPicture(b *testing.B) {
	f := mustCreate(b, filepath.Join(b.TempDir(), "long"+Ext), longBoard(10, 20, 30))
	data := noise(2<<20, 1)
	b.SetBytes(int64(len(data)))
	i := 0
	for b.Loop() {
		i++
		data[i%len(data)]++
		if _, err := f.AddMedia(Picture, Media{"photo.jpg", data}); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkReadPicture(b *testing.B) {
	f := mustCreate(b, filepath.Join(b.TempDir(), "long"+Ext), longBoard(10, 20, 30))
	data := noise(2<<20, 1)
	ids, err := f.AddMedia(Picture, Media{"photo.jpg", data})
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
