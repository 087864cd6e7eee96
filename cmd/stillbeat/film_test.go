package main

import (
	"fmt"
	"image/color"
	"math"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"stillbeat/board"
	"stillbeat/board/desk"
)

// fourPanels makes film.stillbeat of four pictures on every second beat of
// the song that knownEar hears.
func fourPanels(t *testing.T) {
	t.Helper()
	write(t, "Кружка.wav", []byte("x"))
	for i, name := range []string{"kettle_on.png", "茶碗.png", "spoon.png", "last.png"} {
		writePicture(t, name, color.Gray{Y: uint8(50 * i)})
	}
	runner{ear: knownEar{}}.must(t, "new", "film.stillbeat", "--song", "Кружка.wav", "--fps", "23.976", "--every", "2",
		"--step", "2", "--title", "Tea for 二人", "kettle_on.png", "茶碗.png", "spoon.png", "last.png")
}

func TestNewSaysWhatItMade(t *testing.T) {
	inTemp(t)
	writePicture(t, "a.png", color.White)
	write(t, "song.wav", []byte("x"))
	r := runner{ear: knownEar{}}
	tests := []struct{ name, args, want string }{
		{"without a song", "new one.stillbeat a.png",
			"one.stillbeat: 1 panel, 24 frames (1.000 s) at 24 fps on ones, 24 exposures\n"},
		{"replaced by one on a song", "new one.stillbeat --force --song song.wav --fps 12 --step 5 a.png a.png",
			"one.stillbeat: 2 panels, 15 frames (1.250 s) at 12 fps on 5s, 4 exposures\n"},
		{"quietly", "new two.stillbeat -q a.png", ""},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if out := r.must(t, strings.Fields(tt.args)...); out != tt.want {
				t.Errorf("it says %q, want %q", out, tt.want)
			}
		})
	}
	writeSong(t, "silence.wav", 3, nil, nil)
	if out := must(t, "new", "still.stillbeat", "--song", "silence.wav", "a.png"); !strings.Contains(out, "no steady beat was found") {
		t.Errorf("it says %q", out)
	}
}

// TestNewTakesFoldersAndWhatIsWhole: one picture that cannot be read keeps no
// other from coming in, and a folder has its own in natural order.
func TestNewTakesFoldersAndWhatIsWhole(t *testing.T) {
	inTemp(t)
	if err := os.MkdirAll("sketches/older", 0o755); err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"sketches/cup 10.png", "sketches/cup 2.png", "spoon.png"} {
		writePicture(t, name, color.White)
	}
	write(t, "sketches/cup 3.png", []byte("x"))
	write(t, "sketches/props.txt", []byte("x"))
	write(t, "sketches/.cup 1.png", []byte("x"))
	write(t, "sketches/lamp.HEIC", []byte("x"))
	res := runner{}.run(t, "new", "film.stillbeat", "spoon.png", "sketches", "gone.png")
	if res.code != 1 || !strings.HasPrefix(res.out, "film.stillbeat: 3 panels,") {
		t.Errorf("exit status %d, it says %q", res.code, res.out)
	}
	if strings.Count(res.err, "\n") != 1 {
		t.Errorf("it says %q, want one line", res.err)
	}
	for _, want := range []string{`"film.stillbeat" is made without`, `"cup 3.png": not a PNG`, `"lamp.HEIC": not a PNG`, `"gone.png": there is no such file`} {
		if !strings.Contains(res.err, want) {
			t.Errorf("it says %q, want %q in it", res.err, want)
		}
	}
	if strings.Contains(res.err, "props") || strings.Contains(res.err, "cup 1.") {
		t.Errorf("it says %q of what is no picture", res.err)
	}
	var got []string
	for _, p := range boardOf(t, "film.stillbeat").Panels {
		got = append(got, p.Title)
	}
	if want := []string{"spoon", "cup 2", "cup 10"}; !slices.Equal(got, want) {
		t.Errorf("the panels are %q, want %q", got, want)
	}
}

func TestInfoForPeople(t *testing.T) {
	inTemp(t)
	fourPanels(t)
	edit(t, "film.stillbeat",
		board.SetStart(1, board.Start{Anchor: board.Anchor{Beat: 1, Of: 2, Part: 1, Offset: -3}}),
		board.SetStart(2, board.Free(2.5)),
		board.SetPicture([]int{3}, ""),
		board.Write([]int{3}, "words", func(w *board.Words) { w.Title = "Over\nand out\x1b[2J" }))
	golden(t, "info.txt", must(t, "info", "film.stillbeat"))
}

func edit(t *testing.T, film string, edits ...board.Edit) {
	t.Helper()
	if err := withFilm(film, func(d *desk.Desk) error { return doAll(d, edits...) }); err != nil {
		t.Fatal(err)
	}
}

