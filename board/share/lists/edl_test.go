package lists

import (
	"bytes"
	"fmt"
	"math/rand/v2"
	"strconv"
	"strings"
	"testing"

	"stillbeat/board"
)

func TestCutListGolden(t *testing.T) {
	parts, notes, err := CutList(teaFilm(t), false)
	must(t, err)
	golden(t, "tea.edl", parts[0])
	if len(parts) != 1 || len(notes) != 2 || !strings.Contains(notes[0], "the song is KETTLEWA") || !strings.Contains(notes[1], "fades and the gain") {
		t.Errorf("%d lists, notes %q", len(parts), notes)
	}
}

// The columns and the worked example of trade.md 1.4 [F:cols, F:edl], its
// dissolve of 12 frames from frame 48 on. Reels there are named by shots.
func TestCutListWorkedExample(t *testing.T) {
	b := filmOf(fps(24), 0, 54, 120, 144)
	for i, shot := range []string{"SH010", "SH020"} {
		b.Panels[i].Opens, b.Panels[i].Fixed.Shot = board.OpensShot, shot
	}
	b.Panels[1].Into = board.Transition{Kind: board.Dissolve, Frames: 12}
	b.Panels[2].Opens, b.Panels[2].Picture = board.OpensShot, ""
	b.Title = "BOARD"
	parts, notes, err := CutList(b, false)
	must(t, err)
	want := `TITLE: BOARD
FCM: NON-DROP FRAME
001  SH010    V     C        00:00:00:00 00:00:02:00 01:00:00:00 01:00:02:00
* FROM CLIP NAME: 001_SH010.png
002  SH010    V     C        00:00:02:00 00:00:02:00 01:00:02:00 01:00:02:00
002  SH020    V     D    012 00:00:00:00 00:00:03:00 01:00:02:00 01:00:05:00
* FROM CLIP NAME: 001_SH010.png
* TO CLIP NAME: 002_SH020.png
003  BL       V     C        00:00:00:00 00:00:01:00 01:00:05:00 01:00:06:00
`
	if string(parts[0]) != want || notes != nil {
		t.Errorf("got\n%s\nwant\n%s\nnotes %q", parts[0], want, notes)
	}
}

