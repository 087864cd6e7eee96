package file

import (
	"bytes"
	"context"
	"errors"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"stillbeat/board"
)

// salvageAnything salvages bytes as a film: there is an error, or a film by
// the rules whose copy is whole; the file is as it was.
func salvageAnything(t *testing.T, data []byte) (b board.Board, lost []string, err error) {
	t.Helper()
	path := filepath.Join(t.TempDir(), "film"+Ext)
	mustWrite(t, path, data)
	f, b, err := Salvage(context.Background(), path)
	if err == nil {
		lost = f.Missing()
		if err := b.Check(); err != nil {
			t.Errorf("salvaged a board against the rules: %v", err)
		}
		checkMended(t, f, b, lost)
		mustClose(t, f)
	} else if strings.ContainsAny(err.Error(), "\n*") {
		t.Errorf("not one sentence: %v", err)
	}
	checkUntouched(t, path, data)
	return b, lost, err
}

// checkMended copies a salvaged film and checks that the copy is whole and has
// all that was found.
func checkMended(t *testing.T, f *File, b board.Board, lost []string) {
	t.Helper()
	if err := f.SaveBoard(b); !errors.Is(err, ErrReadOnly) {
		t.Errorf("saving a damaged film: %v", err)
	}
	to := filepath.Join(t.TempDir(), "mended"+Ext)
	if err := f.CopyTo(to); err != nil {
		t.Fatalf("%v, with %q lost", err, lost)
	}
	mended, got := mustOpen(t, to)
	defer mustClose(t, mended)
	if jsonOf(t, got) != jsonOf(t, b) {
		t.Error("the copy has another board")
	}
	checkWhole(t, mended)
	gone := 0
	for _, id := range b.Media() {
		if _, err := mended.Media(id); id != "" && err != nil {
			gone++
		}
	}
	if said := strings.Contains(strings.Join(lost, "\n"), "damaged or missing"); said != (gone > 0) {
		t.Errorf("%d media are missing and %q is said", gone, lost)
	}
	h := board.RestoreHistory(mended.Past(), mended)
	h.Lost = func(err error) { t.Errorf("a step of the copy: %v", err) }
	for h.Undo() {
	}
	for h.Redo() {
	}
}

func TestSalvageOfAWholeFilm(t *testing.T) {
	film, boards, _ := wornFilm(t, 5)
	b, lost, err := salvageAnything(t, film)
	if err != nil || lost != nil || !boards[jsonOf(t, b)] {
		t.Errorf("%q is lost, %v", lost, err)
	}
}

// damages are the ways a film is damaged at each place.
func damages(film []byte, at, size int) map[string][]byte {
	end := min(at+size, len(film))
	flipped := bytes.Clone(film)
	for i := at; i < end; i += 97 {
		flipped[i] ^= 0x15
	}
	return map[string][]byte{
		"zeroed":    changed(film, at, make([]byte, end-at)...),
		"flipped":   flipped,
		"cut":       film[:at],
		"shortened": append(bytes.Clone(film[:at]), film[end:]...),
	}
}

// TestSalvageOfDamagedFilms damages a film page by page. Of a film with one
// page overwritten the board is always found.
func TestSalvageOfDamagedFilms(t *testing.T) {
	film, boards, _ := wornFilm(t, 25)
	outcomes := map[string]int{}
	for at := 0; at < len(film); at += pageSize {
		for name, data := range damages(film, at, pageSize) {
			overwritten := name == "zeroed" || name == "flipped"
			if name != "zeroed" && at/pageSize%4 != len(name)%4 {
				continue // some of each will do
			}
			b, lost, err := salvageAnything(t, data)
			said := strings.Join(lost, "; ")
			switch {
			case err != nil && (overwritten || !errors.Is(err, ErrDamaged) && !errors.Is(err, ErrNotFilm)):
				t.Errorf("%s at %d: %v", name, at, err)
			case err != nil:
				outcomes["nothing"]++
			case !boards[jsonOf(t, b)]:
				t.Errorf("%s at %d: a board that was never there, and said is %q", name, at, said)
			case said == "":
				outcomes["all"]++
			default:
				for _, s := range lost {
					outcomes[strings.Trim(s, "0123456789")]++
				}
			}
		}
	}
	t.Logf("%v", outcomes)
	for _, want := range []string{
		"all", "nothing", "the undo history is lost", "the song is damaged or missing", " of 8 pictures is damaged or missing",
		"the board is damaged: it was rebuilt from the undo history, and the last edits may be missing",
		"some settings are lost, such as where the film was left",
	} {
		if outcomes[want] == 0 {
			t.Errorf("no damage led to %q", want)
		}
	}
}

