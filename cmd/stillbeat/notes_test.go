package main

import (
	"os"
	"strings"
	"testing"

	"stillbeat/board"
	"stillbeat/board/desk"
)

// auntsNotes is a file of notes on the film of teaFilm: one on each panel and
// one on a panel that the film does not have.
const auntsNotes = `{"format": "stillbeat notes", "version": 1, "film": {"title": "Tea", "rate": "24", "frames": 56}, "notes": [
 {"id": "a-1", "author": "Aunt", "written": 1767225600000, "frame": 31, "panel": 2, "in": 1, "text": "Hold the lid longer.\nIt goes by too fast to be read by anybody who sees it for the first time, I think."},
 {"id": "a-2", "author": "Aunt", "written": 1767225601000, "frame": 5, "panel": 1, "in": 5, "text": "=HYPERLINK(\"x\") \u001b[31m הכף"},
 {"id": "a-3", "author": "Aunt", "written": 1767225602000, "frame": 50, "panel": 77, "in": 2, "text": "Where is the spoon?"}]}`

func TestNotesCommand(t *testing.T) {
	inTemp(t)
	teaFilm(t, "tea.stillbeat")
	if out := must(t, "notes", "tea.stillbeat"); out != "Nobody has noted anything yet.\n" {
		t.Errorf("without notes it says %q", out)
	}
	write(t, "aunt.notes.json", []byte(auntsNotes))
	write(t, "uncle.notes.json", []byte(`{"format": "stillbeat notes", "version": 1, "film": {"title": "Tea", "rate": "12", "frames": 28},
		"notes": [{"id": "u-1", "author": "Uncle", "written": 1767225600000, "frame": 15, "panel": 2, "text": "Short is good."}]}`))
	for _, c := range []struct{ args, says string }{
		{"--take aunt.notes.json uncle.notes.json", "tea.stillbeat: 4 new notes"},
		{"--take uncle.notes.json --take aunt.notes.json", "tea.stillbeat: everything was so already"},
	} {
		if out := must(t, append([]string{"notes", "tea.stillbeat"}, strings.Fields(c.args)...)...); out != c.says+"\n" {
			t.Errorf("%s: it says %q, want %q", c.args, out, c.says)
		}
	}
	err := withFilm("tea.stillbeat", func(d *desk.Desk) error {
		if err := d.Do(board.AnswerRemark("a-1", "Six frames more.")); err != nil {
			return err
		}
		return d.Do(board.AcceptRemark("a-1"))
	})
	if err != nil {
		t.Fatal(err)
	}
	golden(t, "notes.txt", must(t, "notes", "tea.stillbeat"))
	golden(t, "notes.json", must(t, "notes", "tea.stillbeat", "--json"))

	later := strings.Replace(strings.Replace(auntsNotes, "1767225600000", "1767225700000", 1), "Hold the lid", "Hold the cup", 1)
	later = strings.Replace(strings.Replace(later, "1767225601000", "1767225700000", 1), `"text": "=HYPERLINK(\"x\") \u001b[31m הכף"`, `"gone": true`, 1)
	write(t, "later.notes.json", []byte(later))
	if out := must(t, "notes", "tea.stillbeat", "--take", "later.notes.json"); out != "tea.stillbeat: 1 changed, 1 taken back, 1 there already\n" {
		t.Errorf("later it says %q", out)
	}
	foreign := strings.ReplaceAll(auntsNotes, `"Aunt"`, `"Somebody"`)
	write(t, "foreign.notes.json", []byte(foreign))
	if res := (runner{}).run(t, "notes", "tea.stillbeat", "--take", "foreign.notes.json"); res.code != exitDone ||
		!strings.Contains(res.err, "3 notes left out: the film has notes of others by the same ids") {
		t.Errorf("of another author: %+v", res)
	}
}

// A file that cannot be taken leaves the film as it is, and with it all files
// that were named beside it.
func TestNotesThatCannotBeTaken(t *testing.T) {
	inTemp(t)
	teaFilm(t, "tea.stillbeat")
	write(t, "good.notes.json", []byte(auntsNotes))
	write(t, "page.html", []byte("<script>alert(1)</script>"))
	write(t, "newer.notes.json", []byte(strings.Replace(auntsNotes, `"version": 1`, `"version": 2`, 1)))
	write(t, "other.notes.json", []byte(strings.Replace(auntsNotes, `"Tea"`, `"Coffee"`, 1)))
	for _, c := range []struct{ file, says string }{
		{"gone.notes.json", `read "gone.notes.json": there is no such file`},
		{"page.html", `read "page.html": these are not notes on a film: it is not JSON`},
		{"newer.notes.json", `read "newer.notes.json": these notes were written for a newer version of Stillbeat`},
		{"other.notes.json", `take "other.notes.json" to "tea.stillbeat": these notes are on another film, "Coffee"; --anyway takes them`},
	} {
		res := runner{}.run(t, "notes", "tea.stillbeat", "--take", "good.notes.json", c.file)
		oneLineOf(t, res)
		if !strings.Contains(res.err, c.says) {
			t.Errorf("it says %q, want %q", res.err, c.says)
		}
		if out := must(t, "notes", "tea.stillbeat"); out != "Nobody has noted anything yet.\n" {
			t.Errorf("with %s the film took\n%s", c.file, out)
		}
	}
	if out := must(t, "notes", "tea.stillbeat", "--take", "other.notes.json", "--anyway"); out != "tea.stillbeat: 3 new notes\n" {
		t.Errorf("anyway it says %q", out)
	}
}

func TestShareAsAPage(t *testing.T) {
	inTemp(t)
	writeSong(t, "tune.wav", 4, clicks(0.25, 0.5, 7), nil)
	writePicture(t, "cup.png", flat(3).At(0, 0))
	must(t, "new", "tea.stillbeat", "--song", "tune.wav", "--every", "2", "cup.png", "cup.png", "cup.png")
	out := must(t, "share", "tea.stillbeat", "-o", "tea.html")
	if !strings.Contains(out, "1 picture of 960x540 take ") || !strings.Contains(out, "tea.html: 3 panels") {
		t.Errorf("it says %q", out)
	}
	page, err := os.ReadFile("tea.html")
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{`http-equiv="Content-Security-Policy" content="default-src &#39;none&#39;;`, `"save":"tea.notes.json"`, `id="p0">/9j/`} {
		if !strings.Contains(string(page), want) {
			t.Errorf("the page has no %s", want)
		}
	}
	oneLineOf(t, runner{}.run(t, "share", "tea.stillbeat", "-o", "tea.html"))
	must(t, "share", "tea.stillbeat", "-o", "tea.html", "--silent", "--height", "360", "--force")
	small, err := os.ReadFile("tea.html")
	if err != nil || len(small) >= len(page) || !strings.Contains(string(small), `"width":640,"height":360,"sound":false`) {
		t.Errorf("small and silent it has %d bytes, before it had %d, %v", len(small), len(page), err)
	}
}
