package main

import (
	"bytes"
	"context"
	"os"
	"reflect"
	"strings"
	"testing"

	"stillbeat/board"
	"stillbeat/board/desk"
)

// A film unpacked and packed again is the same film.
func TestUnpackAndPack(t *testing.T) {
	inTemp(t)
	fourPanels(t)
	edit(t, "film.stillbeat",
		board.SetStart(1, board.Start{Anchor: board.Anchor{Beat: 1, Of: 2, Part: 1, Offset: -3}}),
		board.SetStart(2, board.Free(2.5)),
		board.SetPicture([]int{3}, ""),
		board.Write([]int{2}, "words", func(w *board.Words) { w.Action = "leans over\nthe <rim>" }))
	if out, want := must(t, "unpack", "film.stillbeat", "tea"), "tea: film.json, 3 pictures and Кружка.wav\n"; out != want {
		t.Errorf("it says %q, want %q", out, want)
	}
	text, err := os.ReadFile("tea/film.json")
	if err != nil {
		t.Fatal(err)
	}
	golden(t, "unpack.json", string(text))
	want := must(t, "info", "film.stillbeat")
	out := must(t, "pack", "tea", "again.stillbeat")
	if !strings.HasPrefix(out, "again.stillbeat: 4 panels, ") {
		t.Errorf("it says %q", out)
	}
	if got := strings.Replace(must(t, "info", "again.stillbeat"), "again.stillbeat", "film.stillbeat", 1); got != want {
		t.Errorf("the film that came back is\n%s\nwant\n%s", got, want)
	}
	for _, film := range []string{"film.stillbeat", "again.stillbeat"} {
		must(t, "unpack", "--quiet", film, "copy of "+film)
		for _, name := range []string{"film.json", "song/Кружка.wav", "pictures/001 kettle on.png", "pictures/002 茶碗.png", "pictures/003 spoon.png"} {
			sameContent(t, "tea/"+name, "copy of "+film+"/"+name)
		}
	}
}

func sameContent(t *testing.T, a, b string) {
	t.Helper()
	inA, errA := os.ReadFile(a)
	inB, errB := os.ReadFile(b)
	if errA != nil || errB != nil || !bytes.Equal(inA, inB) {
		t.Errorf("%s and %s differ (%v, %v)", a, b, errA, errB)
	}
}

func TestPackReplacesWithForce(t *testing.T) {
	inTemp(t)
	fourPanels(t)
	must(t, "unpack", "film.stillbeat", "tea")
	text, err := os.ReadFile("tea/film.json")
	if err != nil {
		t.Fatal(err)
	}
	write(t, "tea/film.json", bytes.Replace(text, []byte("Tea for 二人"), []byte("Tea for three"), 1))
	oneLineOf(t, runner{}.run(t, "pack", "tea", "film.stillbeat"))
	must(t, "pack", "tea", "film.stillbeat", "--force", "--quiet")
	if title := info(t, "film.stillbeat").Title; title != "Tea for three" {
		t.Errorf("the film is called %q", title)
	}
}

func TestPackSaysWhatIsWrong(t *testing.T) {
	inTemp(t)
	fourPanels(t)
	must(t, "unpack", "film.stillbeat", "tea")
	if err := os.Remove("tea/pictures/003 spoon.png"); err != nil {
		t.Fatal(err)
	}
	res := runner{}.run(t, "pack", "tea", "x.stillbeat")
	oneLineOf(t, res)
	if want := `stillbeat: read folder "tea": film.json: panel 3: "pictures/003 spoon.png": there is no such file or folder` + "\n"; res.err != want {
		t.Errorf("it says %q, want %q", res.err, want)
	}
}

func TestUnpackAnEmptyFilm(t *testing.T) {
	inTemp(t)
	if err := withNewFilm("empty.stillbeat", func(*desk.Desk) error { return nil }); err != nil {
		t.Fatal(err)
	}
	if out, want := must(t, "unpack", "empty.stillbeat", "tea"), "tea: film.json, 0 pictures\n"; out != want {
		t.Errorf("it says %q, want %q", out, want)
	}
	must(t, "pack", "tea", "again.stillbeat")
}

func TestUnpackAndPackStopped(t *testing.T) {
	inTemp(t)
	fourPanels(t)
	must(t, "unpack", "film.stillbeat", "tea")
	before := strings.Join(names(t), " ")
	stopped, cancel := context.WithCancel(t.Context())
	cancel()
	for _, args := range [][]string{{"unpack", "film.stillbeat", "x"}, {"pack", "tea", "x.stillbeat"}} {
		res := runner{ctx: stopped}.run(t, args...)
		oneLineOf(t, res)
		if !strings.Contains(res.err, "stopped") {
			t.Errorf("%s says %q", args[0], res.err)
		}
	}
	if after := strings.Join(names(t), " "); after != before {
		t.Errorf("the folder holds %s, want %s", after, before)
	}
}

// The demo film, with its own tune and words but plain pictures, goes through
// a folder unchanged.
func TestTheDemoAsAFolder(t *testing.T) {
	inTemp(t)
	demo := lastLump()
	demo.draw = flat
	runner{story: &demo}.must(t, "demo", "demo")
	film := "demo/" + demoName + ".stillbeat"
	must(t, "unpack", film, "folder")
	must(t, "pack", "folder", "again.stillbeat")
	want, got := boardOf(t, film), boardOf(t, "again.stillbeat")
	if len(want.Panels) < 10 || !want.OnGrid() || !reflect.DeepEqual(got, want) {
		t.Errorf("the board that came back is\n%+v\nwant\n%+v", got, want)
	}
}

func boardOf(t *testing.T, film string) (b board.Board) {
	t.Helper()
	err := withFilm(film, func(d *desk.Desk) error { b = d.Board(); return nil })
	if err != nil {
		t.Fatal(err)
	}
	return b
}
