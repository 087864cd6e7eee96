package file

import (
	"encoding/hex"
	"fmt"
	"math/rand/v2"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"stillbeat/board"
)

// trail lists the boards of a history by name and JSON, oldest first, by
// walking through it, and leaves it where it was.
func trail(t *testing.T, h *board.History) (out []string) {
	t.Helper()
	h.Lost = func(err error) { t.Errorf("a step is lost: %v", err) }
	at := h.Past().At
	for h.Undo() {
	}
	out = append(out, jsonOf(t, h.Board()))
	for h.RedoName() != "" {
		name := h.RedoName()
		h.Redo()
		out = append(out, name+": "+jsonOf(t, h.Board()))
	}
	for h.Past().At > at {
		h.Undo()
	}
	return out
}

func reopened(t *testing.T, f *File) (*File, *board.History) {
	t.Helper()
	mustClose(t, f)
	f, _ = mustOpen(t, f.Path())
	return f, board.RestoreHistory(f.Past(), f)
}

func mustSave(t *testing.T, f *File, h *board.History) {
	t.Helper()
	if err := f.Save(h.Past()); err != nil {
		t.Fatal(err)
	}
}

// TestHistorySurvives edits, undoes and redoes at random, saves now and then,
// and compares the history after each reopening with one that stayed in
// memory.
func TestHistorySurvives(t *testing.T) {
	path := filepath.Join(t.TempDir(), "film"+Ext)
	b := longBoard(20, 60, 90)
	f := mustCreate(t, path, b)
	inMemory, onDisk := board.NewHistory(b), board.RestoreHistory(f.Past(), f)
	r := rand.New(rand.NewPCG(4, 2))
	for range 6 {
		for range 20 {
			var e board.Edit
			switch n := r.IntN(len(b.Panels)); r.IntN(9) {
			case 0, 1:
				inMemory.Undo()
				onDisk.Undo()
				continue
			case 2:
				inMemory.Redo()
				onDisk.Redo()
				continue
			case 3:
				e = board.SetTitle(fmt.Sprint("take ", r.IntN(1000))) // several in a row are one step
			case 4:
				e = board.SetHold([]int{n}, board.Frame(r.IntN(40)+1))
			case 5:
				e = board.Duplicate([]int{n})
			case 6:
				e = board.MoveBeat(r.IntN(50), inMemory.Board().Grid.Beats[r.IntN(50)].Time+0.01)
			case 7:
				e = board.SlideSong(float64(r.IntN(100)) / 100)
			case 8:
				e = board.Delete([]int{n})
			}
			if errA, errB := inMemory.Do(e), onDisk.Do(e); (errA == nil) != (errB == nil) {
				t.Fatalf("%s: %v in memory, %v on disk", e.Name, errA, errB)
			}
			if r.IntN(3) == 0 {
				mustSave(t, f, onDisk)
			}
		}
		mustSave(t, f, onDisk)
		f, onDisk = reopened(t, f)
		inMemory.Close() // a new window begins a new run of typing
		if jsonOf(t, onDisk.Board()) != jsonOf(t, inMemory.Board()) || onDisk.UndoName() != inMemory.UndoName() {
			t.Fatalf("reopened at %q, want %q", onDisk.UndoName(), inMemory.UndoName())
		}
		if got, want := trail(t, onDisk), trail(t, inMemory); !reflect.DeepEqual(got, want) {
			t.Fatalf("the history has %d boards, want %d, or differs", len(got), len(want))
		}
	}
}

func TestTypedTextIsOneStepOnDisk(t *testing.T) {
	f := mustCreate(t, filepath.Join(t.TempDir(), "film"+Ext), board.New())
	h := board.RestoreHistory(f.Past(), f)
	for _, text := range []string{"k", "ke", "ket", "kettle"} {
		if err := h.Do(board.SetTitle(text)); err != nil {
			t.Fatal(err)
		}
		mustSave(t, f, h)
	}
	if n := countRows(t, f, "history"); n != 1 {
		t.Errorf("%d steps are on disk, want 1", n)
	}
	if n := countRows(t, f, "patch"); n != 1 {
		t.Errorf("%d patches are on disk, want 1", n)
	}
	_, h = reopened(t, f)
	if h.UndoName() != "film title" || !h.Undo() || h.Board().Title != "" || h.Undo() {
		t.Errorf("undo gives %q", h.Board().Title)
	}
}

