package file

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"path/filepath"
	"testing"
)

func TestSalvageRefuses(t *testing.T) {
	film, _ := goodFilm(t)
	for _, c := range []struct {
		name string
		data []byte
		is   error
		want string
	}{
		{"zero bytes", nil, ErrNotFilm, `open film "film.stillbeat": the file is empty, so it is not a Stillbeat film`},
		{"a text", bytes.Repeat([]byte("once upon a time "), 5000), ErrNotFilm, `open film "film.stillbeat": this is not a Stillbeat film`},
		{"another database", otherDatabase(t), ErrNotFilm, `open film "film.stillbeat": this is not a Stillbeat film`},
		{"noise", noise(300000, 5), ErrNotFilm, `open film "film.stillbeat": this is not a Stillbeat film`},
		{"a newer film", changed(film, userVersionAt, 0, 0, 0, 99), ErrNewer,
			fmt.Sprintf(`open film "film.stillbeat": this film was made by a newer Stillbeat (its version is 99, this program knows up to %d)`, len(migrations))},
		{"a header alone", film[:100], ErrDamaged, `open film "film.stillbeat": the film is damaged: nothing in it can be read`},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, _, err := salvageAnything(t, c.data)
			checkError(t, err, c.is, c.want)
		})
	}
}

func TestSalvageOfAFilmInUse(t *testing.T) {
	f, _, path := filmWithPicture(t)
	_, _, err := Salvage(context.Background(), path)
	checkError(t, err, ErrInUse, `open film "film.stillbeat": the film is already open in another window`)
	mustClose(t, f)
}

func TestSalvageCanBeCancelled(t *testing.T) {
	film, _ := goodFilm(t)
	path := filepath.Join(t.TempDir(), "film"+Ext)
	mustWrite(t, path, film)
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, _, err := Salvage(ctx, path); !errors.Is(err, context.Canceled) {
		t.Errorf("got %v", err)
	}
	mustOpen(t, path)
}

// TestSalvageAfterACrash has a film with the journal of a crash and a damaged
// page: what the journal takes back is taken back in a copy.
func TestSalvageAfterACrash(t *testing.T) {
	folder := t.TempDir()
	path := filepath.Join(folder, "film"+Ext)
	want := crashedFilm(t, path)
	mustWrite(t, path, changed(mustRead(t, path), 5, 0, 0))
	before, journal := mustRead(t, path), mustRead(t, journalOf(path))
	f, b, err := Salvage(context.Background(), path)
	if err != nil {
		t.Fatal(err)
	}
	checkBoard(t, b, want)
	if lost := f.Missing(); len(lost) != 2 { // pictures and song of the film are made up
		t.Errorf("lost is %q", lost)
	}
	mustClose(t, f)
	if !bytes.Equal(mustRead(t, path), before) || !bytes.Equal(mustRead(t, journalOf(path)), journal) {
		t.Error("the film or its journal was changed")
	}
}

func FuzzSalvage(f *testing.F) {
	film, _, _ := wornFilm(f, 3)
	f.Add(film)
	f.Add(changed(film, 2*pageSize, make([]byte, pageSize)...))
	f.Add(changed(film, 0, make([]byte, pageSize)...))
	f.Add(film[:len(film)/2])
	f.Add([]byte{})
	f.Fuzz(func(t *testing.T, data []byte) {
		if len(data) > 1<<20 {
			return // larger than the fuzz target looks at
		}
		salvageAnything(t, data)
	})
}
