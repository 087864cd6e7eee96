package file

import (
	"bufio"
	"flag"
	"math/rand/v2"
	"path/filepath"
	"strconv"
	"testing"
	"time"

	"stillbeat/board"
)

var kills = flag.Int("kills", 6, "how often the editing program is killed")

// TestKilledProgramLosesNothing kills a program that edits a film, at random
// instants, and looks at the film after each.
func TestKilledProgramLosesNothing(t *testing.T) {
	path := filepath.Join(t.TempDir(), "killed"+Ext)
	b := longBoard(100, 200, 300)
	b.Title = "0"
	mustClose(t, mustCreate(t, path, b))
	saved := 0
	for range *kills {
		cmd := child("edit", path)
		out, err := cmd.StdoutPipe()
		if err != nil {
			t.Fatal(err)
		}
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		lines := bufio.NewReader(out)
		if _, err := lines.Peek(1); err != nil {
			t.Fatalf("the editing program ended by itself: %v", err)
		}
		time.Sleep(time.Duration(rand.IntN(150_000)) * time.Microsecond)
		if err := cmd.Process.Kill(); err != nil {
			t.Fatal(err)
		}
		if saved, err = lastNumber(lines, saved); err != nil {
			t.Fatal(err)
		}
		if cmd.Wait() == nil {
			t.Fatal("the editing program was not killed")
		}
		saved = lookAfterKill(t, path, saved)
	}
	t.Logf("%d edits through %d kills", saved, *kills)
}

// lookAfterKill checks that the film is whole and holds at least edit number
// saved, with the edits before it, and returns the number it holds.
func lookAfterKill(t *testing.T, path string, saved int) int {
	t.Helper()
	f, _ := mustOpen(t, path)
	defer mustClose(t, f)
	h := board.RestoreHistory(f.Past(), f)
	h.Lost = func(err error) { t.Fatalf("after edit %d a step is lost: %v", saved, err) }
	redoAll(h) // steps may have been taken back when the program was killed
	b := h.Board()
	holds, err := strconv.Atoi(b.Title)
	if err != nil || holds < saved || holds > saved+1 {
		t.Fatalf("edit %d was the last one acknowledged, the film holds edit %q", saved, b.Title)
	}
	var finding string
	if err := f.db.QueryRow(`PRAGMA integrity_check`).Scan(&finding); err != nil || finding != "ok" {
		t.Fatalf("after edit %d the integrity check says %q, %v", saved, finding, err)
	}
	for _, p := range b.Panels {
		if p.Picture == "" || isFake(p.Picture) {
			continue
		}
		if _, err := f.Media(p.Picture); err != nil {
			t.Fatalf("after edit %d: %v", saved, err)
		}
	}
	lookBack(t, h, holds)
	lookAtCopy(t, path+".copy")
	return holds
}

// lookBack undoes edit by edit, from edit n, and checks that each board is the
// one that was acknowledged: edit n makes of the board before it the one after
// it. All edits since the film was compacted are there.
func lookBack(t *testing.T, h *board.History, n int) {
	t.Helper()
	for h.UndoName() != "" {
		after, name := h.Board(), h.UndoName()
		if name != strconv.Itoa(n) || !h.Undo() {
			t.Fatalf("the step before board %d is called %q", n, name)
		}
		picture := board.MediaID("")
		if i := n % len(after.Panels); n%8 == 1 {
			picture = after.Panels[i].Picture
		}
		if jsonOf(t, numbered(h.Board(), n, picture)) != jsonOf(t, after) {
			t.Fatalf("edit %d taken back gives %q", n, h.Board().Title)
		}
		n--
	}
	if n > 0 && n%40 != 4 { // compacted just before edit 5 of each 40
		t.Fatalf("there are no edits before edit %d", n)
	}
}

// lookAtCopy checks the copy, if one was made: it is a whole film.
func lookAtCopy(t *testing.T, path string) {
	t.Helper()
	if matches, _ := filepath.Glob(path); matches == nil {
		return
	}
	f, b := mustOpen(t, path)
	defer mustClose(t, f)
	if len(b.Panels) != 100 {
		t.Fatalf("the copy holds %d panels", len(b.Panels))
	}
}
