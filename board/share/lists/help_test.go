package lists

import (
	"flag"
	"os"
	"path/filepath"
	"testing"

	"stillbeat/board"
)

var update = flag.Bool("update", false, "rewrite golden files")

// golden compares got with testdata/name.
func golden(t *testing.T, name string, got []byte) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if *update {
		must(t, os.WriteFile(path, got, 0o644))
	}
	want, err := os.ReadFile(path)
	must(t, err)
	if string(got) != string(want) {
		t.Errorf("%s differs (go test -update rewrites it)\ngot:\n%s\nwant:\n%s", name, got, want)
	}
}

func must(t testing.TB, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

// filmOf returns a film at a rate whose panels, all with a picture, start at
// the given frames; the last is its end.
func filmOf(rate board.FrameRate, starts ...board.Frame) board.Board {
	b := board.New()
	b.Rate = rate
	for i, f := range starts {
		if i == len(starts)-1 {
			b.End = board.Free(rate.Seconds(f))
			break
		}
		b.Panels = append(b.Panels, board.Panel{ID: b.NextID, Start: board.Free(rate.Seconds(f)), Picture: "p"})
		b.NextID++
	}
	return b
}

func fps(n int64) board.FrameRate { return board.FrameRate{Num: n, Den: 1} }

// teaFilm is a film with everything in it that a list may carry.
func teaFilm(t testing.TB) board.Board {
	b := filmOf(fps(24), 0, 48, 120, 144, 168, 240)
	b.Title = "Tea for two"
	b.Song = &board.Song{Name: "kettle waltz.wav", Media: "s", Seconds: 9, Offset: 0.5, TrimIn: 0.25, FadeOut: 1}
	b.Grid = board.NewGrid([]float64{0, 0.5, 1, 1.5, 2, 2.5, 3}, []float64{0.5, 2})
	b.Panels[1].Start = board.Start{Time: 2, Anchor: board.Anchor{Beat: 3, Of: 1}}
	b.Panels[1].Opens = board.OpensShot
	b.Panels[0].Words = board.Words{Title: "cup, alone", Action: `the cup says "tea"`, Sound: "Anyone?\r\n\r\nNo one.", Size: "CU"}
	b.Panels[1].Words = board.Words{Title: "spoon", Sound: "<clink> & --> {\\an8}", Note: "=1+1", Marks: board.Marks{Rig: true, Plate: true}}
	b.Panels[2].Words = board.Words{Sound: " \n ", Note: "- slowly\nand late", Camera: "pan left"}
	b.Panels[4].Words = board.Words{Title: "茶碗", Sound: "おしまい"}
	b.Panels[1].Into = board.Transition{Kind: board.Dissolve, Frames: 12}
	b.Panels[2].Into = board.Transition{Kind: board.Fade, Frames: 16}
	b.Panels[4].Into = board.Transition{Kind: board.Wipe, Frames: 8}
	b.Panels[3].Picture = ""
	must(t, b.Check())
	return b
}
