package main

import (
	"os"
	"strings"
	"testing"

	"stillbeat/board"
	"stillbeat/board/desk"
)

// TestCommandsOnAFilmInAWindow has a film open to be edited: what only looks
// works and shows what was saved, what writes is refused.
func TestCommandsOnAFilmInAWindow(t *testing.T) {
	inTemp(t)
	fourPanels(t)
	d, err := desk.Open("film.stillbeat")
	if err != nil {
		t.Fatal(err)
	}
	defer d.Close()
	if err := d.Do(board.SetTitle("Tea at last")); err != nil {
		t.Fatal(err)
	}
	if err := d.Flush(); err != nil {
		t.Fatal(err)
	}
	before, err := os.ReadFile("film.stillbeat")
	if err != nil {
		t.Fatal(err)
	}
	r := runner{ear: knownEar{}}
	for _, c := range []struct {
		args string
		code int
		says string
	}{
		{"info film.stillbeat", 0, "Tea at last"},
		{"info film.stillbeat --json", 0, `"title":"Tea at last"`},
		{"share film.stillbeat -o a.mp4 --silent --size 64x36", 0, "a.mp4: 4 panels"},
		{"unpack film.stillbeat folder", 0, ""},
		{"snap film.stillbeat --to beat", 1, `open film "film.stillbeat": the film is already open in another window`},
		{"beats film.stillbeat --times 2", 1, `open film "film.stillbeat": the film is already open in another window`},
	} {
		t.Run(c.args, func(t *testing.T) {
			got := r.run(t, strings.Fields(c.args)...)
			if got.code != c.code || !strings.Contains(got.out+got.err, c.says) {
				t.Errorf("exit status %d, it says %q%q", got.code, got.out, got.err)
			}
		})
	}
	after, err := os.ReadFile("film.stillbeat")
	if err != nil || string(after) != string(before) {
		t.Errorf("the film was written to, %v", err)
	}
}
