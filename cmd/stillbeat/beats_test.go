package main

import (
	"image/color"
	"strings"
	"testing"

	"stillbeat/board"
)

// Beats set by hand, from the command line, on a film that has no song: its
// panels are then laid on the click.
func TestBeatsByHand(t *testing.T) {
	inTemp(t)
	writePicture(t, "a.png", color.White)
	writePicture(t, "b.png", color.Black)
	must(t, "new", "film.stillbeat", "a.png", "b.png")
	for _, step := range []struct{ args, says string }{
		{"--tempo 120", "film.stillbeat: 1201 beats from 0.000 s to 600.000 s, 120.00 a minute\n"},
		{"--times 1/2", ", 60.00 a minute\n"},
		{"--times 2 --slide -250", " from -0.250 s to 599.750 s, 120.00 a minute\n"},
		// 13-3 is 1440/13.375 = 107.66 (trade notes 2.1).
		{"--click 13-3 --at 0.5 --bars 3 --from 2", ", 107.66 a minute\n"},
	} {
		out := must(t, append([]string{"beats", "film.stillbeat"}, strings.Fields(step.args)...)...)
		if !strings.HasSuffix(out, step.says) {
			t.Errorf("beats %s says %q, want it to end in %q", step.args, out, step.says)
		}
	}
	edit(t, "film.stillbeat", board.SetStart(1, board.Free(0.97)))
	must(t, "snap", "film.stillbeat", "--to", "beat")
	if p := info(t, "film.stillbeat").Panels[1]; p.Anchor == nil || p.Start != 25 { // 0.5 s + 60/107.66 s = frame 25.4
		t.Errorf("panel 2 starts on frame %d with anchor %+v, want a beat at frame 25", p.Start, p.Anchor)
	}
}

func TestBeatsRefused(t *testing.T) {
	inTemp(t)
	writePicture(t, "a.png", color.White)
	must(t, "new", "film.stillbeat", "a.png")
	for _, tt := range []struct {
		args string
		code int
		says string
	}{
		{"", exitUsage, "say what to do"},
		{"--tempo 100 --click 12-0", exitUsage, "exclude each other"},
		{"--click twelve", exitUsage, "twelve"},
		{"--times 4", exitUsage, `--times is 2, 1/2, 3/2 or 2/3, not "4"`},
		{"--tempo 0", exitFailed, `"film.stillbeat"`},
		{"--times 2", exitFailed, `"film.stillbeat"`},
		{"--bars 40", exitFailed, `"film.stillbeat"`},
	} {
		res := runner{}.run(t, append([]string{"beats", "film.stillbeat"}, strings.Fields(tt.args)...)...)
		if res.code != tt.code || !strings.Contains(res.err, tt.says) {
			t.Errorf("beats %s: exit status %d, %q; want %d and %q", tt.args, res.code, res.err, tt.code, tt.says)
		}
	}
}
