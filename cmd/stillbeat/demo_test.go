package main

import (
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"stillbeat/assets/demo"
	"stillbeat/board/desk"
	"stillbeat/board/motion"
	"stillbeat/ui"
)

func TestDemo(t *testing.T) {
	inTemp(t)
	dir := filepath.Join("try", "out")
	film := filepath.Join(dir, demoName+".stillbeat")
	animatic := filepath.Join(dir, demoName+".mp4")
	sheet := filepath.Join(dir, demoName+".sheet.pdf")
	beats := filepath.Join(dir, demoName+".beats.csv")
	whole := lastLump()
	whole.draw = flat
	if out, want := (runner{story: &whole}).must(t, "demo", dir), film+"\n"+animatic+"\n"+sheet+"\n"+beats+"\n"; out != want {
		t.Errorf("it says\n%swant\n%s", out, want)
	}
	doc := info(t, film)

	t.Run("the story is told", func(t *testing.T) {
		story := demo.Panels()
		if doc.Title != demo.Title || doc.FPS.Num != 24 || doc.FPS.Den != 1 || doc.Step != 2 || len(doc.Panels) != len(story) {
			t.Fatalf("the film is %+v", doc)
		}
		err := withFilm(film, func(d *desk.Desk) error {
			for i, p := range d.Board().Panels {
				if p.Title != story[i].Title || p.Action != story[i].Action || p.Sound != story[i].Sound || p.Size != story[i].Shot || p.Picture == "" {
					t.Errorf("panel %d has the words %+v", i+1, p.Words)
				}
			}
			scenes, shots := 1, 1
			for _, p := range story[1:] {
				if p.Scene != "" {
					scenes++
				}
				if !p.Same {
					shots++
				}
			}
			if b := d.Board(); len(b.Scenes())-1 != scenes || len(b.Shots())-1 != shots {
				t.Errorf("%d scenes and %d shots, the story has %d and %d", len(b.Scenes())-1, len(b.Shots())-1, scenes, shots)
			}
			return nil
		})
		if err != nil {
			t.Error(err)
		}
	})
	t.Run("panels start on the beats of the story", func(t *testing.T) {
		truth := demo.Beats()
		for i, p := range doc.Panels[1:] {
			want := truth[demo.Panels()[i+1].Start]
			// A half frame of rounding and the 70 ms beats are judged by.
			if got := float64(p.Start) / 24; p.Anchor == nil || math.Abs(got-want) > 0.5/24+0.07 {
				t.Errorf("panel %s starts at %.3f s with the anchor %v, the story wants %.3f s", p.Number, got, p.Anchor, want)
			}
		}
	})
	t.Run("the animatic is the film", func(t *testing.T) {
		p := probe(t, animatic)
		if !slices.Equal(p.kinds(), []string{"video", "audio"}) {
			t.Fatalf("the tracks are %q", p.kinds())
		}
		if v := p.Streams[0]; v.Frames != doc.Frames || v.Rate != "24/1" || v.Width != 1280 || v.Height != 720 {
			t.Errorf("the picture track is %+v, want %d frames", v, doc.Frames)
		}
		if math.Abs(p.Format.Duration-doc.Seconds) > 0.001 {
			t.Errorf("it lasts %.4f s, the film %.4f s", p.Format.Duration, doc.Seconds)
		}
	})
	t.Run("the sheet is a PDF of the film", func(t *testing.T) {
		out, err := exec.Command("pdftotext", "-layout", sheet, "-").Output()
		if err != nil {
			t.Fatalf("pdftotext (of poppler-utils): %v", err)
		}
		pages := strings.Split(strings.TrimSuffix(string(out), "\f"), "\f")
		want := 0 // pages of 96 frames, each shot on its own
		err = withFilm(film, func(d *desk.Desk) error {
			b, starts := d.Board(), d.Board().Starts()
			for shots := b.Shots(); len(shots) > 1; shots = shots[1:] {
				want += int(starts[shots[1]]-starts[shots[0]]+95) / 96
			}
			return nil
		})
		if err != nil || len(pages) != want {
			t.Errorf("the sheet has %d pages, want %d", len(pages), want)
		}
		for i, p := range pages {
			if !strings.Contains(p, demo.Title) || !strings.Contains(p, fmt.Sprintf("%d/%d", i+1, len(pages))) || !strings.Contains(p, "24 fps, on twos") {
				t.Errorf("page %d of the sheet says\n%s", i+1, p)
			}
		}
	})
	t.Run("the beat list is that of the tune", func(t *testing.T) {
		list, err := os.ReadFile(beats)
		if err != nil {
			t.Fatal(err)
		}
		lines := strings.Split(string(list), "\n")
		if lines[0] != "time_s,kind,bar,beat" || strings.Count(string(list), "beat,") < len(demo.Beats())*9/10 {
			t.Errorf("the list has %d lines and begins %q", len(lines), lines[:3])
		}
	})
	t.Run("the thrown lump comes down where it is drawn, within its panel", func(t *testing.T) {
		err := withFilm(film, func(d *desk.Desk) error {
			b := d.Board()
			tables := motion.Tables(b, motion.Limits{})
			if len(tables) != 1 {
				t.Fatalf("%d moves", len(tables))
			}
			for i, p := range demo.Panels() {
				if p.Way == nil {
					continue
				}
				starts, rows := b.Starts(), tables[0].Rows
				lands := slices.IndexFunc(rows, func(r motion.Row) bool { return strings.Contains(r.Moment, "lands") })
				if rows[0].Frame != starts[i] || lands < 0 || rows[lands].Frame < starts[i+1]-6 || rows[lands].Frame >= starts[i+1] {
					t.Errorf("panel %d holds frames %d to %d, the move has %+v", i+1, starts[i], starts[i+1]-1, rows)
				}
				if at := motion.Seen(b.Moves[0].Sight, b.Moves[0].Keys[1]); math.Hypot(at.X-p.Way.To.SeenX, at.Y-p.Way.To.SeenY) > 0.001 {
					t.Errorf("it comes down at %v, drawn at %+v", at, p.Way.To)
				}
			}
			return nil
		})
		if err != nil {
			t.Error(err)
		}
	})
	t.Run("it is not replaced unasked", func(t *testing.T) {
		res := runner{}.run(t, "demo", dir)
		oneLineOf(t, res)
		if !strings.Contains(res.err, "--force") {
			t.Errorf("it says %q", res.err)
		}
	})
	t.Run("a failure takes back only what is new", func(t *testing.T) {
		if err := os.Remove(animatic); err != nil {
			t.Fatal(err)
		}
		oneLineOf(t, runner{ear: earFunc(func() error { return os.ErrInvalid })}.run(t, "demo", dir, "--force"))
		if _, err := os.Stat(film); err != nil {
			t.Error("the film that was there is gone")
		}
	})
}

