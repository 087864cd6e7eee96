package main

import (
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"stillbeat/board"
	"stillbeat/board/desk"
	"stillbeat/board/share/printed"
)

func TestSharePDF(t *testing.T) {
	inTemp(t)
	teaFilm(t, "tea.stillbeat")
	if out := must(t, "share", "tea.stillbeat", "-o", "tea.pdf"); !strings.HasPrefix(out, "tea.pdf: 2 panels, 56 frames") {
		t.Errorf("it says %q", out)
	}
	text, err := exec.Command("pdftotext", "-layout", "tea.pdf", "-").Output()
	if err != nil {
		t.Fatalf("pdftotext (of poppler-utils): %v", err)
	}
	for _, want := range []string{"Tea", "1/2", "2/2", "24 fps, on twos", "The cup turns", "=A1", "frame 31: blink", "30 frames, 1.25 s"} {
		if !strings.Contains(string(text), want) {
			t.Errorf("the board has no %q:\n%s", want, text)
		}
	}
	before, err := os.ReadFile("tea.pdf")
	if err != nil {
		t.Fatal(err)
	}
	oneLineOf(t, runner{}.run(t, "share", "tea.stillbeat", "-o", "tea.pdf"))
	if after, err := os.ReadFile("tea.pdf"); err != nil || !slices.Equal(after, before) {
		t.Error("a board that is there was replaced unasked")
	}
	must(t, "share", "tea.stillbeat", "-o", "tea.pdf", "--per-page", "1", "--paper", "letter", "--landscape", "--force")
	info, err := exec.Command("pdfinfo", "tea.pdf").Output()
	if err != nil || !strings.Contains(string(info), "Pages:           3\n") || !strings.Contains(string(info), "792 x 612 pts (letter)") {
		t.Errorf("pdfinfo says %v\n%s", err, info)
	}
	if err := withNewFilm("empty.stillbeat", func(*desk.Desk) error { return nil }); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		args, says string
		code       int
	}{
		{"share tea.stillbeat -o b.pdf --per-page 13", `"13" is not a whole number from 1 to 12`, exitUsage},
		{"share tea.stillbeat -o b.pdf --paper a3", `"a3" is not a4 or letter`, exitUsage},
		{"share tea.stillbeat -o b.pdf --size 640x360", "--size is nothing for .pdf", exitUsage},
		{"share tea.stillbeat -o b.mp4 --landscape", "--landscape is nothing for .mp4", exitUsage},
		{"share tea.stillbeat -o b.csv --per-page 2", "--per-page is nothing for .csv", exitUsage},
		{"share empty.stillbeat -o b.pdf", `share "empty.stillbeat": the film has no panels to print`, exitFailed},
	} {
		if res := (runner{}).run(t, strings.Fields(c.args)...); res.code != c.code || !strings.Contains(res.err, c.says) {
			t.Errorf("%s: exit status %d, %q; want %d, %q", c.args, res.code, res.err, c.code, c.says)
		}
	}
	if left, _ := filepath.Glob("*"); !slices.Equal(left, []string{"empty.stillbeat", "tea.pdf", "tea.stillbeat"}) {
		t.Errorf("files %v", left)
	}
}

// The waveform of a film's song reaches paper: that of the file, or none.
func TestPeaksOfTheSong(t *testing.T) {
	inTemp(t)
	err := withNewFilm("tune.stillbeat", func(d *desk.Desk) error {
		if err := d.Do(board.SetTitle("Tune")); err != nil {
			return err
		}
		a := newApp(os.Stdout, os.Stderr)
		wave := func(silent bool) func(from, to float64, n int) []printed.Peak {
			w, err := a.peaks(t.Context(), d, silent, a.meter())
			if err != nil {
				t.Error(err)
			}
			return w
		}
		if wave(false) != nil {
			t.Error("a film without a song has a waveform")
		}
		song, err := a.hearDemo(t.Context())
		if err != nil {
			return err
		}
		if err := d.LaySong(song); err != nil {
			return err
		}
		if wave(true) != nil {
			t.Error("a song that is left out has a waveform")
		}
		loudest := float32(0)
		for _, p := range wave(false)(0, 10, 100) {
			loudest = max(loudest, p.Max, -p.Min)
		}
		if loudest < 0.1 || loudest > 1 {
			t.Errorf("the loudest sample is %g", loudest)
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
}

// A film from a folder has no waveform of its song: the song is read for paper.
func TestPeaksOfAFilmFromAFolder(t *testing.T) {
	inTemp(t)
	err := withNewFilm("film.stillbeat", func(d *desk.Desk) error {
		song, err := newApp(os.Stdout, os.Stderr).hearDemo(t.Context())
		if err == nil {
			err = d.LaySong(song)
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	must(t, "unpack", "film.stillbeat", "tea")
	must(t, "pack", "tea", "again.stillbeat")
	err = viewFilm("again.stillbeat", func(d *desk.Desk) error {
		if d.Waveform() != nil {
			t.Error("the film has a waveform: this tests nothing")
		}
		a := newApp(os.Stdout, os.Stderr)
		wave, err := a.peaks(t.Context(), d, false, a.meter())
		if err == nil && wave == nil {
			t.Error("the song has no waveform on paper")
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
}

// A song that cannot be read is told, and the board is printed without it.
func TestPaperWithoutAReadableSong(t *testing.T) {
	inTemp(t)
	fourPanels(t) // whose song is a text
	must(t, "unpack", "film.stillbeat", "tea")
	must(t, "pack", "tea", "again.stillbeat")
	res := runner{}.run(t, "share", "again.stillbeat", "-o", "again.pdf")
	if _, err := os.Stat("again.pdf"); err != nil || res.code != 0 || !strings.Contains(res.err, "the board has no waveform: ") {
		t.Errorf("exit status %d, %q, %v", res.code, res.err, err)
	}
}