func TestHistoryOnDiskIsBounded(t *testing.T) {
	f := mustCreate(t, filepath.Join(t.TempDir(), "film"+Ext), board.New())
	h := board.RestoreHistory(f.Past(), f)
	for i := range board.MaxHistory + 40 {
		if err := h.Do(board.SetTitle(fmt.Sprint(i))); err != nil {
			t.Fatal(err)
		}
		h.Close()
		if i%20 == 19 {
			mustSave(t, f, h)
		}
	}
	if n := countRows(t, f, "history"); n != board.MaxHistory {
		t.Errorf("%d steps are on disk, want %d", n, board.MaxHistory)
	}
	f, h = reopened(t, f)
	for h.Undo() {
	}
	if h.Board().Title != "39" {
		t.Errorf("the oldest board is %q, want 39", h.Board().Title)
	}
	// Taken back as far as it goes and edited there, nothing else is left.
	if err := h.Do(board.SetStep(2)); err != nil {
		t.Fatal(err)
	}
	mustSave(t, f, h)
	if n := countRows(t, f, "history"); n != 1 {
		t.Errorf("%d steps are on disk, want 1", n)
	}
	if n := countRows(t, f, "spare"); n != 1 {
		t.Errorf("%d spare boards are on disk, want 1", n)
	}
}

// TestHistoryTakesLimitedRoom makes steps that can hardly be packed.
func TestHistoryTakesLimitedRoom(t *testing.T) {
	defer func(was int) { pastRoom = was }(pastRoom)
	pastRoom = 100 << 10
	f := mustCreate(t, filepath.Join(t.TempDir(), "film"+Ext), longBoard(12, 10, 10))
	h := board.RestoreHistory(f.Past(), f)
	rewrite := func(seed, size int) {
		t.Helper()
		i, noise := 0, hex.EncodeToString(noise(12*size, uint64(seed)))
		err := h.Do(board.Write([]int{0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11}, "words", func(w *board.Words) {
			w.Note = noise[i*2*size : (i+1)*2*size]
			i++
		}))
		if err != nil {
			t.Fatal(err)
		}
		h.Close()
		mustSave(t, f, h)
	}
	const steps = 22
	for n := range steps {
		rewrite(n, 800)
	}
	var size int
	const sizes = `SELECT CAST(total(length(data)) AS INTEGER) FROM (SELECT data FROM patch UNION ALL SELECT data FROM spare)`
	if err := f.db.QueryRow(sizes).Scan(&size); err != nil {
		t.Fatal(err)
	}
	n := countRows(t, f, "history")
	if size > pastRoom || size < pastRoom/2 || n == steps {
		t.Errorf("%d steps take %d bytes of %d", n, size, pastRoom)
	}
	f, h = reopened(t, f)
	if got := len(trail(t, h)); got != n+1 {
		t.Errorf("%d boards are found, want %d", got, n+1)
	}

	rewrite(99, 9000) // a step too large by itself
	if n := countRows(t, f, "history"); n != 0 {
		t.Errorf("%d steps are on disk", n)
	}
	if err := h.Do(board.SetStep(3)); err != nil {
		t.Fatal(err)
	}
	mustSave(t, f, h)
	f, h = reopened(t, f)
	if got := len(trail(t, h)); got != 2 {
		t.Errorf("%d boards are found, want 2", got)
	}
	checkWhole(t, f)
}

func TestDamagedStepEndsTheHistory(t *testing.T) {
	film, _, _ := wornFilm(t, 6)
	path := filepath.Join(t.TempDir(), "film"+Ext)
	mustWrite(t, path, film)
	tamper(t, path, `UPDATE patch SET data = x'00' WHERE id = 12`)
	f, b := mustOpen(t, path)
	h := board.RestoreHistory(f.Past(), f)
	var lost error
	h.Lost = func(err error) { lost = err }
	for h.Undo() {
	}
	checkError(t, lost, ErrDamaged, `read from film "film.stillbeat": the film is damaged: a step of its history cannot be read (a step of the history does not fit its board)`)
	if h.Board().Title != "take 2" || h.UndoName() != "" {
		t.Errorf("undo ended at %q", h.Board().Title)
	}
	for h.Redo() {
	}
	checkBoard(t, h.Board(), b)
	if err := h.Do(board.SetTitle("on")); err != nil {
		t.Fatal(err)
	}
	mustSave(t, f, h)
	_, h = reopened(t, f)
	if got := len(trail(t, h)); got != 6 {
		t.Errorf("%d boards are left, want 6", got)
	}
}

