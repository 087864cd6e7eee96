package file

import (
	"bytes"
	"database/sql"
	"errors"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"stillbeat/board"
)

// tamperedFilm returns a film on which a statement was run.
func tamperedFilm(t *testing.T, statement string, args ...any) (path string) {
	t.Helper()
	path = filepath.Join(t.TempDir(), "film"+Ext)
	film, _ := goodFilm(t)
	mustWrite(t, path, film)
	db := connect(source(path))
	defer db.Close()
	if _, err := db.Exec(statement, args...); err != nil {
		t.Fatal(err)
	}
	return path
}

func TestOpenRefusesAStrangersSchema(t *testing.T) {
	for _, c := range []struct{ name, statement, want string }{
		{"a trigger", `CREATE TRIGGER trap AFTER UPDATE ON board BEGIN DELETE FROM media; END`, "its tables are not those of a film"},
		{"a view", `CREATE VIEW trap AS SELECT * FROM board`, "its tables are not those of a film"},
		{"another table", `CREATE TABLE more (id INTEGER)`, "its tables are not those of a film"},
		{"a table gone", `DROP TABLE setting`, "its tables are not those of a film"},
		{"another column", `ALTER TABLE setting ADD COLUMN more TEXT`, "its tables are not those of a film"},
		{"no board", `DELETE FROM board`, "it holds no board"},
		{"no grid", `PRAGMA foreign_keys = OFF; DELETE FROM grid`, "it holds no board"},
		{"another board", `UPDATE board SET json = x'7b7d'`, "its board is not what was saved"},
		{"another grid", `UPDATE grid SET json = x'7b7d'`, "its board is not what was saved"},
	} {
		t.Run(c.name, func(t *testing.T) {
			path := tamperedFilm(t, c.statement)
			before := mustRead(t, path)
			_, _, err := Open(path)
			checkError(t, err, ErrDamaged, `open film "film.stillbeat": the film is damaged: `+c.want)
			checkUntouched(t, path, before)
		})
	}
}

// TestForgedBoard opens films whose board has the right checksum and wrong
// contents.
func TestForgedBoard(t *testing.T) {
	for _, c := range []struct{ name, json, want string }{
		{"no JSON", `{"title":`, "unexpected EOF"},
		{"a list", `[]`, "json: cannot unmarshal array into Go value of type file.stored"},
		{"an unknown field", `{"smell":1}`, `json: unknown field "smell"`},
		{"an unknown field of a panel", `{"panels":[{"smell":1}]}`, `json: unknown field "smell"`},
		{"panels that are none", `{"panels":{}}`, "a list is missing"},
		{"no rate", `{}`, "the frame rate 0/0 is outside 1 to 120 frames a second"},
		{"too many panels", `{"panels":[` + strings.Repeat(`{},`, board.MaxPanels) + `{}]}`, "a list has more than 20000 elements"},
	} {
		t.Run(c.name, func(t *testing.T) {
			data := []byte(c.json)
			path := tamperedFilm(t, `UPDATE board SET json = ?, hash = ?`, data, sum(data))
			_, _, err := Open(path)
			checkError(t, err, ErrDamaged, `open film "film.stillbeat": the film is damaged: its board cannot be used: `+c.want)
		})
	}
}

// TestSmallFileAsksForMuchMemory opens a film that names a million panels.
func TestSmallFileAsksForMuchMemory(t *testing.T) {
	data := []byte(`{"panels":[` + strings.Repeat(`{},`, 1<<20) + `{}]}`)
	path := tamperedFilm(t, `UPDATE board SET json = ?, hash = ?`, data, sum(data))
	var before, after runtime.MemStats
	runtime.ReadMemStats(&before)
	_, _, err := Open(path)
	runtime.ReadMemStats(&after)
	if !errors.Is(err, ErrDamaged) {
		t.Errorf("got %v, want %v", err, ErrDamaged)
	}
	if used := after.TotalAlloc - before.TotalAlloc; used > 16*uint64(len(data)) {
		t.Errorf("%d MB were allocated for a board of %d MB", used>>20, len(data)>>20)
	}
}

// TestOlderFilm adds a step to the migrations and opens a film made before.
func TestOlderFilm(t *testing.T) {
	film, _ := goodFilm(t)
	old := migrations
	defer func() { migrations = old }()
	for _, c := range []struct {
		name string
		step []string
		ok   bool
	}{
		{"a step that works", []string{`ALTER TABLE media ADD COLUMN added TEXT`, `CREATE TABLE past (id INTEGER PRIMARY KEY) STRICT`}, true},
		{"a step that fails", []string{`CREATE TABLE past (id INTEGER PRIMARY KEY) STRICT`, `DROP TABLE nothing`}, false},
		{"a step that harms the board", []string{`UPDATE board SET hash = x'00'`}, false},
	} {
		t.Run(c.name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "film"+Ext)
			mustWrite(t, path, film)
			migrations = old
			f, want := mustOpen(t, path)
			mustClose(t, f)
			migrations = append(old[:len(old):len(old)], c.step)
			f, got, err := Open(path)
			if !c.ok {
				if err == nil {
					t.Error("the film was opened")
				}
				checkUntouched(t, path, film)
				return
			}
			if err != nil {
				t.Fatal(err)
			}
			checkBoard(t, got, want)
			mustClose(t, f)
			f, _ = mustOpen(t, path) // now it is of the newest version
			mustClose(t, f)
			migrations = old
			if _, _, err := Open(path); !errors.Is(err, ErrNewer) {
				t.Errorf("the older program got %v, want %v", err, ErrNewer)
			}
		})
	}
}

// TestFilmIsMarked reads the marks other programs know a film by.
func TestFilmIsMarked(t *testing.T) {
	film, _ := goodFilm(t)
	if got := film[applicationAt : applicationAt+4]; !bytes.Equal(got, []byte("Stlb")) {
		t.Errorf("application id %q", got)
	}
	path := filepath.Join(t.TempDir(), "film"+Ext)
	mustWrite(t, path, film)
	f, _ := mustOpen(t, path)
	for pragma, want := range map[string]string{
		"journal_mode": "delete", "synchronous": "3", "foreign_keys": "1", "trusted_schema": "0", "cell_size_check": "1", "integrity_check": "ok",
	} {
		var got string
		err := inTransaction(f.db, func(tx *sql.Tx) error { return tx.QueryRow(`PRAGMA ` + pragma).Scan(&got) })
		if err != nil || got != want {
			t.Errorf("%s is %q, %v, want %q", pragma, got, err, want)
		}
	}
}