func TestInfoOfAnEmptyFilm(t *testing.T) {
	inTemp(t)
	if err := withNewFilm("empty.stillbeat", func(*desk.Desk) error { return nil }); err != nil {
		t.Fatal(err)
	}
	golden(t, "info-empty.txt", must(t, "info", "empty.stillbeat"))
	out := must(t, "info", "empty.stillbeat", "--json")
	for _, want := range []string{`"song":null`, `"panels":[]`, `"frames":0`} {
		if !strings.Contains(out, want) {
			t.Errorf("%s has no %s", out, want)
		}
	}
	res := runner{}.run(t, "share", "empty.stillbeat", "-o", "empty.mp4")
	oneLineOf(t, res)
	if !strings.Contains(res.err, `"empty.stillbeat": the film has no panels`) {
		t.Errorf("it says %q", res.err)
	}
}

// filmDocument is the document of info --json as other programs rely on it.
type filmDocument struct {
	File      string                   `json:"file"`
	Title     string                   `json:"title"`
	FPS       struct{ Num, Den int64 } `json:"fps"`
	Step      int                      `json:"step"`
	Frames    int64                    `json:"frames"`
	Seconds   float64                  `json:"seconds"`
	Exposures int64                    `json:"exposures"`
	Song      *struct {
		Name    string  `json:"name"`
		Seconds float64 `json:"seconds"`
		Offset  float64 `json:"offset_seconds"`
	} `json:"song"`
	Panels []struct {
		Number  string                                `json:"number"`
		Title   string                                `json:"title"`
		Start   int64                                 `json:"start"`
		Hold    int64                                 `json:"hold"`
		Anchor  *struct{ Beat, Of, Part, Offset int } `json:"anchor"`
		Picture bool                                  `json:"picture"`
	} `json:"panels"`
}

func info(t *testing.T, film string) filmDocument {
	t.Helper()
	var doc filmDocument
	decodeStrict(t, must(t, "info", film, "--json"), &doc)
	return doc
}

func TestInfoJSON(t *testing.T) {
	inTemp(t)
	fourPanels(t)
	out := must(t, "info", "film.stillbeat", "--json")
	keys(t, out, "", "file", "title", "fps", "step", "frames", "seconds", "exposures", "song", "panels")
	keys(t, out, "fps", "num", "den")
	keys(t, out, "song", "name", "seconds", "offset_seconds")
	keys(t, out, "panels.0", "number", "title", "start", "hold", "anchor", "picture")
	keys(t, out, "panels.1.anchor", "beat", "of", "part", "offset")

	doc := info(t, "film.stillbeat")
	if doc.File != "film.stillbeat" || doc.Title != "Tea for 二人" || doc.FPS.Num != 24000 || doc.FPS.Den != 1001 || doc.Step != 2 {
		t.Errorf("it says %+v", doc)
	}
	if doc.Song == nil || doc.Song.Name != "Кружка.wav" || doc.Song.Seconds != 12 || doc.Song.Offset != 0 {
		t.Errorf("the song is %+v", doc.Song)
	}
	// Beat 2 is at 1.25 s, beat 4 at 2.25 s and so on: each is rounded to its
	// nearest frame at 24000/1001 frames a second from its own time.
	var frames int64
	for i, p := range doc.Panels {
		if want := strconv.Itoa(i + 1); p.Number != want || p.Start != frames || !p.Picture {
			t.Errorf("panel %s: %+v, want it to start at frame %d", want, p, frames)
		}
		frames = int64(math.Round((0.25 + float64(i+1)) * 24000 / 1001))
		if p.Start+p.Hold != frames {
			t.Errorf("panel %d ends at frame %d, want %d", i+1, p.Start+p.Hold, frames)
		}
		if i == 0 && p.Anchor != nil || i > 0 && (p.Anchor == nil || p.Anchor.Beat != 2*i || p.Anchor.Of != 1) {
			t.Errorf("panel %d has the anchor %+v", i+1, p.Anchor)
		}
	}
	if doc.Frames != frames || math.Abs(doc.Seconds-float64(frames)*1001/24000) > 1e-6 || doc.Exposures < frames/2 {
		t.Errorf("%d frames, %f s, %d exposures", doc.Frames, doc.Seconds, doc.Exposures)
	}
	if doc.Panels[0].Title != "kettle on" || doc.Panels[1].Title != "茶碗" {
		t.Errorf("titles %q, %q", doc.Panels[0].Title, doc.Panels[1].Title)
	}
}

func TestAnchorText(t *testing.T) {
	tests := []struct {
		anchor board.Anchor
		want   string
	}{
		{board.Anchor{}, "free"},
		{board.Anchor{Beat: 0, Of: 1}, "1"},
		{board.Anchor{Beat: 4, Of: 3, Part: 2}, "5 + 2/3"},
		{board.Anchor{Beat: 4, Of: 1, Offset: -1}, "5, 1 frame early"},
		{board.Anchor{Beat: 4, Of: 2, Part: 1, Offset: 2}, "5 + 1/2, 2 frames late"},
	}
	for _, tt := range tests {
		if got := anchorText(board.Start{Anchor: tt.anchor}); got != tt.want {
			t.Errorf("anchorText(%+v) = %q, want %q", tt.anchor, got, tt.want)
		}
	}
}

