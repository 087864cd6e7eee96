package ui

import (
	"encoding/json"
	"fmt"
	"image"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"stillbeat/board"
)

// notesOn writes a file of notes on the film that is open: at each frame one,
// by its author.
func notesOn(t *testing.T, w *window, title string, frames ...board.Frame) string {
	t.Helper()
	var notes []map[string]any
	for k, f := range frames {
		i := board.PanelAt(w.starts, f)
		notes = append(notes, map[string]any{"id": fmt.Sprintf("n-%d", k), "author": "Aunt", "written": 10 + k, "frame": f,
			"panel": w.board.Panels[i].ID, "in": f - w.starts[i], "text": fmt.Sprintf("slower at %d", f)})
	}
	data, err := json.Marshal(map[string]any{"format": "stillbeat notes", "version": 1, "film": map[string]any{
		"title": title, "rate": "24", "frames": w.board.Frames()}, "notes": notes})
	if err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(t.TempDir(), "tea.notes.json")
	if err := os.WriteFile(path, data, 0o644); err != nil {
		t.Fatal(err)
	}
	return path
}

// withNotes opens a film of four panels of a second, titled Tea, with notes at
// frames.
func withNotes(t *testing.T, frames ...board.Frame) *window {
	t.Helper()
	w := openWindow(t)
	bringIn(t, w, 4)
	w.do(board.SetTitle("Tea"))
	w.bringFiles([]string{notesOn(t, w, "Tea", frames...)})
	settle(t, w)
	return w
}

func TestNotesOfOthersAreTaken(t *testing.T) {
	w := withNotes(t, 5, 30)
	if got := len(w.board.Remarks); got != 2 || w.faces.up != w.remarks.face {
		t.Fatalf("%d notes are in the film, the face is up: %v", got, w.faces.up == w.remarks.face)
	}
	if !strings.Contains(w.foot.words.Text, "2 new notes") {
		t.Errorf("the foot says %q", w.foot.words.Text)
	}
	w.bringFiles([]string{notesOn(t, w, "Tea", 5, 30)})
	settle(t, w)
	if len(w.board.Remarks) != 2 || !strings.Contains(w.foot.words.Text, "2 there already") {
		t.Errorf("taken again: %d notes, the foot says %q", len(w.board.Remarks), w.foot.words.Text)
	}
	w.desk.Undo()
	if len(w.board.Remarks) != 0 {
		t.Errorf("one undo leaves %d notes", len(w.board.Remarks))
	}
}

func TestFilesThatAreNoNotesDoNothing(t *testing.T) {
	for name, data := range map[string]string{
		"a script": "<script>alert(1)</script>", "a list": "[]", "nothing": "",
		"a newer one": `{"format": "stillbeat notes", "version": 9, "film": {}, "notes": []}`,
	} {
		t.Run(name, func(t *testing.T) {
			w := openWindow(t)
			bringIn(t, w, 2)
			path := filepath.Join(t.TempDir(), "bad.json")
			if err := os.WriteFile(path, []byte(data), 0o644); err != nil {
				t.Fatal(err)
			}
			undo := w.desk.UndoName()
			w.bringFiles([]string{path})
			settle(t, w)
			if len(w.board.Remarks) != 0 || w.desk.UndoName() != undo {
				t.Errorf("it changed the film: %d notes, undo %q", len(w.board.Remarks), w.desk.UndoName())
			}
			top := w.win.Canvas().Overlays().Top()
			if top == nil || !strings.Contains(strings.Join(textsIn(top), " "), `"bad.json"`) {
				t.Errorf("nothing is said of the file")
			}
		})
	}
}

