package ui

import (
	"bytes"
	"fmt"
	"image"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"stillbeat/board"
	"stillbeat/board/desk"
)

// rowsOf lists the notes as listed: their texts.
func rowsOf(f *remarkFace) string {
	var out []string
	for _, r := range f.rows {
		out = append(out, strings.TrimPrefix(r.Text, "slower at "))
	}
	return strings.Join(out, " ")
}

func TestNotesOnTheChosenPanelsComeFirst(t *testing.T) {
	w := withNotes(t, 5, 30, 55, 80) // a note on each of four panels
	f := w.remarks
	w.do(board.CloseUp([]int{1}))
	w.choose(0)
	for _, s := range []struct {
		name string
		do   func()
		want string
	}{
		{"the first panel chosen, one note loose", func() {}, "5 55 80 30"},
		{"the last one chosen", func() { w.choose(2) }, "80 5 55 30"},
		{"going down the list does not sort it", func() { f.list.Select(1) }, "80 5 55 30"},
		{"nor does an edit then", func() { f.do(board.AcceptRemark) }, "80 5 55 30"},
		{"the middle one chosen", func() { w.choose(1) }, "55 5 80 30"},
		{"those that are open", f.filter, "55 80 30"},
	} {
		if s.do(); rowsOf(f) != s.want {
			t.Errorf("%s: listed are %s, want %s", s.name, rowsOf(f), s.want)
		}
	}
	at := w.at
	f.list.Select(2)
	if w.at != at || !strings.HasPrefix(f.head.Text, "Loose, was at 00:00:01:06 · Aunt") || f.words.Text != "slower at 30" {
		t.Errorf("a loose note takes the playhead from %d to %d and says %q, %q", at, w.at, f.head.Text, f.words.Text)
	}
	f.list.Select(1)
	if w.at != 56 || w.chosen != 2 {
		t.Errorf("a click on the note of the last panel leads to frame %d of panel %d", w.at, w.chosen+1)
	}
}

func TestNotesStandAsTheyWereWritten(t *testing.T) {
	const text = "<b>slower</b> [here](http://cup) **now**\n砂糖 מלח"
	w := withNotes(t, 5)
	list := []board.Remark{{ID: "x", Author: "Tante <i>", Written: 1, Panel: w.board.Panels[0].ID, After: 0.5, Text: text}}
	w.do(board.TakeRemarks(list))
	w.remarks.goTo("x")
	if w.remarks.words.Text != text || w.remarks.words.Wrapping == 0 || !strings.Contains(w.remarks.head.Text, "Tante <i>") {
		t.Errorf("the note reads %q, of %q", w.remarks.words.Text, w.remarks.head.Text)
	}
}

func TestNotesOnAFilmThatIsOnlyShown(t *testing.T) {
	w := withNotes(t, 5, 30)
	path, edited := saveFilm(t, w, "tea"), w.desk
	defer edited.Close()
	shown, err := desk.OpenOrView(path) // it is open for editing already
	if err != nil || shown.ReadOnly() == nil {
		t.Fatalf("it opens for editing a second time: %v", err)
	}
	file := notesOn(t, w, "Tea", 5, 30, 60)
	w.setDesk(shown)
	w.remarks.turnTo()
	w.seek(0)
	run(t, w, "To the next note")
	if w.at != 5 || w.remarks.words.Text != "slower at 5" {
		t.Errorf("the next note is at %d: %q", w.at, w.remarks.words.Text)
	}
	for _, name := range []string{acceptRemarkName, tickRemarkName, removeRemarkName, answerRemarkName, takeRemarksName} {
		if w.keys.named[name].can() {
			t.Errorf("%q can be done", name)
		}
	}
	for _, b := range []*hintedButton{w.remarks.accept, w.remarks.tick, w.remarks.reply1, w.remarks.out} {
		if test.Tap(b); !b.Disabled() {
			t.Errorf("%q can be pressed", b.Text)
		}
	}
	w.bringFiles([]string{file})
	settle(t, w)
	if r := w.board.Remarks; len(r) != 2 || r[0].State != board.RemarkOpen {
		t.Errorf("the notes are %+v", r)
	}
}

func TestNotesOnAnotherFilmAreAskedAbout(t *testing.T) {
	for _, answer := range []string{"Leave them", "Take them all the same"} {
		w := openWindow(t)
		bringIn(t, w, 2)
		w.do(board.SetTitle("Tea"))
		w.bringFiles([]string{notesOn(t, w, "Coffee", 5)})
		settle(t, w)
		top := w.win.Canvas().Overlays().Top()
		if top == nil || len(w.board.Remarks) != 0 || !strings.Contains(strings.Join(textsIn(top), " "), `another film, "Coffee"`) {
			t.Fatalf("%d notes are taken without a question", len(w.board.Remarks))
		}
		tapNamed(t, w, answer)
		if got, want := len(w.board.Remarks), map[string]int{"Leave them": 0, "Take them all the same": 1}[answer]; got != want {
			t.Errorf("%s: the film has %d notes, want %d", answer, got, want)
		}
	}
}

