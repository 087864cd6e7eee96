package file

import (
	"bytes"
	"errors"
	"fmt"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"stillbeat/board"
)

// openAnything opens bytes as a film and uses it: whatever they are, there is
// a board by the rules or an error, and the file stays as it is.
func openAnything(t *testing.T, data []byte, ids []board.MediaID) (board.Board, error) {
	t.Helper()
	path := filepath.Join(t.TempDir(), "film"+Ext)
	mustWrite(t, path, data)
	f, b, err := Open(path)
	if err == nil {
		if err := b.Check(); err != nil {
			t.Errorf("opened with a board against the rules: %v", err)
		}
		for _, id := range ids {
			if got, err := f.Media(id); err == nil && fmt.Sprintf("%x", sum(got)) != string(id) {
				t.Errorf("bytes were returned that are not those of %s", id)
			}
		}
		if _, err := f.Setting("zoom"); err != nil && !errors.Is(err, ErrDamaged) {
			t.Errorf("reading a setting: %v", err)
		}
		mustClose(t, f)
	}
	checkUntouched(t, path, data)
	return b, err
}

func TestDamagedFilms(t *testing.T) {
	film, ids := goodFilm(t)
	want, err := openAnything(t, film, ids)
	if err != nil {
		t.Fatal(err)
	}
	const sector = 512
	refused, opened := 0, 0
	for at := 0; at < len(film); at += 2 * sector {
		for _, c := range []struct {
			name string
			data []byte
		}{
			{"zeroed", changed(film, at, make([]byte, sector)...)},
			{"cut", film[:at]},
			{"first byte flipped", changed(film, at, ^film[at])},
			{"a bit flipped", changed(film, at+at/7%sector, film[at+at/7%sector]^4)},
			{"a sector gone", append(bytes.Clone(film[:at]), film[at+sector:]...)},
		} {
			got, err := openAnything(t, c.data, ids)
			if err != nil && strings.ContainsAny(err.Error(), "\n*") {
				t.Errorf("%s at byte %d: not one sentence: %v", c.name, at, err)
			}
			switch {
			case err == nil && reflect.DeepEqual(got, want):
				opened++
			case err == nil:
				t.Errorf("%s at byte %d: opened with another board", c.name, at)
			case errors.Is(err, ErrDamaged), errors.Is(err, ErrNotFilm), errors.Is(err, ErrNewer):
				refused++
			default:
				t.Errorf("%s at byte %d: %v", c.name, at, err)
			}
		}
	}
	t.Logf("%d damaged films were refused, %d opened", refused, opened)
	if refused == 0 || opened == 0 {
		t.Error("the damage does not tell")
	}
}

func FuzzOpen(f *testing.F) {
	film, ids := goodFilm(f)
	f.Add(film)
	f.Add(film[:len(film)/2])
	f.Add(film[:100])
	f.Add([]byte("SQLite format 3\x00"))
	f.Add([]byte{})
	f.Fuzz(func(t *testing.T, data []byte) {
		if len(data) > 1<<20 {
			return // larger than the fuzz target looks at
		}
		openAnything(t, data, ids)
	})
}
