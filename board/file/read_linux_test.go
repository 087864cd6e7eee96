package file

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"stillbeat/board"
)

func mustView(t *testing.T, path string) (*File, board.Board) {
	t.Helper()
	f, b, err := OpenReadOnly(path)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { f.Close() })
	return f, b
}

// TestSecondOpeningReads has a film open for editing, here or in another
// program, and opens it to read it.
func TestSecondOpeningReads(t *testing.T) {
	film, _, ids := wornFilm(t, 4)
	path := filepath.Join(t.TempDir(), "film"+Ext)
	mustWrite(t, path, film)
	editor, want := mustOpen(t, path)
	f, b := mustView(t, path)
	checkBoard(t, b, want)
	const shown = "it is open in another window, so it is only shown here"
	checkError(t, f.ReadOnly(), ErrInUse, shown)
	if data, err := f.Media(ids[2]); err != nil || !bytes.Equal(data, noise(6000, 2)) {
		t.Errorf("a picture: %d bytes, %v", len(data), err)
	}
	if got, err := f.Setting("zoom"); got != "2.5" || err != nil {
		t.Errorf("the zoom is %q, %v", got, err)
	}
	h := board.RestoreHistory(f.Past(), f)
	if h.UndoName() == "" || !h.Undo() || !h.Undo() {
		t.Errorf("undo to %q does not work on what is shown", h.UndoName())
	}
	for name, refused := range map[string]error{
		"save": f.SaveBoard(b), "setting": f.SetSetting("zoom", "3"),
		"media":   second(f.AddMedia(Picture, Media{Name: "cup.png", Data: []byte("cup")})),
		"compact": second(f.Compact()),
	} {
		if !errors.Is(refused, ErrReadOnly) || !strings.HasSuffix(refused.Error(), `film "film.stillbeat": `+shown+"; a copy can be saved") {
			t.Errorf("%s: %v", name, refused)
		}
	}
	checkUntouched(t, path, film)

	// The one edits on; the other reads what was saved, and copies it.
	want.Title = "another take"
	if err := editor.SaveBoard(want); err != nil {
		t.Fatal(err)
	}
	to := filepath.Join(t.TempDir(), "copy"+Ext)
	if err := f.CopyTo(to); err != nil {
		t.Fatal(err)
	}
	_, copied := mustOpen(t, to)
	checkBoard(t, copied, want)
	mustClose(t, f)
	mustClose(t, editor)
	mustOpen(t, path)
}

func second[T any](_ T, err error) error { return err }

func TestReadingInAnotherProgram(t *testing.T) {
	f, b, path := filmWithPicture(t)
	if said := ask(t, "read", path); said != b.Title+": it is open in another window, so it is only shown here" {
		t.Errorf("another program reads %q", said)
	}
	b.Title = "saved meanwhile"
	if err := f.SaveBoard(b); err != nil {
		t.Error(err)
	}
	if said := ask(t, "read", path); !strings.HasPrefix(said, "saved meanwhile: ") {
		t.Errorf("another program reads %q", said)
	}
	mustClose(t, f)
	if said := ask(t, "read", path); said != "saved meanwhile: it was opened to be read only, so it is only shown here" {
		t.Errorf("another program reads %q", said)
	}
}