func TestSnap(t *testing.T) {
	inTemp(t)
	fourPanels(t)
	edit(t, "film.stillbeat", board.SetStart(1, board.Free(1.1)), board.SetStart(2, board.Free(2.8)))
	for _, step := range []struct{ to, want string }{
		// 1.1 s (frame 26) goes to the beat at 1.25 s (frame 30), 2.8 s
		// (frame 67) to the one at 2.75 s (frame 66).
		{"beat", "film.stillbeat: 2 starts moved, the furthest by 4 frames\n"},
		{"beat", "film.stillbeat: every start was in place already\n"},
	} {
		if out := must(t, "snap", "film.stillbeat", "--to", step.to); out != step.want {
			t.Errorf("snap --to %s says %q, want %q", step.to, out, step.want)
		}
	}
	got := ""
	for _, p := range info(t, "film.stillbeat").Panels[1:] {
		got += fmt.Sprint(p.Start, ":", p.Anchor.Beat, " ")
	}
	if want := "30:2 66:5 78:6 "; got != want {
		t.Errorf("starts and beats %s, want %s", got, want)
	}
	must(t, "snap", "film.stillbeat", "--to", "beat", "--lead", "2", "--quiet")
	if p := info(t, "film.stillbeat").Panels[1]; p.Start != 28 || p.Anchor.Offset != -2 {
		t.Errorf("with a lead of two frames panel 2 starts at %d, %+v", p.Start, p.Anchor)
	}
	edit(t, "film.stillbeat", board.AddMarker(board.Marker{Start: board.Free(0.9)}), board.AddMarker(board.Marker{Start: board.Free(2)}), board.AddMarker(board.Marker{Start: board.Free(3)}), board.AddMarker(board.Marker{Start: board.Free(4)}))
	for _, to := range board.Targets {
		must(t, "snap", "film.stillbeat", "--to", string(to), "--shortest", "1", "--quiet")
	}
}

// The whole job on real files: a song and pictures in, an animatic out.
func TestFromSongToAnimatic(t *testing.T) {
	inTemp(t)
	truth := clicks(0.5, 0.5, 24) // 120 beats a minute
	writeSong(t, "my song.wav", 13, truth, everyNth(truth, 4))
	for i := range 5 {
		writePicture(t, fmt.Sprintf("picture %d.png", i), color.Gray{Y: uint8(40 * i)})
	}
	must(t, "new", "--song", "my song.wav", "--every", "4", "--", "-dance.stillbeat",
		"picture 0.png", "picture 1.png", "picture 2.png", "picture 3.png", "picture 4.png")
	edit(t, "-dance.stillbeat", board.SetStart(3, board.Free(6.7)))
	must(t, "snap", "--to", "beat", "--", "-dance.stillbeat")

	var film filmDocument
	decodeStrict(t, must(t, "info", "--json", "--", "-dance.stillbeat"), &film)
	for _, p := range film.Panels[1:] {
		if p.Anchor == nil {
			t.Fatalf("panel %s is not on a beat", p.Number)
		}
		at := float64(p.Start) / 24
		// A half frame of rounding and the 70 ms beats are judged by.
		if off := math.Abs(at - nearest(truth, at)); off > 0.5/24+0.07 {
			t.Errorf("panel %s starts at %.3f s, %.0f ms off the click", p.Number, at, 1000*off)
		}
	}
	tests := []struct {
		name  string
		args  []string
		kinds []string
	}{
		{"with sound", nil, []string{"video", "audio"}},
		{"silent", []string{"--silent", "--force"}, []string{"video"}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			args := append([]string{"share", "-o", "dance.mp4", "--size", "640x360"}, tt.args...)
			if out := must(t, append(args, "--", "-dance.stillbeat")...); !strings.HasPrefix(out, "dance.mp4: 5 panels, ") {
				t.Errorf("it says %q", out)
			}
			p := probe(t, "dance.mp4")
			if !slices.Equal(p.kinds(), tt.kinds) {
				t.Errorf("the tracks are %q, want %q", p.kinds(), tt.kinds)
			}
			if v := p.Streams[0]; v.Frames != film.Frames || v.Rate != "24/1" || v.Width != 640 || v.Height != 360 {
				t.Errorf("the picture track is %+v, want %d frames", v, film.Frames)
			}
			if math.Abs(p.Format.Duration-film.Seconds) > 0.001 {
				t.Errorf("it lasts %.4f s, the film %.4f s", p.Format.Duration, film.Seconds)
			}
		})
	}
}