// TestSalvageSaysWhatIsMissing damages single rows of a film.
func TestSalvageSaysWhatIsMissing(t *testing.T) {
	const rebuilt = "the board is damaged: it was rebuilt from the undo history, and the last edits may be missing"
	worn, _, _ := wornFilm(t, 40)
	undone := undoneFilm(t, worn)
	for _, c := range []struct {
		name, statement string
		title           string
		want            []string
	}{
		{"the board's bytes", `UPDATE board SET json = x'00'`, "take 30", nil},
		{"the board's row", `DELETE FROM board`, "take 39", []string{rebuilt}},
		{"the board's row and a step after it", `DELETE FROM board; UPDATE patch SET data = x'00' WHERE id = 45`, "take 34",
			[]string{rebuilt, "the undo history is lost but for 44 steps"}},
		{"the grid", `UPDATE grid SET json = x'00'`, "take 30", nil},
		{"grid and spare boards", `UPDATE grid SET json = x'00'; DELETE FROM spare`, "take 30",
			[]string{"the beats of the song are lost; every panel keeps its time", "the undo history is lost"}},
		{"steps far behind", `UPDATE patch SET data = x'00' WHERE id = 5`, "take 30", []string{"the undo history is lost but for 45 steps"}},
		{"the step that led here", `DELETE FROM patch WHERE id = 40`, "take 30", []string{"the undo history is lost but for 10 steps"}},
		{"the steps on both sides", `DELETE FROM patch WHERE id IN (40, 41)`, "take 30", []string{"the undo history is lost"}},
		{"two pictures", `UPDATE content SET data = x'00' WHERE rowid < 3`, "take 30", []string{"2 of 8 pictures are damaged or missing"}},
		{"the song", `DELETE FROM media WHERE kind = 'song'`, "take 30", []string{"the song is damaged or missing"}},
		{"the names of media", `PRAGMA foreign_keys = OFF; DELETE FROM media`, "take 30", nil},
		{"the index of media", `PRAGMA writable_schema = ON; UPDATE sqlite_schema SET rootpage = 3 WHERE name = 'sqlite_autoindex_content_1'`, "take 30", nil},
		{"board and history", `PRAGMA foreign_keys = OFF; DELETE FROM board; DELETE FROM spare; DELETE FROM history`, "",
			[]string{"the board is lost, and the undo history with it: the 8 pictures that could be read lie in a row, a second each"}},
		{"a view in the place of the board", `ALTER TABLE board RENAME TO other;
			CREATE VIEW board AS WITH RECURSIVE n(i) AS (SELECT 1 UNION ALL SELECT i+1 FROM n) SELECT i AS id, i AS hash, i AS grid, i AS json, i AS step FROM n`,
			"take 39", []string{rebuilt}},
	} {
		t.Run(c.name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "film"+Ext)
			mustWrite(t, path, undone)
			tamper(t, path, c.statement)
			b, lost, err := salvageAnything(t, mustRead(t, path))
			if err != nil || !reflect.DeepEqual(lost, c.want) || b.Title != c.title {
				t.Errorf("%q, lost is %q, %v\nwant %q, %q", b.Title, lost, err, c.title, c.want)
			}
		})
	}
}

// undoneFilm is a worn film, ten steps of which were taken back: of 50 steps
// the 40 before "take 30" lead to the board.
func undoneFilm(t *testing.T, worn []byte) []byte {
	t.Helper()
	path := filepath.Join(t.TempDir(), "undone"+Ext)
	mustWrite(t, path, worn)
	f, _ := mustOpen(t, path)
	h := board.RestoreHistory(f.Past(), f)
	for range 10 {
		h.Undo()
	}
	if err := f.Save(h.Past()); err != nil {
		t.Fatal(err)
	}
	mustClose(t, f)
	return mustRead(t, path)
}

// tamper runs statements on a film as another program would.
func tamper(t *testing.T, path, statements string) {
	t.Helper()
	db := connect(source(path))
	defer db.Close()
	if _, err := db.Exec(statements); err != nil {
		t.Fatal(err)
	}
}
