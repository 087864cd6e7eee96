package file

import (
	"bytes"
	"database/sql"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"stillbeat/board"
)

// crashedFilm puts at path what a crash in the middle of a change leaves: a
// film partly overwritten and its rollback journal. It returns the board
// saved before.
func crashedFilm(t *testing.T, path string) board.Board {
	t.Helper()
	from := filepath.Join(t.TempDir(), "film"+Ext)
	b := longBoard(50, 60, 70)
	f := mustCreate(t, from, b)
	if _, err := f.AddMedia(Picture, Media{Name: "cup.png", Data: noise(3<<20, 1)}); err != nil {
		t.Fatal(err)
	}
	halfway := fmt.Errorf("halfway")
	err := inTransaction(f.db, func(tx *sql.Tx) error {
		// More than the cache holds, so that pages go to the file.
		if _, err := tx.Exec(`UPDATE content SET data = randomblob(length(data) + 1000000)`); err != nil {
			return err
		}
		if err := writeBoard(tx, text{board: []byte("half a board"), boardHash: []byte{0}, gridHash: f.now.gridHash}, 0); err != nil {
			return err
		}
		if _, err := tx.Exec(`UPDATE content SET data = randomblob(length(data) + 1000000)`); err != nil {
			return err
		}
		mustWrite(t, path, mustRead(t, from))
		mustWrite(t, path+"-journal", mustRead(t, from+"-journal"))
		return halfway
	})
	if err != halfway {
		t.Fatal(err)
	}
	mustClose(t, f)
	if bytes.Equal(mustRead(t, path), mustRead(t, from)) {
		t.Fatal("the change never reached the file")
	}
	return b
}

func TestOpenAfterCrashTakesTheChangeBack(t *testing.T) {
	path := filepath.Join(t.TempDir(), "film"+Ext)
	want := crashedFilm(t, path)
	f, got := mustOpen(t, path)
	checkBoard(t, got, want)
	checkWhole(t, f)
}

// checkWhole checks that a film is a whole database, alone in its folder.
func checkWhole(t *testing.T, f *File) {
	t.Helper()
	var finding string
	if err := f.db.QueryRow(`PRAGMA integrity_check`).Scan(&finding); err != nil || finding != "ok" {
		t.Errorf("the integrity check says %q, %v", finding, err)
	}
	if names := filesIn(t, filepath.Dir(f.Path())); len(names) != 1 {
		t.Errorf("the folder holds %q", names)
	}
}

// TestJournalOfAnotherFilm puts a film where one crashed before: the old
// journal must not be applied to it.
func TestJournalOfAnotherFilm(t *testing.T) {
	want := longBoard(3, 4, 5)
	copyTo := func(t *testing.T, to string) error {
		return mustCreate(t, filepath.Join(t.TempDir(), "film"+Ext), want).CopyTo(to)
	}
	create := func(t *testing.T, to string) error {
		f, err := Create(to, want)
		if err == nil {
			mustClose(t, f)
		}
		return err
	}
	for _, c := range []struct {
		name   string
		before func(path string) error // after the crash
		place  func(t *testing.T, to string) error
	}{
		{"copy over a crashed film", func(string) error { return nil }, copyTo},
		{"copy where only the journal is left", os.Remove, copyTo},
		{"create where only the journal is left", os.Remove, create},
	} {
		t.Run(c.name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "crashed"+Ext)
			crashedFilm(t, path)
			if err := c.before(path); err != nil {
				t.Fatal(err)
			}
			if err := c.place(t, path); err != nil {
				t.Fatal(err)
			}
			f, got := mustOpen(t, path)
			checkBoard(t, got, want)
			checkWhole(t, f)
		})
	}
}

func TestJournalOfSomethingElse(t *testing.T) {
	to := filepath.Join(t.TempDir(), "notes"+Ext)
	crashedFilm(t, to)
	mustWrite(t, to, []byte("notes"))
	f := mustCreate(t, filepath.Join(t.TempDir(), "film"+Ext), board.New())
	checkError(t, f.CopyTo(to), nil, `save film "notes.stillbeat": an unfinished change lies in "notes.stillbeat-journal"`)
	if got := string(mustRead(t, to)); got != "notes" {
		t.Errorf("the file holds %.40q", got)
	}
}

// TestFullDisk lets the database have no further page.
func TestFullDisk(t *testing.T) {
	f, b, path := filmWithPicture(t)
	var pages int
	if err := f.db.QueryRow(`PRAGMA page_count`).Scan(&pages); err != nil {
		t.Fatal(err)
	}
	if _, err := f.db.Exec(fmt.Sprintf(`PRAGMA max_page_count = %d`, pages)); err != nil {
		t.Fatal(err)
	}
	_, err := f.AddMedia(Picture, Media{Name: "small.png", Data: noise(10, 2)}, Media{Name: "large.png", Data: noise(1<<20, 3)})
	checkError(t, err, syscall.ENOSPC, `add to film "film.stillbeat": the disk is full or its quota used up`)
	long := b
	long.Panels = append([]board.Panel(nil), b.Panels...)
	for i := range long.Panels {
		long.Panels[i].Note = strings.Repeat("w", board.MaxText)
	}
	checkError(t, f.SaveBoard(long), syscall.ENOSPC, `save film "film.stillbeat": the disk is full or its quota used up`)
	if n := countRows(t, f, "media"); n != 1 {
		t.Errorf("%d media are stored, want the one from before", n)
	}
	b.Title = "still here"
	if err := f.SaveBoard(b); err != nil {
		t.Errorf("saving what fits: %v", err)
	}
	mustClose(t, f)
	f, got := mustOpen(t, path)
	checkBoard(t, got, b)
	checkWhole(t, f)
}
