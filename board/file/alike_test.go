package file

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io/fs"
	"math/rand/v2"
	"path/filepath"
	"strings"
	"testing"

	"stillbeat/board"
)

// growing returns the bytes of sketches that grow by a stroke each.
func growing(t testing.TB, n int) (out [][]byte) {
	t.Helper()
	rnd := rand.New(rand.NewPCG(2, 8))
	var s board.Sketch
	for range n {
		k := board.Stroke{Layer: board.Middle, Width: 90}
		for range 30 {
			k.Dots = append(k.Dots, board.Dot{X: int32(rnd.IntN(9000)), Y: int32(rnd.IntN(9000)), Wide: uint8(rnd.IntN(256))})
		}
		s.Strokes = append(s.Strokes, k)
		data, err := board.EncodeSketch(s)
		if err != nil {
			t.Fatal(err)
		}
		out = append(out, data)
	}
	return out
}

// drawnFilm returns a film whose one panel went through so many sketches.
func drawnFilm(t testing.TB, n int) (path string, sketches [][]byte, ids []board.MediaID) {
	t.Helper()
	path = filepath.Join(t.TempDir(), "drawn"+Ext)
	b := longBoard(1, 0, 0)
	f := mustCreate(t, path, b)
	sketches = growing(t, n)
	last := board.MediaID("")
	for _, data := range sketches {
		made, err := f.AddMedia(Sketch, Media{Name: "sketch", Data: data, Base: last})
		if err != nil {
			t.Fatal(err)
		}
		last = made[0]
		ids = append(ids, last)
	}
	b.Panels[0].Picture, b.Panels[0].Drawn = "", &board.Drawn{Sketch: last}
	if err := f.SaveBoard(b); err != nil {
		t.Fatal(err)
	}
	mustClose(t, f)
	return path, sketches, ids
}

func TestSketchesMadeOfEachOther(t *testing.T) {
	path, sketches, ids := drawnFilm(t, 3*maxAlike)
	f, _ := mustOpen(t, path)
	defer mustClose(t, f)
	for i, id := range ids {
		if got, err := f.Media(id); err != nil || !bytes.Equal(got, sketches[i]) {
			t.Fatalf("sketch %d is read as %d bytes, %v", i, len(got), err)
		}
	}
	if whole, alike := countRows(t, f, "content"), countRows(t, f, "alike"); whole < 3 || whole > 6 || whole+alike != 3*maxAlike {
		t.Errorf("%d sketches are whole and %d made of others, want 3 to 6 of %d", whole, alike, 3*maxAlike)
	}
	if _, err := f.Media(board.MediaID(fmt.Sprintf("%064x", 1))); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("a sketch that is not there: %v", err)
	}
	if _, err := f.Compact(); err != nil {
		t.Fatal(err)
	}
	last := len(ids) - 1
	if got, err := f.Media(ids[last]); err != nil || !bytes.Equal(got, sketches[last]) {
		t.Errorf("compacted, the last sketch is %d bytes, %v", len(got), err)
	}
	if whole, alike := countRows(t, f, "content"), countRows(t, f, "alike"); whole != 1 || alike != 0 {
		t.Errorf("compacted, %d sketches are whole and %d made of others", whole, alike)
	}
}

// Sketches that are damaged, or made of themselves, are not returned; what can
// be put together is salvaged.
func TestDamagedSketchesMadeOfEachOther(t *testing.T) {
	for name, c := range map[string]struct {
		statement string
		readable  bool
	}{
		"whole":              {`SELECT 1`, true},
		"the first is gone":  {`DELETE FROM content`, false},
		"another patch":      {`UPDATE alike SET data = x'0161'`, false},
		"no patch":           {`UPDATE alike SET data = x''`, false},
		"made of themselves": {`UPDATE alike SET base = id`, false},
		"one is gone":        {`DELETE FROM alike WHERE rowid = 3`, false},
	} {
		path, sketches, ids := drawnFilm(t, 8)
		db := connect(source(path))
		if _, err := db.Exec(`PRAGMA foreign_keys = OFF; ` + c.statement); err != nil {
			t.Fatal(err)
		}
		db.Close()
		f, _ := mustOpen(t, path)
		got, err := f.Media(ids[7])
		if c.readable != (err == nil && bytes.Equal(got, sketches[7])) || !c.readable && !errors.Is(err, ErrDamaged) {
			t.Errorf("%s: %d bytes, %v", name, len(got), err)
		}
		mustClose(t, f)
		s, b, err := Salvage(context.Background(), path)
		if err != nil {
			t.Fatal(err)
		}
		if said := strings.Contains(strings.Join(s.Missing(), "\n"), "1 of 1 drawing is damaged or missing"); said == c.readable {
			t.Errorf("%s: %q is said", name, s.Missing())
		}
		checkMended(t, s, b, s.Missing())
		mustClose(t, s)
	}
}

func TestLikeness(t *testing.T) {
	rnd := rand.New(rand.NewPCG(4, 4))
	base := noise(5000, 3)
	for name, data := range map[string][]byte{
		"nothing":         nil,
		"the same":        base,
		"more at the end": append(bytes.Clone(base), noise(70, 4)...),
		"a byte changed":  changed(base, 1000, base[1000]+1),
		"a part gone":     append(bytes.Clone(base[:1203]), base[1377:]...),
		"parts changed":   append(append(bytes.Clone(base[3000:]), byte(rnd.IntN(256))), base[:3000]...),
		"all different":   noise(300, 5),
		"short":           []byte("ab"),
	} {
		likeness := makeLikeness(base, data)
		if got, err := applyLikeness(base, likeness, maxSketch); err != nil || !bytes.Equal(got, data) {
			t.Errorf("%s: %d bytes become %d, %v", name, len(data), len(got), err)
		}
		if most := 200; name != "all different" && len(likeness) > most {
			t.Errorf("%s takes %d bytes, want at most %d", name, len(likeness), most)
		}
	}
}

func FuzzLikeness(f *testing.F) {
	base := noise(200, 6)
	f.Add(base, makeLikeness(base, base[40:]), base[:90])
	f.Add([]byte{}, []byte{1, 2, 3}, []byte{})
	f.Fuzz(func(t *testing.T, base, likeness, data []byte) {
		const limit = 1 << 16
		if got, err := applyLikeness(base, likeness, limit); err == nil && len(got) > limit+len(likeness) {
			t.Errorf("%d bytes of %d and %d", len(got), len(base), len(likeness))
		}
		if got, err := applyLikeness(base, makeLikeness(base, data), 1<<30); err != nil || !bytes.Equal(got, data) {
			t.Errorf("%d bytes become %d, %v", len(data), len(got), err)
		}
	})
}
