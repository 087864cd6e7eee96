package main

import (
	"fmt"
	"image/color"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"stillbeat/board"
	"stillbeat/board/desk"
)

// talkingPanels is fourPanels with words, a dissolve and a panel without a
// picture.
func talkingPanels(t *testing.T) {
	t.Helper()
	fourPanels(t)
	edit(t, "film.stillbeat",
		board.SetStart(1, board.Start{Anchor: board.Anchor{Beat: 1, Of: 2, Part: 1, Offset: -3}}),
		board.SetStart(2, board.Free(2.5)),
		board.SetTransition([]int{1}, board.Transition{Kind: board.Dissolve, Frames: 12}),
		board.SetPicture([]int{3}, ""),
		board.AddMarker(board.Marker{Start: board.Free(1), Name: "steam"}),
		board.Write([]int{0}, "words", func(w *board.Words) { w.Sound, w.Rig = "Tea?\n<silence>", true }),
		board.Write([]int{2}, "words", func(w *board.Words) { w.Sound, w.Note = "=no", "slowly" }))
}

func TestShareLists(t *testing.T) {
	inTemp(t)
	talkingPanels(t)
	for _, name := range []string{"out.otio", "out.edl", "out.srt", "out.vtt", "out.csv", "out.beats.csv"} {
		res := runner{}.run(t, "share", "film.stillbeat", "-o", name)
		told := ""
		if name == "out.edl" { // the song's name has no letters a reel takes
			told = "stillbeat: reels have 8 signs and must differ: the song is SONG1\n"
		}
		if res.code != exitDone || res.out != name+": 4 panels, 102 frames (4.254 s) at 23.976 fps on twos, 52 exposures\n" || res.err != told {
			t.Errorf("%s: exit status %d, %q, %q", name, res.code, res.out, res.err)
		}
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		golden(t, "share-"+name, string(text))
	}
	must(t, "share", "film.stillbeat", "-o", "OUT.EDL", "--silent")
	if text, err := os.ReadFile("OUT.EDL"); err != nil || strings.Contains(string(text), " AA ") {
		t.Errorf("a silent list, by an ending in capitals: %v\n%s", err, text)
	}
	res := runner{}.run(t, "share", "film.stillbeat", "-o", "out.srt")
	if res.code != exitFailed || !strings.Contains(res.err, "it is there already; --force replaces it") {
		t.Errorf("a list that is there: exit status %d, %s", res.code, res.err)
	}
	must(t, "share", "film.stillbeat", "-o", "out.srt", "--force")
	if left := names(t); slices.ContainsFunc(left, func(n string) bool { return strings.HasPrefix(n, ".part") }) {
		t.Errorf("left behind: %v", left)
	}
}

// A list in several parts replaces none without being told to.
func TestShareListInParts(t *testing.T) {
	inTemp(t)
	panels := make([]board.Panel, 1001)
	d, err := desk.New()
	if err != nil {
		t.Fatal(err)
	}
	if err := nameFilm(d, "long.stillbeat", func(d *desk.Desk) error { return d.Do(board.Insert(0, panels, 1)) }); err != nil {
		t.Fatal(err)
	}
	write(t, "out-2.edl", []byte("mine"))
	res := runner{}.run(t, "share", "long.stillbeat", "-o", "out.edl")
	if res.code != exitFailed || !strings.Contains(res.err, `"out-2.edl": it is there already`) || slices.Contains(names(t), "out.edl") {
		t.Errorf("exit status %d, %s, files %v", res.code, res.err, names(t))
	}
	res = runner{}.run(t, "share", "long.stillbeat", "-o", "out.edl", "--force", "--quiet")
	if res.code != exitDone || res.out != "" || res.err != "stillbeat: a list has at most 999 events and the film has 1001: it is written in 2 lists\n" {
		t.Errorf("exit status %d, %q, %q", res.code, res.out, res.err)
	}
	if text, err := os.ReadFile("out-2.edl"); err != nil || !strings.HasPrefix(string(text), "TITLE: FILM 2\n") {
		t.Errorf("the second part: %v\n%.200s", err, text)
	}
}

// A list that was shared changes nothing when it comes back, and makes a new
// film with the same starts.
func TestTimingComesBack(t *testing.T) {
	inTemp(t)
	talkingPanels(t)
	before := must(t, "info", "film.stillbeat", "--json")
	for _, list := range []string{"cut.otio", "cut.csv"} {
		must(t, "share", "film.stillbeat", "-o", list)
		if out := must(t, "timing", "film.stillbeat", "--from", list); out != "film.stillbeat: everything was so already\n" {
			t.Errorf("%s: it says %q", list, out)
		}
		res := runner{}.run(t, "timing", "new.stillbeat", "--from", list, "--new", "--force")
		if want := "new.stillbeat: 4 panels, 102 frames (4.254 s) at 23.976 fps on "; res.code != exitDone || !strings.HasPrefix(res.out, want) {
			t.Errorf("%s: exit status %d, %q, %q", list, res.code, res.out, res.err)
		}
		if song := strings.Contains(res.err, `the song "Кружка.wav" is not in the list`); song != (list == "cut.otio") {
			t.Errorf("%s: it tells %q", list, res.err)
		}
	}
	if after := must(t, "info", "film.stillbeat", "--json"); after != before {
		t.Errorf("the film was\n%s and is\n%s", before, after)
	}
}