// tapNamed presses a button of the dialog that is up.
func tapNamed(t *testing.T, w *window, name string) {
	t.Helper()
	for _, o := range test.LaidOutObjects(w.win.Canvas().Overlays().Top()) {
		if b, ok := o.(*widget.Button); ok && b.Text == name {
			test.Tap(b)
			return
		}
	}
	t.Fatalf("the dialog has no button %q", name)
}

func TestGoodFilesAreTakenBesideBadOnes(t *testing.T) {
	w := openWindow(t)
	bringIn(t, w, 3)
	w.do(board.SetTitle("Tea"))
	before := w.desk.Past().At
	big := filepath.Join(t.TempDir(), "big.notes.json")
	if err := os.WriteFile(big, bytes.Repeat([]byte("["), 17<<20), 0o600); err != nil {
		t.Fatal(err)
	}
	w.bringFiles([]string{notesOn(t, w, "Tea", 5), big, t.TempDir() + "/gone.json"})
	settle(t, w)
	if n := len(w.board.Remarks); n != 1 || w.desk.Past().At != before+1 {
		t.Errorf("%d notes are taken in %d steps, want one in one", n, w.desk.Past().At-before)
	}
	top := w.win.Canvas().Overlays().Top()
	if top == nil {
		t.Fatal("nothing is said of the files that were refused")
	}
	words := strings.Join(strings.Fields(strings.Join(textsIn(top), " ")), " ")
	for _, want := range []string{`"big.notes.json": it has more than 16 MB`, `"gone.json": no such file`} {
		if !strings.Contains(words, want) {
			t.Errorf("it says %q, without %q", words, want)
		}
	}
}

// The flags are told apart without colour: their outlines, in ink alone, differ.
func TestFlagsDifferInShape(t *testing.T) {
	shapes := map[string]board.RemarkState{}
	for _, state := range []board.RemarkState{board.RemarkOpen, board.RemarkAccepted, board.RemarkDone} {
		img := image.NewRGBA(image.Rect(0, 0, 24, 24))
		paintFlag(pen{img, 1}, state, 1, 4, 20)
		var mask []byte
		for i := 0; i < len(img.Pix); i += 4 {
			mask = append(mask, map[bool]byte{true: '#', false: '.'}[img.Pix[i+3] > 127 && img.Pix[i] < 128])
		}
		if other, same := shapes[string(mask)]; same {
			t.Errorf("the flags of notes that are %q and %q have one shape", state, other)
		}
		shapes[string(mask)] = state
	}
}

func TestNotesAreCountedOnTheWall(t *testing.T) {
	w := withNotes(t, 5, 8, 30)
	w.do(board.TickRemark("n-2"))
	w.pages.Show(w.wallPage)
	v := &w.wall.wall.view
	for i, want := range []string{"2 notes of others, 2 open", "1 note of others"} {
		if got := v.remarked[i].words(); got != want {
			t.Errorf("panel %d has %q, want %q", i+1, got, want)
		}
	}
	if got := v.hint(1); !strings.HasSuffix(got, ", 1 note of others.") {
		t.Errorf("the card of panel 2 says %q", got)
	}
	s := wallSize{w: 160, pic: 90, caption: 50, lines: 3}
	painted := func(i int) bool {
		img := image.NewRGBA(image.Rect(0, 0, 200, 150))
		v.paintRemarked(pen{img, 1}, i, 10, 10, s)
		r := drawn(img)
		return !r.Empty() && r.In(image.Rect(10+80, 10+45, 10+160, 10+90))
	}
	if !painted(0) || !painted(1) || painted(2) {
		t.Errorf("counts are painted on the panels %v, %v, %v", painted(0), painted(1), painted(2))
	}
}

func BenchmarkFlags(b *testing.B) {
	film := board.New()
	film.Panels = make([]board.Panel, 1)
	film.Panels[0].ID, film.NextID, film.End = 1, 2, board.Free(600)
	for i := range board.MaxRemarks {
		film.Remarks = append(film.Remarks, board.Remark{ID: fmt.Sprintf("n-%d", i), Author: "Aunt", Panel: 1, After: 0.1 * float64(i), Text: "x"})
	}
	v := viewOf(film)
	v.perSec = 1.5
	img := image.NewRGBA(image.Rect(0, 0, 1000, 240))
	for b.Loop() {
		v.paintRemarks(pen{img, 1})
	}
}