func TestCutListLimits(t *testing.T) {
	many := make([]board.Frame, 2001)
	for i := range many {
		many[i] = board.Frame(i)
	}
	long := filmOf(fps(8), 0, 200, 400)
	long.Panels[1].Into = board.Transition{Kind: board.Dissolve, Frames: 200}
	alike := filmOf(fps(24), 0, 10, 20, 30)
	for i, n := range []string{"BL", "kettlespoon1", "kettlespoon2"} {
		alike.Panels[i].Opens, alike.Panels[i].Fixed.Shot = board.OpensShot, n
	}
	titled := filmOf(fps(24), 0, 10)
	titled.Title = strings.Repeat("tea ", 30)
	tests := []struct {
		name  string
		film  board.Board
		parts int
		holds []string // of the first list
		note  string   // of which there is one; "" for none
	}{
		{"all fits", filmOf(fps(25), 0, 10), 1, []string{"01:00:00:00 01:00:00:10"}, ""},
		{"2000 events make three lists", filmOf(fps(24), many...), 3, []string{"TITLE: FILM 1\n", "\n999  999 "}, "999 events and the film has 2000: it is written in 3 lists"},
		{"23.976 counts as 24", filmOf(board.FrameRate{Num: 24000, Den: 1001}, 0, 24), 1, []string{"FCM: NON-DROP FRAME", "01:00:01:00"}, ""},
		// The hour is frame 107892 (trade.md 1.2 [F:otio]), 1800 frames on is the
		// first label after two that are skipped.
		{"29.97 drops frames", filmOf(board.FrameRate{Num: 30000, Den: 1001}, 0, 1800), 1, []string{"FCM: DROP FRAME", "01:00:00;00 01:01:00;02"}, ""},
		{"12 is written at 24", filmOf(fps(12), 0, 12, 18), 1, []string{"01:00:01:00 01:00:01:12"}, "12 frames a second have no timecode: the list has 24, and each frame is 2 of them"},
		{"15 is written at 30", filmOf(fps(15), 0, 8), 1, []string{"01:00:00:00 01:00:00:16"}, "the list has 30"},
		{"12.5 is written at 25", filmOf(board.FrameRate{Num: 25, Den: 2}, 0, 5), 1, []string{"01:00:00:00 01:00:00:10"}, "the list has 25"},
		{"18 is rounded", filmOf(fps(18), 0, 7), 1, []string{"01:00:00:00 01:00:00:09"}, "18 frames a second have no timecode: the list has 24, and starts are moved"},
		{"48 is told", filmOf(fps(48), 0, 47), 1, []string{"01:00:00:47"}, "counts 48 frames to a second"},
		{"reels differ and are no black", alike, 1, []string{"001  BL1 ", "002  KETTLESP ", "003  KETTLES1 "}, "panel BL is BL1, and 2 more"},
		{"the title is cut", titled, 1, []string{"TITLE: " + strings.TrimSpace(strings.Repeat("tea ", 30))[:70] + "\n"}, "the title is cut to 70"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			parts, notes, err := CutList(tt.film, false)
			must(t, err)
			if len(parts) != tt.parts {
				t.Fatalf("%d lists, want %d", len(parts), tt.parts)
			}
			for _, want := range tt.holds {
				if !strings.Contains(string(parts[0]), want) {
					t.Errorf("no %q in\n%.2000s", want, parts[0])
				}
			}
			if all := strings.Join(notes, "\n"); tt.note == "" && all != "" || tt.note != "" && (len(notes) != 1 || !strings.Contains(all, tt.note)) {
				t.Errorf("notes %q, want %q", notes, tt.note)
			}
		})
	}
	// At 8 frames a second 200 frames of a dissolve are 600 at 24: 255 are left,
	// around the cut at frame 600.
	parts, notes, err := CutList(long, false)
	must(t, err)
	if len(notes) != 2 || !strings.Contains(notes[1], "at most 255 frames") || !strings.Contains(string(parts[0]), " D    255 ") ||
		!strings.Contains(string(parts[0]), "01:00:00:00 01:00:19:17") { // 600 - 127 = 473
		t.Errorf("notes %q, list\n%s", notes, parts[0])
	}
}

func TestCutListRefuses(t *testing.T) {
	if _, _, err := CutList(board.New(), false); err != ErrEmpty {
		t.Errorf("an empty film: %v", err)
	}
	_, _, err := CutList(filmOf(fps(100), 0, 1, 2), false)
	if err == nil || !strings.Contains(err.Error(), "shorter than a frame at 24 frames a second, panel 1") {
		t.Errorf("one frame at 100 to the second: %v", err)
	}
}

func TestCutListOfTheSong(t *testing.T) {
	tests := []struct {
		name string
		song board.Song
		want string
	}{
		{"begins later", board.Song{Seconds: 9, Offset: 1}, "00:00:00:00 00:00:01:00 01:00:01:00 01:00:02:00"},
		{"begins before the film", board.Song{Seconds: 9, Offset: -1}, "00:00:01:00 00:00:03:00 01:00:00:00 01:00:02:00"},
		{"is trimmed", board.Song{Seconds: 1, Offset: 0.5, TrimIn: 0.25, TrimOut: 0.25}, "00:00:00:06 00:00:00:18 01:00:00:18 01:00:01:06"},
		{"ends before the film", board.Song{Seconds: 1, Offset: -2}, ""},
	}
	for _, tt := range tests {
		b := filmOf(fps(24), 0, 48)
		tt.song.Name = "tune.wav"
		b.Song = &tt.song
		parts, _, err := CutList(b, false)
		must(t, err)
		line := "002  TUNE     AA    C        " + tt.want + "\n* FROM CLIP NAME: tune.wav\n"
		if got := strings.Contains(string(parts[0]), "TUNE"); got != (tt.want != "") || got && !strings.Contains(strings.Replace(string(parts[0]), "001  TUNE", "002  TUNE", 1), line) {
			t.Errorf("%s: got\n%s\nwant %s", tt.name, parts[0], line)
		}
		silent, _, err := CutList(b, true)
		must(t, err)
		if bytes.Contains(silent[0], []byte("TUNE")) {
			t.Errorf("%s: a silent list has the song", tt.name)
		}
	}
}

