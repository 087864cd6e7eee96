package file

import (
	"context"
	"os"
	"path/filepath"
	"reflect"
	"runtime"
	"strings"
	"testing"

	"stillbeat/board"
)

const hostile = "'); DROP TABLE board; -- \x00\x01\x1b[31m\u202e\" \\ %s {\"panels\":[]}"

// TestHostileTextEverywhere puts text that is code elsewhere into every field,
// with a history of it.
func TestHostileTextEverywhere(t *testing.T) {
	path := filepath.Join(t.TempDir(), "film"+Ext)
	f := mustCreate(t, path, longBoard(6, 20, 20))
	h := board.RestoreHistory(f.Past(), f)
	ids, err := f.AddMedia(Picture, Media{Name: hostile, Data: noise(100, 1)})
	if err != nil {
		t.Fatal(err)
	}
	song := &board.Song{Name: hostile, Media: ids[0], Seconds: 60}
	for _, e := range []board.Edit{
		board.SetTitle(hostile), board.SetSong(song, h.Board().Grid), board.SetPicture([]int{0}, ids[0]),
		board.Write([]int{0, 1, 2}, hostile, func(w *board.Words) {
			*w = board.Words{Title: hostile, Action: hostile, Sound: hostile, Note: hostile}
		}),
		{Name: hostile, Apply: func(b board.Board) (board.Board, error) { b.Step = 3; return b, nil }},
	} {
		if err := h.Do(e); err != nil {
			t.Fatalf("%q: %v", e.Name, err)
		}
		mustSave(t, f, h)
	}
	if err := f.SetSetting(hostile, hostile); err != nil {
		t.Fatal(err)
	}
	want := trail(t, h)
	f, h = reopened(t, f)
	if got := trail(t, h); !reflect.DeepEqual(got, want) {
		t.Error("the history came back otherwise")
	}
	if got, err := f.Setting(hostile); got != hostile || err != nil {
		t.Errorf("the setting is %q, %v", got, err)
	}
	if got, err := f.MediaName(ids[0]); got != hostile || err != nil {
		t.Errorf("the name is %q, %v", got, err)
	}
	checkWhole(t, f)
	mustClose(t, f)
	b, lost, err := salvageAnything(t, mustRead(t, path))
	if err != nil || b.Title != hostile || len(lost) != 1 { // five pictures are made up
		t.Errorf("salvaged %q, lost %q, %v", b.Title, lost, err)
	}
}

// TestTenThousandPanels keeps a film of that many panels and an edit that
// changes all of them.
func TestTenThousandPanels(t *testing.T) {
	path := filepath.Join(t.TempDir(), "film"+Ext)
	f := mustCreate(t, path, longBoard(10000, 1000, 1000))
	h := board.RestoreHistory(f.Past(), f)
	for _, e := range []board.Edit{board.SetHold([]int{0}, 3), board.SetTitle("tea")} {
		if err := h.Do(e); err != nil {
			t.Fatal(err)
		}
	}
	mustSave(t, f, h)
	want := h.Board()
	f, h = reopened(t, f)
	checkBoard(t, h.Board(), want)
	if !h.Undo() || !h.Undo() || h.UndoName() != "" {
		t.Errorf("undo stands at %q", h.UndoName())
	}
	checkBoard(t, h.Board(), longBoard(10000, 1000, 1000))
	checkWhole(t, f)
}

func TestAbsurdBoardsAreRefused(t *testing.T) {
	for _, c := range []struct {
		name string
		edit board.Edit
	}{
		{"a hold of a billion frames", board.SetHold([]int{1}, 1_000_000_000)},
		{"a hold of all frames there are", board.SetHold([]int{1}, 1<<62)},
		{"a hold of no frame", board.SetHold([]int{1}, 0)},
		{"more panels than a film has", board.Insert(0, make([]board.Panel, board.MaxPanels), 1)},
		{"a title without end", board.SetTitle(strings.Repeat("w", board.MaxText+1))},
		{"a start beyond the film", board.SetStart(1, board.Free(1e12))},
	} {
		t.Run(c.name, func(t *testing.T) {
			f := mustCreate(t, filepath.Join(t.TempDir(), "film"+Ext), longBoard(3, 5, 5))
			h := board.RestoreHistory(f.Past(), f)
			err := h.Do(c.edit)
			if err == nil || strings.Contains(err.Error(), "\n") {
				t.Errorf("got %v", err)
			}
			t.Log(err)
			if h.UndoName() != "" || jsonOf(t, h.Board()) != jsonOf(t, longBoard(3, 5, 5)) {
				t.Error("the board was changed")
			}
		})
	}
}

// TestTwoGigabytes opens, edits and salvages a film whose file has two
// gigabytes, of which most was never written.
func TestTwoGigabytes(t *testing.T) {
	film, _, _ := wornFilm(t, 3)
	path := filepath.Join(t.TempDir(), "film"+Ext)
	mustWrite(t, path, film)
	if err := os.Truncate(path, 2<<30); err != nil {
		t.Fatal(err)
	}
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	f, b := mustOpen(t, path)
	b.Title = "large"
	if err := f.SaveBoard(b); err != nil {
		t.Fatal(err)
	}
	mustClose(t, f)
	f, got, err := Salvage(context.Background(), path)
	if err != nil || f.Missing() != nil {
		t.Fatalf("%v, lost is %q", err, f.Missing())
	}
	checkBoard(t, got, b)
	mustClose(t, f)
	runtime.ReadMemStats(&after)
	if used := after.TotalAlloc - before.TotalAlloc; used > 32<<20 {
		t.Errorf("%d MB were allocated", used>>20)
	}
}