func TestDemoOpens(t *testing.T) {
	inTemp(t)
	known := knownEar{}
	res := runner{ear: known}.run(t, "demo", "out", "--open")
	if res.code != exitDone || len(res.opened) != 0 || !strings.Contains(res.out, "no display") {
		t.Errorf("without a display: exit status %d, opened %v, said %q", res.code, res.opened, res.out)
	}
	res = runner{ear: known, display: true}.run(t, "demo", "out", "--open", "--force")
	if want := filepath.Join("out", demoName+".stillbeat"); res.code != exitDone || !slices.Equal(res.opened, []string{want}) {
		t.Errorf("with a display: exit status %d, opened %v, want %s", res.code, res.opened, want)
	}
}

func TestDemoInTheWindow(t *testing.T) {
	cache := t.TempDir()
	t.Setenv("XDG_CACHE_HOME", cache)
	var films []string
	r := runner{ear: knownEar{}, display: true, inWindow: func(o ui.Options) {
		film, err := o.Demo() // as the window's own command does
		if err != nil {
			t.Error(err)
		}
		films = append(films, o.Film, film)
	}}
	if res := r.run(t, "demo"); res.code != exitDone || len(films) != 2 {
		t.Fatalf("exit status %d, films %v, said %s", res.code, films, res.err)
	}
	if films[0] == films[1] {
		t.Errorf("%s was written over", films[0])
	}
	for _, film := range films {
		if doc := info(t, film); doc.Title != demo.Title || !strings.HasPrefix(film, cache) {
			t.Errorf("it opened %s with %q", film, doc.Title)
		}
	}
}
