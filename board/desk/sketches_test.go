package desk

import (
	"errors"
	"fmt"
	"image/color"
	"io/fs"
	"os"
	"path/filepath"
	"reflect"
	"testing"
	"time"

	"stillbeat/board"
)

// strokesOf returns a sketch of n strokes of 20 dots.
func strokesOf(n int) board.Sketch {
	var s board.Sketch
	for i := range n {
		k := board.Stroke{Layer: board.Middle, Smooth: true, Ink: color.NRGBA{40, 30, 20, 255}, Width: 120}
		for d := range 20 {
			k.Dots = append(k.Dots, board.Dot{X: int32(i*137%9000 + d*211), Y: int32(i*91%7000 - d*d*13), Wide: uint8(200 + i*d%50)})
		}
		s.Strokes = append(s.Strokes, k)
	}
	return s
}

func drawnFilm(t testing.TB) (*Desk, string) {
	path := filepath.Join(t.TempDir(), "drawn.stillbeat")
	d, err := Create(path, board.New())
	if err != nil {
		t.Fatal(err)
	}
	if err := d.Do(board.Insert(0, make([]board.Panel, 1), 1)); err != nil {
		t.Fatal(err)
	}
	return d, path
}

func drawStrokes(t testing.TB, d *Desk, n int) {
	id, err := d.KeepSketch(strokesOf(n), d.Board().Panels[0].Drawing().Sketch)
	if err == nil {
		err = d.Do(board.DrawOn(0, "stroke", id))
	}
	if err != nil {
		t.Fatal(err)
	}
}

func TestEachStrokeIsAStep(t *testing.T) {
	d, path := drawnFilm(t)
	for n := range 4 {
		drawStrokes(t, d, n+1)
	}
	at := func(d *Desk) int {
		t.Helper()
		s, err := d.Sketch(d.Board().Panels[0].Drawing().Sketch)
		if err != nil {
			t.Fatal(err)
		}
		if n := len(s.Strokes); !reflect.DeepEqual(s, strokesOf(n)) {
			t.Errorf("%d strokes, but not those that were drawn", n)
		}
		return len(s.Strokes)
	}
	if d.UndoName() != "stroke of panel 1" || at(d) != 4 {
		t.Errorf("undo takes back %q, with %d strokes", d.UndoName(), at(d))
	}
	if err := d.Close(); err != nil {
		t.Fatal(err)
	}
	d, err := Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer d.Close()
	for want := 4; want > 0; want-- {
		if at(d) != want {
			t.Errorf("after opening and undo there are %d strokes, want %d", at(d), want)
		}
		d.Undo()
	}
	if id := d.Board().Panels[0].Drawing().Sketch; id != "" {
		t.Errorf("before the first stroke there is the sketch %q", id)
	}
	if id, err := d.KeepSketch(board.Sketch{}, ""); id != "" || err != nil {
		t.Errorf("an empty sketch is kept as %q, %v", id, err)
	}
}

// A sketch that could not be written is in the film all the same, and in a copy
// saved elsewhere.
func TestUnwrittenSketchesAreNotLost(t *testing.T) {
	d, path := drawnFilm(t)
	if err := d.Flush(); err != nil {
		t.Fatal(err)
	}
	d.OnTrouble = func(error) {}
	d.store.Close() // nothing can be written from here on
	drawStrokes(t, d, 2)
	if err := d.Flush(); err == nil {
		t.Fatal("a closed file is written to")
	}
	id := d.Board().Panels[0].Drawing().Sketch
	if s, err := d.Sketch(id); err != nil || len(s.Strokes) != 2 {
		t.Errorf("the sketch has %d strokes, %v", len(s.Strokes), err)
	}
	other, err := Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer other.Close()
	if _, err := other.Media(id); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("the file has the sketch: %v", err)
	}
	if n, err := (sketchSaver{other.store, &d.unsaved}).saveSketches(); n != 1 || err != nil {
		t.Fatalf("%d sketches written elsewhere, %v", n, err)
	}
	if s, err := other.Sketch(id); err != nil || len(s.Strokes) != 2 {
		t.Errorf("elsewhere the sketch has %d strokes, %v", len(s.Strokes), err)
	}
	if d.unsaved.of(id) == nil {
		t.Error("writing a copy drops it from the film itself")
	}
}

// Five hundred strokes on one panel: what the file takes and what each costs.
func TestSizeOfFiveHundredStrokes(t *testing.T) {
	if testing.Short() {
		t.Skip("it takes a while")
	}
	d, path := drawnFilm(t)
	began := time.Now()
	for n := 1; n <= 500; n++ {
		drawStrokes(t, d, n)
		if n%5 == 0 { // a hand is slower than this loop: let some be written one by one
			if err := d.Flush(); err != nil {
				t.Fatal(err)
			}
		}
	}
	took := time.Since(began)
	last, err := board.EncodeSketch(strokesOf(500))
	if err != nil {
		t.Fatal(err)
	}
	if err := d.Close(); err != nil {
		t.Fatal(err)
	}
	info, err := os.Stat(path)
	if err != nil {
		t.Fatal(err)
	}
	t.Logf("%d KB for a sketch of %d KB, %s a stroke", info.Size()>>10, len(last)>>10, took/500)
	if most := int64(2<<20 + 10*len(last)); info.Size() > most {
		t.Errorf("the film has %d KB after 500 strokes, want at most %d", info.Size()>>10, most>>10)
	}
}

func ExampleDesk_KeepSketch() {
	dir, err := os.MkdirTemp("", "stillbeat-example")
	if err != nil {
		panic(err)
	}
	defer os.RemoveAll(dir)
	d, err := Create(filepath.Join(dir, "spoon.stillbeat"), board.New())
	if err != nil {
		panic(err)
	}
	defer d.Close()
	d.Do(board.Insert(0, make([]board.Panel, 1), 1))
	line := board.Stroke{Layer: board.Middle, Ink: color.NRGBA{A: 255}, Width: 100, Dots: []board.Dot{{X: -4000, Wide: 255}, {X: 4000, Wide: 255}}}
	id, err := d.KeepSketch(board.Sketch{Strokes: []board.Stroke{line}}, "")
	if err != nil {
		panic(err)
	}
	d.Do(board.DrawOn(0, "stroke", id))
	s, err := d.Sketch(d.Board().Panels[0].Drawing().Sketch)
	fmt.Println(len(s.Strokes), d.UndoName(), err)
	// Output: 1 stroke of panel 1 <nil>
}