// TestReadersDoNotBlock opens a film for editing that is being read, in any
// order of closing.
func TestReadersDoNotBlock(t *testing.T) {
	_, b, path := filmWithPicture(t)
	b.Title = "read"
	closed := filepath.Join(t.TempDir(), "film"+Ext)
	mustWrite(t, closed, mustRead(t, path))
	for i, order := range []string{"reader first", "editor first"} {
		reader, _ := mustView(t, closed)
		editor, _ := mustOpen(t, closed)
		if order == "reader first" {
			mustClose(t, reader)
		}
		b.Title = fmt.Sprint("edit ", i)
		if err := editor.SaveBoard(b); err != nil {
			t.Errorf("%s: %v", order, err)
		}
		if _, _, err := Open(closed); !errors.Is(err, ErrInUse) {
			t.Errorf("%s: a second editor: %v", order, err)
		}
		if said := ask(t, "open", closed); !strings.Contains(said, "already open in another window") {
			t.Errorf("%s: another program opening the film got %q", order, said)
		}
		mustClose(t, editor)
		if order == "editor first" {
			if _, err := reader.Media(b.Panels[1].Picture); err != nil {
				t.Errorf("%s: %v", order, err)
			}
			mustClose(t, reader)
		}
	}
	if _, got := mustOpen(t, closed); got.Title != "edit 1" {
		t.Errorf("the film holds %q", got.Title)
	}
}

// TestKilledEditorLeavesNoLock kills a program that has a film open.
func TestKilledEditorLeavesNoLock(t *testing.T) {
	_, _, from := filmWithPicture(t)
	path := filepath.Join(t.TempDir(), "film"+Ext)
	mustWrite(t, path, mustRead(t, from))
	cmd := child("hold", path)
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	if _, err := out.Read(make([]byte, 1)); err != nil {
		t.Fatal(err)
	}
	if _, _, err := Open(path); !errors.Is(err, ErrInUse) {
		t.Errorf("while another program has it: %v", err)
	}
	if err := cmd.Process.Kill(); err != nil {
		t.Fatal(err)
	}
	_ = cmd.Wait() // it was killed
	mustOpen(t, path)
}

// TestReadingAfterACrash opens a film whose last change was cut short.
func TestReadingAfterACrash(t *testing.T) {
	path := filepath.Join(t.TempDir(), "film"+Ext)
	want := crashedFilm(t, path)
	f, got := mustView(t, path)
	checkBoard(t, got, want)
	checkWhole(t, f)
	mustClose(t, f)
}

func TestReadingAfterACrashWithoutPermission(t *testing.T) {
	path := filepath.Join(publicFolder(t), "film"+Ext)
	crashedFilm(t, path)
	if err := os.Chmod(path, 0o444); err != nil {
		t.Fatal(err)
	}
	before := mustRead(t, path)
	var err error
	asNobody(t, func() { _, _, err = OpenReadOnly(path) })
	checkError(t, err, fs.ErrPermission, `open film "film.stillbeat": a change that a crash cut short has to be taken back, and the file cannot be written to`)
	if !bytes.Equal(mustRead(t, path), before) {
		t.Error("the film was changed")
	}
}

func TestReadingWithoutPermissionToWrite(t *testing.T) {
	film, _ := goodFilm(t)
	path := filepath.Join(publicFolder(t), "film"+Ext)
	mustWrite(t, path, film)
	if err := os.Chmod(path, 0o444); err != nil {
		t.Fatal(err)
	}
	asNobody(t, func() {
		f, _, err := OpenReadOnly(path)
		if err != nil {
			t.Error(err)
			return
		}
		checkError(t, f.ReadOnly(), fs.ErrPermission, "the file cannot be written to, so it is only shown here")
		f.Close()
	})
	checkUntouched(t, path, film)
}

func TestReadOnlyRefusesWhatIsNoFilm(t *testing.T) {
	film, _ := goodFilm(t)
	for _, c := range []struct {
		name string
		data []byte
		is   error
	}{
		{"zero bytes", nil, ErrNotFilm},
		{"a text", []byte("once upon a time"), ErrNotFilm},
		{"half a film", film[:len(film)/2], ErrDamaged},
		{"a newer film", changed(film, userVersionAt, 0, 0, 0, 99), ErrNewer},
	} {
		t.Run(c.name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "film"+Ext)
			mustWrite(t, path, c.data)
			if _, _, err := OpenReadOnly(path); !errors.Is(err, c.is) {
				t.Errorf("got %v, want %v", err, c.is)
			}
			checkUntouched(t, path, c.data)
		})
	}
}