func TestTimingOfAnEditedTable(t *testing.T) {
	inTemp(t)
	talkingPanels(t)
	write(t, "edited.csv", []byte("number,hold_frames,title\n3,10,spoon first\n1,20,kettle on\n9,30,new\n"))
	res := runner{}.run(t, "timing", "film.stillbeat", "--from", "edited.csv")
	want := `stillbeat: the film has no panel for "9": a blank one stands for it
stillbeat: 2 panels are not in the list: they come after the end of it (2, 4)
`
	if res.code != exitDone || res.err != want || !strings.HasPrefix(res.out, "film.stillbeat: 5 panels, 123 frames") {
		t.Errorf("exit status %d, %q, %q", res.code, res.out, res.err)
	}
	out := must(t, "info", "film.stillbeat")
	for _, want := range []string{"    1      0  00:00:00:00    10", "    2     10  00:00:00:10    20", "    3     30  00:00:01:06    30", "yes      spoon first", "no       new"} {
		if !strings.Contains(out, want) {
			t.Errorf("no %q in\n%s", want, out)
		}
	}
}

// Refused lists leave the film as it was.
func TestTimingRefused(t *testing.T) {
	inTemp(t)
	writePicture(t, "a.png", color.White)
	must(t, "new", "film.stillbeat", "a.png")
	write(t, "bad.otio", []byte("{"))
	write(t, "bad.csv", []byte("title\ncup\n"))
	write(t, "long.csv", []byte("hold_s\n20000\n"))
	if err := os.Mkdir("folder.csv", 0o755); err != nil {
		t.Fatal(err)
	}
	big, err := os.Create("big.csv")
	if err != nil {
		t.Fatal(err)
	}
	if err := big.Truncate(1 << 30); err != nil {
		t.Fatal(err)
	}
	big.Close()
	before := must(t, "info", "film.stillbeat")
	tests := []struct {
		args, says string
		code       int
	}{
		{"timing film.stillbeat", "say which list: --from LIST", exitUsage},
		{"timing film.stillbeat --from cut.edl", `"cut.edl" is no list that can be read: the name must end in .otio or .csv`, exitUsage},
		{"timing film.stillbeat --from bad.csv --force", "--force is for --new", exitUsage},
		{"timing film --from bad.csv --new", "must end in .stillbeat", exitUsage},
		{"timing --from bad.csv", "timing needs one FILM", exitUsage},
		{"share film.stillbeat -o a.srt --size 640x360", "--size is nothing for .srt", exitUsage},
		{"timing film.stillbeat --from none.csv", `read "none.csv": there is no such file`, exitFailed},
		{"timing film.stillbeat --from folder.csv", `read "folder.csv": is a directory`, exitFailed},
		{"timing film.stillbeat --from bad.otio", `read "bad.otio": line 1: it ends too early`, exitFailed},
		{"timing film.stillbeat --from bad.csv", `read "bad.csv": its first row names no column hold_frames`, exitFailed},
		{"timing film.stillbeat --from big.csv", `read "big.csv": it has more than 32 MB`, exitFailed},
		{"timing film.stillbeat --from long.csv", `lay "long.csv" on "film.stillbeat": the end of the film: the start at 20000 seconds`, exitFailed},
		{"timing none.stillbeat --from long.csv", "none.stillbeat", exitFailed},
		{"timing new.stillbeat --from bad.csv --new", `read "bad.csv"`, exitFailed},
		{"timing new.stillbeat --from long.csv --new", `make a film of "long.csv"`, exitFailed},
		{"timing film.stillbeat --from bad.csv --new", "it is there already; --force replaces it", exitFailed},
		{"share film.stillbeat -o a.srt", `share "film.stillbeat": no panel of the film has sound`, exitFailed},
		{"share film.stillbeat -o a.beats.csv", `share "film.stillbeat": the film has no beats`, exitFailed},
	}
	for _, tt := range tests {
		res := runner{}.run(t, strings.Fields(tt.args)...)
		if res.code != tt.code || res.out != "" || !strings.Contains(res.err, tt.says) {
			t.Errorf("%s: exit status %d, %q, %q; want %q", tt.args, res.code, res.out, res.err, tt.says)
		}
	}
	if after := must(t, "info", "film.stillbeat"); after != before {
		t.Errorf("the film was\n%s and is\n%s", before, after)
	}
	if left, _ := filepath.Glob("*"); !slices.Equal(left, []string{"a.png", "bad.csv", "bad.otio", "big.csv", "film.stillbeat", "folder.csv", "long.csv"}) {
		t.Errorf("files %v", left)
	}
}

func TestPartName(t *testing.T) {
	for k, want := range []string{"cut.1.edl", "cut.1-2.edl", "cut.1-3.edl"} {
		if got := partName("cut.1.edl", k); got != want {
			t.Errorf("part %d is %s, want %s", k, got, want)
		}
	}
	if f, found := formatOf("a.beats.csv"); !found || f.ending != ".beats.csv" {
		t.Error("the longer ending does not come first", fmt.Sprint(f.ending))
	}
}
