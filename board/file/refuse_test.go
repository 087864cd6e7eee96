package file

import (
	"bytes"
	"fmt"
	"path/filepath"
	"testing"
)

// changed returns a copy of a film's bytes with some of them replaced.
func changed(film []byte, at int, with ...byte) []byte {
	film = bytes.Clone(film)
	copy(film[at:], with)
	return film
}

// otherDatabase returns a SQLite file that is not a film.
func otherDatabase(t *testing.T) []byte {
	t.Helper()
	path := filepath.Join(t.TempDir(), "other")
	mustWrite(t, path, nil)
	db := connect(source(path))
	defer db.Close()
	if _, err := db.Exec(`CREATE TABLE board (id INTEGER)`); err != nil {
		t.Fatal(err)
	}
	return mustRead(t, path)
}

func TestOpenRefusesAndLeavesAsIs(t *testing.T) {
	film, _ := goodFilm(t)
	const notFilm = `open film "a.stillbeat": this is not a Stillbeat film`
	for _, c := range []struct {
		name string
		data []byte
		is   error
		want string
	}{
		{"zero bytes", []byte{}, ErrNotFilm, `open film "a.stillbeat": the file is empty, so it is not a Stillbeat film`},
		{"a text", []byte("once upon a time"), ErrNotFilm, notFilm},
		{"a long text", bytes.Repeat([]byte("once upon a time "), 5000), ErrNotFilm, notFilm},
		{"half the first word of SQLite", []byte("SQLite fo"), ErrNotFilm, notFilm},
		{"another database", otherDatabase(t), ErrNotFilm, notFilm},
		{"another application", changed(film, applicationAt, 0x0f, 0x05, 0x51, 0x12), ErrNotFilm, notFilm},
		{"a film cut off in its header", film[:60], ErrDamaged,
			`open film "a.stillbeat": the film is damaged: it is cut off after 60 bytes`},
		{"the next version", changed(film, userVersionAt, 0, 0, 0, byte(len(migrations)+1)), ErrNewer,
			fmt.Sprintf(`open film "a.stillbeat": this film was made by a newer Stillbeat (its version is %d, this program knows up to %d)`,
				len(migrations)+1, len(migrations))},
		{"no version", changed(film, userVersionAt, 0, 0, 0, 0), ErrDamaged,
			`open film "a.stillbeat": the film is damaged: it has no version`},
		{"a negative version", changed(film, userVersionAt, 255, 255, 255, 255), ErrDamaged,
			`open film "a.stillbeat": the film is damaged: it has no version`},
		{"a write-ahead log", changed(film, writeVersionAt, 2, 2), ErrDamaged,
			`open film "a.stillbeat": the film is damaged: it asks for a log that films do not have`},
		{"half a film", film[:len(film)/2], ErrDamaged,
			`open film "a.stillbeat": the film is damaged: parts of it cannot be read`},
	} {
		t.Run(c.name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "a.stillbeat")
			mustWrite(t, path, c.data)
			_, _, err := Open(path)
			checkError(t, err, c.is, c.want)
			checkUntouched(t, path, c.data)
		})
	}
}

// checkUntouched checks that a file is as it was and alone in its folder.
func checkUntouched(t *testing.T, path string, want []byte) {
	t.Helper()
	if !bytes.Equal(mustRead(t, path), want) {
		t.Error("the file was changed")
	}
	if names := filesIn(t, filepath.Dir(path)); len(names) != 1 {
		t.Errorf("the folder holds %q", names)
	}
}

func TestReadingDoesNotWrite(t *testing.T) {
	film, ids := goodFilm(t)
	path := filepath.Join(t.TempDir(), "a.stillbeat")
	mustWrite(t, path, film)
	f, _ := mustOpen(t, path)
	if _, err := f.Media(ids[0]); err != nil {
		t.Error(err)
	}
	if _, err := f.Setting("zoom"); err != nil {
		t.Error(err)
	}
	mustClose(t, f)
	checkUntouched(t, path, film)
}
