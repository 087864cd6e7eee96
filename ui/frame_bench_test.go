package ui

import (
	"bytes"
	"image"
	"image/color"
	"image/jpeg"
	"math/rand/v2"
	"os"
	"path/filepath"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"

	"stillbeat/board"
	"stillbeat/board/desk"
	"stillbeat/board/picture"
)

// BenchmarkDragPhotograph is one move of the pointer with a photograph of 24
// megapixels in hand: what is painted, the numbers, and no edit.
func BenchmarkDragPhotograph(b *testing.B) {
	img, r := image.NewRGBA(image.Rect(0, 0, 6000, 4000)), rand.New(rand.NewPCG(1, 2))
	for y := range 4000 {
		for x := range 6000 {
			img.SetRGBA(x, y, color.RGBA{uint8(x >> 5), uint8(y>>4 + r.IntN(8)), 90, 255})
		}
	}
	var data bytes.Buffer
	if err := jpeg.Encode(&data, img, nil); err != nil {
		b.Fatal(err)
	}
	path := filepath.Join(b.TempDir(), "lamp.jpg")
	if err := os.WriteFile(path, data.Bytes(), 0o600); err != nil {
		b.Fatal(err)
	}
	b.Setenv("XDG_CACHE_HOME", b.TempDir())
	b.Setenv("HOME", b.TempDir())
	a := test.NewTempApp(b)
	a.Settings().SetTheme(newPaperTheme())
	d, err := desk.New()
	if err != nil {
		b.Fatal(err)
	}
	defer d.Close()
	w := newWindow(a, Options{Ear: clickEar{}, Mute: true, post: func(f func()) { posted <- f }}, d)
	w.win.Resize(fyne.NewSize(1600, 1000))
	good, bad, err := desk.NewPictures(b.Context(), []string{path}, nil)
	if err != nil || len(bad) > 0 {
		b.Fatal(err, bad)
	}
	if err := d.AddPictures(0, good, every); err != nil {
		b.Fatal(err)
	}
	w.choose(0)
	w.faces.Show(w.framing.face)
	if err := w.film.Warm(0, board.Placement{}, picture.Bench{High: 500}); err != nil {
		b.Fatal(err)
	}
	w.surface.MouseDown(&desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: middle(w)}, Button: desktop.MouseButtonPrimary})
	k := 0
	for b.Loop() {
		k++
		w.surface.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: middle(w).AddXY(float32(20+k%200), float32(k%90))}})
	}
	if w.framing.place.now == nil {
		b.Fatal("nothing is held")
	}
}
