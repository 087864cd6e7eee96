package ui

import (
	"os"
	"path/filepath"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"stillbeat/board/file"
)

func TestArrowsChooseInAList(t *testing.T) {
	var chosen []int
	taken := -1
	l := newKeyList(func() int { return 5 }, func() fyne.CanvasObject { return widget.NewLabel("") }, func(widget.ListItemID, fyne.CanvasObject) {})
	l.OnSelected = func(i widget.ListItemID) { chosen = append(chosen, i) }
	l.OnTake = func() { taken = chosen[len(chosen)-1] }
	keys := func(names ...fyne.KeyName) {
		chosen = nil
		for _, n := range names {
			l.TypedKey(&fyne.KeyEvent{Name: n})
		}
	}
	want := func(what string, rows ...int) {
		t.Helper()
		if len(chosen) != len(rows) {
			t.Fatalf("%s: %v chosen, want %v", what, chosen, rows)
		}
		for i := range rows {
			if chosen[i] != rows[i] {
				t.Fatalf("%s: %v chosen, want %v", what, chosen, rows)
			}
		}
	}
	keys(fyne.KeyDown, fyne.KeyDown)
	want("down from where nothing is chosen", 0, 1)
	l.Select(3)
	keys(fyne.KeyUp, fyne.KeyReturn)
	want("up from the fourth", 2)
	if taken != 2 {
		t.Errorf("Return takes row %d, want 2", taken)
	}
	keys(fyne.KeyDown, fyne.KeyDown, fyne.KeyDown, fyne.KeyDown)
	want("down to the end", 3, 4)
	l.Length = func() int { return 2 }
	l.UnselectAll()
	keys(fyne.KeyUp)
	want("after the list got shorter", 1)
}

func TestPastIsGoneToByKeys(t *testing.T) {
	w := openWindow(t)
	bringIn(t, w, 3)
	w.choose(0)
	w.duplicate()
	w.duplicate()
	w.historyDialog()
	list := w.win.Canvas().Focused()
	list.TypedKey(&fyne.KeyEvent{Name: fyne.KeyUp})
	list.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if n := len(w.board.Panels); n != 4 {
		t.Errorf("one step back there are %d panels, want 4", n)
	}
}

func TestAFileIsPickedByKeys(t *testing.T) {
	w := openWindow(t)
	folder := t.TempDir()
	films := filepath.Join(folder, "films")
	if err := os.Mkdir(films, 0o777); err != nil {
		t.Fatal(err)
	}
	for _, name := range []string{"a", "b", "c"} {
		if err := os.WriteFile(filepath.Join(films, name+file.Ext), nil, 0o666); err != nil {
			t.Fatal(err)
		}
	}
	w.app.Preferences().SetString("folder.films", folder)
	var got []string
	w.pick(pickRequest{title: "Open", extensions: []string{file.Ext}, kind: "films"}, func(paths []string) { got = paths })
	list := w.win.Canvas().Focused()
	for _, n := range []fyne.KeyName{fyne.KeyReturn, fyne.KeyDown, fyne.KeyReturn} {
		list.TypedKey(&fyne.KeyEvent{Name: n})
	}
	if len(got) != 1 || got[0] != filepath.Join(films, "b"+file.Ext) {
		t.Errorf("Return into the folder, Down, Return picks %v", got)
	}
}