func TestNotesOfOthersAreAcceptedAnsweredAndTickedOff(t *testing.T) {
	w := withNotes(t, 5, 30)
	f := w.remarks
	w.seek(0)
	f.step(1)
	steps := []struct {
		name string
		do   func()
		want board.RemarkState
	}{
		{"accepted", func() { f.do(board.AcceptRemark) }, board.RemarkAccepted},
		{"ticked off", func() { f.do(board.TickRemark) }, board.RemarkDone},
		{"reopened", func() { f.do(board.ReopenRemark) }, board.RemarkOpen},
		{"accepted and undone", func() { f.do(board.AcceptRemark); w.desk.Undo() }, board.RemarkOpen},
	}
	for _, s := range steps {
		s.do()
		if r, ok := f.chosen(); !ok || r.State != s.want {
			t.Errorf("%s it is %q (chosen: %v)", s.name, r.State, ok)
		}
	}
	w.do(board.AnswerRemark(f.at, "on twos now"))
	if f.reply.Text != "Answer: on twos now" || !f.reply.Visible() {
		t.Errorf("the answer is shown as %q", f.reply.Text)
	}
	f.do(board.RemoveRemark)
	if len(f.rows) != 1 || f.rows[0].Text == "" {
		t.Errorf("after one is removed the list has %d", len(f.rows))
	}
}

func TestStepsFromNoteToNote(t *testing.T) {
	w := withNotes(t, 5, 30, 80)
	w.seek(0)
	for _, want := range []board.Frame{5, 30, 80, 80} {
		w.remarks.step(1)
		if w.at != want {
			t.Fatalf("on: at frame %d, want %d", w.at, want)
		}
	}
	w.remarks.step(-1)
	if w.at != 30 {
		t.Errorf("back: at frame %d, want 30", w.at)
	}
	w.remarks.filter()
	w.remarks.do(board.TickRemark)
	w.seek(0)
	w.remarks.step(1)
	w.remarks.step(1)
	if w.at != 80 {
		t.Errorf("among the open ones, the second step ends at frame %d, want 80", w.at)
	}
}

func TestFlagsStandWhereTheirNotesAre(t *testing.T) {
	w := withNotes(t, 5, 30)
	v := &w.timeline.view
	v.width, v.height, v.timescale.perSec, v.timescale.from = 1000, 300, 200, 0
	if flags := v.flags(); len(flags) != 2 || flags[0].x != v.frameX(5) || flags[1].x != v.frameX(30) {
		t.Fatalf("flags at %v, want at %g and %g", flags, v.frameX(5), v.frameX(30))
	}
	plain := image.NewRGBA(image.Rect(0, 0, 1000, 300))
	flagged := image.NewRGBA(plain.Rect)
	v.paint(flagged, 1)
	settle(t, w) // the pictures of the panels come
	v.paint(flagged, 1)
	kept := v.remarks
	v.remarks = nil
	v.paint(plain, 1)
	v.remarks = kept
	lo, hi := 1000, 0
	for x := range 1000 {
		for y := range int(v.waveBottom()) { // below are pictures that may be drawn by now
			if plain.RGBAAt(x, y) != flagged.RGBAAt(x, y) {
				lo, hi = min(lo, x), max(hi, x)
			}
		}
	}
	if float64(lo) < v.frameX(5)-3 || float64(hi) > v.frameX(30)+flagW+3 || lo > hi {
		t.Errorf("painted from %d to %d", lo, hi)
	}
	if f, found := v.remarkAt(v.frameX(30)+2, v.waveBottom()-4); !found || v.remarks[f.first].Text != "slower at 30" {
		t.Errorf("under the pointer: %v, %+v", found, f)
	}
	id := v.remarks[1].ID
	w.movePanels(1, 4) // the note goes with its panel
	for _, r := range w.timeline.view.remarks {
		if r.ID == id && (r.At != 3 || r.Frame != w.starts[3]+6) {
			t.Errorf("after its panel was moved the note is at panel %d, frame %d; want 3 and %d", r.At, r.Frame, w.starts[3]+6)
		}
	}
}

func TestNotesOfOthersWithoutAny(t *testing.T) {
	w := openWindow(t)
	bringIn(t, w, 1)
	w.remarks.turnTo()
	if !w.remarks.empty.Visible() || w.remarks.body.Visible() {
		t.Error("nothing tells how notes come in")
	}
	w.remarks.step(1)
	if w.foot.words.Text != "There is no note after this one." {
		t.Errorf("the foot says %q", w.foot.words.Text)
	}
	if w.remarks.mod != ctrl || w.remarks.key != fyne.KeyF8 {
		t.Error("its key is another")
	}
}
