package main

import (
	"image/color"
	"os"
	"strings"
	"testing"

	"stillbeat/board"
	"stillbeat/board/desk"
)

// faulty makes film.stillbeat with some of what a check finds.
func faulty(t *testing.T) {
	t.Helper()
	fourPanels(t)
	edit(t, "film.stillbeat",
		board.SetStart(1, board.Free(1.35)),
		board.SetPicture([]int{3}, ""),
		board.AddLetter([]int{2}, board.NewLetter(board.CaptionCard, "The spoon says what it has wanted to say for years\nand years", board.Aspect{})))
}

// flashing makes flash.stillbeat of black and white panels of two frames.
func flashing(t *testing.T) {
	t.Helper()
	writePicture(t, "black.png", color.Black)
	writePicture(t, "white.png", color.White)
	args := []string{"new", "flash.stillbeat"}
	for range 8 {
		args = append(args, "black.png", "white.png")
	}
	must(t, args...)
	edits := []board.Edit{}
	for i := range 16 {
		edits = append(edits, board.SetHold([]int{i}, 2))
	}
	edit(t, "flash.stillbeat", edits...)
}

func TestCheckForPeople(t *testing.T) {
	inTemp(t)
	faulty(t)
	golden(t, "check.txt", runner{ear: knownEar{}}.must(t, "check", "film.stillbeat"))
	flashing(t)
	golden(t, "check-flashing.txt", must(t, "check", "flash.stillbeat", "--shortest", "2"))
}

func TestCheckJSON(t *testing.T) {
	inTemp(t)
	faulty(t)
	out := runner{ear: knownEar{}}.must(t, "check", "film.stillbeat", "--json")
	golden(t, "check.json", out)
	keys(t, out, "", "file", "findings", "not_looked_at", "cautions")
	keys(t, out, "findings.0", "id", "kind", "severity", "panel", "start", "end", "seconds", "what", "why", "source", "mend", "dismissed")
	keys(t, out, "findings.0.panel", "id", "number")
	if err := withNewFilm("empty.stillbeat", func(*desk.Desk) error { return nil }); err != nil {
		t.Fatal(err)
	}
	if out := must(t, "check", "empty.stillbeat", "--json"); out != `{"file":"empty.stillbeat","findings":[],"not_looked_at":[],"cautions":[]}`+"\n" {
		t.Errorf("an empty film gives %s", out)
	}
	if out := must(t, "check", "empty.stillbeat"); out != "Nothing was found.\n" {
		t.Errorf("an empty film gives %s", out)
	}
}

// Findings are no failure unless --strict is asked for; then all have been told
// before the one line that says so.
func TestCheckStrictly(t *testing.T) {
	inTemp(t)
	flashing(t)
	calm := must(t, "check", "flash.stillbeat")
	res := runner{}.run(t, "check", "flash.stillbeat", "--strict")
	if res.code != exitFailed || res.out != calm || !strings.Contains(res.err, `check "flash.stillbeat": `) || strings.Count(res.err, "\n") != 1 {
		t.Errorf("exit status %d, it says %q", res.code, res.err)
	}
	writePicture(t, "a.png", color.Gray{Y: 90})
	must(t, "new", "good.stillbeat", "a.png", "a.png")
	if out := must(t, "check", "good.stillbeat", "--strict", "--session", "200"); out != "Nothing was found.\n" {
		t.Errorf("a good film gives %s", out)
	}
}

// Dismissed findings are left out, but the caution that goes with flashing is
// not.
func TestCheckAfterDismissing(t *testing.T) {
	inTemp(t)
	flashing(t)
	var doc checkReport
	decodeStrict(t, must(t, "check", "flash.stillbeat", "--json"), &doc)
	var ids []string
	for _, f := range doc.Findings {
		ids = append(ids, f.ID)
	}
	edit(t, "flash.stillbeat", board.Dismiss(ids))
	out := must(t, "check", "flash.stillbeat", "--strict")
	if strings.Contains(out, "danger") || !strings.Contains(out, "Caution: This film flashes") || !strings.Contains(out, "Nothing was found. ") {
		t.Errorf("dismissed, it says %s", out)
	}
	if all := must(t, "check", "flash.stillbeat", "--all"); !strings.Contains(all, "(dismissed)") {
		t.Errorf("with all, it says %s", all)
	}
	if len(doc.Cautions) != 1 {
		t.Errorf("the cautions are %q", doc.Cautions)
	}
}

// A song that cannot be read any more keeps nothing else from being looked at.
func TestCheckWithoutTheSong(t *testing.T) {
	inTemp(t)
	faulty(t) // its song is none that a real ear can read
	out := must(t, "check", "film.stillbeat")
	if !strings.Contains(out, "Not looked at: how loud the song is: it could not be read.") || !strings.Contains(out, "after its beat") {
		t.Errorf("it says %s", out)
	}
}

// Before a film that flashes is shared its caution is told; the page shows it.
func TestSharingTellsTheCaution(t *testing.T) {
	inTemp(t)
	flashing(t)
	for _, name := range []string{"flash.gif", "flash.html"} {
		res := runner{}.run(t, "share", "flash.stillbeat", "-o", name)
		if res.code != exitDone || !strings.Contains(res.err, "caution: This film flashes") {
			t.Errorf("%s: exit status %d, it says %q", name, res.code, res.err)
		}
	}
	page, err := os.ReadFile("flash.html")
	if err != nil || !strings.Contains(string(page), `"caution":"This film flashes`) {
		t.Errorf("the page does not have the caution (%v)", err)
	}
	if res := (runner{}).run(t, "share", "flash.stillbeat", "-o", "flash.csv"); res.code != exitDone || strings.Contains(res.err, "caution") {
		t.Errorf("a table: exit status %d, it says %q", res.code, res.err)
	}
}