// TestStrangeHistory opens films whose history is not what was stored: the
// board comes as it is, the history as far as it fits.
func TestStrangeHistory(t *testing.T) {
	film, _, _ := wornFilm(t, 6)
	for _, c := range []struct {
		name, statement string
		want            int // boards
	}{
		{"as it was", `SELECT 1`, 17},
		{"a gap", `DELETE FROM history WHERE id = 10`, 7},
		{"a patch gone", `DELETE FROM patch WHERE id = 10`, 7},
		{"another board after", `UPDATE history SET after = x'00' WHERE id = 10`, 7},
		{"a name of a megabyte", `UPDATE history SET name = hex(zeroblob(500000)) WHERE id = 10`, 7},
		{"at no step", `UPDATE board SET step = 99`, 1},
		{"at another step", `UPDATE board SET step = 3`, 1},
		{"steps that go on from nothing", `INSERT INTO history SELECT id + 100, name, before, after FROM history`, 17},
		{"no steps", `DELETE FROM history`, 1},
	} {
		t.Run(c.name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "film"+Ext)
			mustWrite(t, path, film)
			tamper(t, path, `PRAGMA foreign_keys = ON; `+c.statement)
			f, _ := mustOpen(t, path)
			h := board.RestoreHistory(f.Past(), f)
			if got := len(trail(t, h)); got != c.want {
				t.Errorf("%d boards, want %d", got, c.want)
			}
			if err := h.Do(board.SetTitle("on")); err != nil {
				t.Fatal(err)
			}
			mustSave(t, f, h)
			_, h = reopened(t, f)
			if got := len(trail(t, h)); got != c.want+1 {
				t.Errorf("%d boards after an edit, want %d", got, c.want+1)
			}
		})
	}
}

// firstVersion returns a film of the first version, which had no history.
func firstVersion(t *testing.T, b board.Board) []byte {
	t.Helper()
	path := filepath.Join(t.TempDir(), "first"+Ext)
	mustWrite(t, path, nil)
	db := connect(source(path))
	defer db.Close()
	written, err := newText(b, text{})
	if err != nil {
		t.Fatal(err)
	}
	for _, s := range append(migrations[0], fmt.Sprintf(`PRAGMA application_id = %d`, applicationID), `PRAGMA user_version = 1`) {
		if _, err := db.Exec(s); err != nil {
			t.Fatal(err)
		}
	}
	if _, err := db.Exec(`INSERT INTO grid VALUES (?1, ?2); `, written.gridHash, written.grid); err != nil {
		t.Fatal(err)
	}
	if _, err := db.Exec(`INSERT INTO board VALUES (1, ?, ?, ?)`, written.boardHash, written.gridHash, written.board); err != nil {
		t.Fatal(err)
	}
	return mustRead(t, path)
}

func TestFilmOfTheFirstVersion(t *testing.T) {
	want := longBoard(5, 8, 9)
	film := firstVersion(t, want)
	path := filepath.Join(t.TempDir(), "film"+Ext)
	mustWrite(t, path, film)
	f, b, err := OpenReadOnly(path)
	if err != nil {
		t.Fatal(err)
	}
	checkBoard(t, b, want)
	mustClose(t, f)
	checkUntouched(t, path, film)
	if b, lost, err := salvageAnything(t, film); err != nil || len(lost) != 2 || b.Title != want.Title {
		t.Errorf("salvaged %q, lost %q, %v", b.Title, lost, err) // pictures and song are made up
	}

	f, b = mustOpen(t, path)
	checkBoard(t, b, want)
	h := board.RestoreHistory(f.Past(), f)
	if err := h.Do(board.SetTitle("now with a history")); err != nil {
		t.Fatal(err)
	}
	mustSave(t, f, h)
	_, h = reopened(t, f)
	if !h.Undo() || h.Board().Title != want.Title || strings.Contains(h.Board().Title, "now") {
		t.Errorf("undo gives %q", h.Board().Title)
	}
}
