package ui

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"stillbeat/board"
	"stillbeat/board/share/lists"
)

func TestTheTimingOfAListIsLaidOnTheFilm(t *testing.T) {
	w := openWindow(t)
	bringIn(t, w, 3)
	dir := t.TempDir()
	path := filepath.Join(dir, "cups.csv")
	table, err := lists.PanelTable(w.board)
	if err != nil {
		t.Fatal(err)
	}
	write := func(data string) {
		t.Helper()
		if err := os.WriteFile(path, []byte(data), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	write(string(table))
	w.do(board.SetHold([]int{0}, 30))
	changed := w.starts[1]
	w.layTiming(path)
	settle(t, w)
	if changed != 30 || w.starts[1] != 24 {
		t.Errorf("panel 2 starts at frame %d, changed to %d, want 24 as in the list; the foot says %q", w.starts[1], changed, w.foot.words.Text)
	}
	w.layTiming(path)
	settle(t, w)
	if got := w.foot.words.Text; got != "The film has the timing of cups.csv already." {
		t.Errorf("the second time it says %q", got)
	}

	// What the film does not have is told.
	lines := strings.Split(strings.TrimRight(string(table), "\r\n"), "\n")
	write(strings.Join(lines[:len(lines)-1], "\n") + "\n")
	w.layTiming(path)
	settle(t, w)
	top := w.win.Canvas().Overlays().Top()
	if len(w.board.Panels) != 3 || top == nil {
		t.Errorf("%d panels are left; nothing tells of the one that the list does not have", len(w.board.Panels))
	} else {
		top.Hide()
	}

	before := w.board
	write("a spoon")
	w.layTiming(path)
	settle(t, w)
	if top := w.win.Canvas().Overlays().Top(); top == nil || !strings.Contains(strings.Join(textsIn(top), " "), "cups.csv") {
		t.Error("a list that cannot be read is not told of by its name")
	} else {
		top.Hide()
	}
	if len(w.board.Panels) != len(before.Panels) || w.starts[1] != 24 {
		t.Error("a list that cannot be read changed the film")
	}
}