// In every list the pictures tile the film, sources are as long as what they
// are laid on, transitions fit, events count up and lines have 76 signs.
func TestCutListTiles(t *testing.T) {
	rnd := rand.New(rand.NewPCG(4, 2))
	for range 300 {
		b := randomFilm(rnd, []board.FrameRate{fps(24), fps(25), fps(30), fps(12), fps(8), {Num: 24000, Den: 1001}, fps(18)}[rnd.IntN(7)])
		parts, _, err := CutList(b, true)
		must(t, err)
		at := board.Frame(-1)
		for _, part := range parts {
			n := 0
			for line := range strings.Lines(string(part)) {
				if line = strings.TrimSuffix(line, "\n"); line == "" || line[0] < '0' || line[0] > '9' {
					continue
				}
				if len(line) != 76 {
					t.Fatalf("a line of %d signs: %q", len(line), line)
				}
				var frames [4]board.Frame
				for k, col := range []int{29, 41, 53, 65} {
					var h, m, s, f board.Frame
					if _, err := fmt.Sscanf(line[col:col+11], "%d:%d:%d:%d", &h, &m, &s, &f); err != nil {
						t.Fatal(line, err)
					}
					base := board.Frame(baseOf(b.Rate))
					frames[k] = ((h*60+m)*60+s)*base + f
				}
				if frames[1]-frames[0] != frames[3]-frames[2] {
					t.Fatalf("source and film differ in length: %s", line)
				}
				if at >= 0 && frames[2] != at {
					t.Fatalf("the film goes on at %d, not at %d: %s\n%s", at, frames[2], line, part)
				}
				at = frames[3]
				if len := strings.TrimSpace(line[25:28]); len != "" {
					d, err := strconv.Atoi(len)
					if err != nil || d < 1 || d > 255 || board.Frame(d) > frames[3]-frames[2] {
						t.Fatalf("a transition of %d frames: %s", d, line)
					}
				} else if frames[2] == frames[3] {
					continue // the first line of a transition
				}
				n++
				if got := line[:3]; got != fmt.Sprintf("%03d", n) {
					t.Fatalf("event %s is the %dth", got, n)
				}
			}
		}
		base := board.Frame(baseOf(b.Rate))
		if want := 3600*base + board.Frame(roundedUnits(b.Rate, b.Frames(), int64(base))); b.Rate.Den == 1 && at != want {
			t.Fatalf("the film ends at %d, want %d", at, want)
		}
	}
}

// baseOf returns what a list of a film at one of the rates above counts to.
func baseOf(r board.FrameRate) int64 {
	if n := r.Nominal(); n == 25 || n == 30 {
		return n
	}
	return 24
}

// randomFilm returns a film with passages of all kinds, some panels blank.
func randomFilm(rnd *rand.Rand, rate board.FrameRate) board.Board {
	starts := []board.Frame{0}
	for range 1 + rnd.IntN(30) {
		starts = append(starts, starts[len(starts)-1]+1+board.Frame(rnd.IntN(60)))
	}
	b := filmOf(rate, starts...)
	for i := range b.Panels {
		if kind := board.Passages[rnd.IntN(4)]; kind != board.Cut {
			b.Panels[i].Into = board.Transition{Kind: kind, Frames: 1 + board.Frame(rnd.IntN(80))}
		}
		if rnd.IntN(5) == 0 {
			b.Panels[i].Picture = ""
		}
		if rnd.IntN(4) == 0 {
			b.Panels[i].Opens = board.OpensShot
		}
	}
	return b
}
