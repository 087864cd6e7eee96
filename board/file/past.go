package file

import (
	"bytes"
	"database/sql"
	"io/fs"

	"stillbeat/board"
)

// maxName bounds the name of a step, in bytes.
const maxName = 4096

// Past returns the history the film was opened with. The film is its shelf:
// of the boards only the current one is in memory, the others are read as
// undo and redo ask for them.
func (f *File) Past() board.Past { return f.past }

// Holds reports whether the step is on disk.
func (f *File) Holds(step board.StepID) bool {
	_, ok := f.row(step)
	return ok
}

func (f *File) row(step board.StepID) (row, bool) {
	f.shelf.Lock()
	defer f.shelf.Unlock()
	for _, r := range f.rows {
		if r.id == step {
			return r, true
		}
	}
	return row{}, false
}

// Before returns the board before a step, given the one after it.
func (f *File) Before(step board.StepID, after board.Board) (board.Board, error) {
	return f.across(step, after, true)
}

// After returns the board after a step, given the one before it.
func (f *File) After(step board.StepID, before board.Board) (board.Board, error) {
	return f.across(step, before, false)
}

func (f *File) across(step board.StepID, b board.Board, back bool) (board.Board, error) {
	r, ok := f.row(step)
	if !ok {
		return board.Board{}, failed("read from", f.path, reason{"it does not go back any further", fs.ErrNotExist})
	}
	here, err := newText(b, text{})
	if err != nil {
		return board.Board{}, failed("read from", f.path, err)
	}
	there, err := f.textAcross(r, here, back)
	if err == nil {
		b, err = there.decode(here)
	}
	if err != nil {
		return board.Board{}, failed("read from", f.path, damaged("a step of its history cannot be read (%v)", err))
	}
	return b, nil
}

// textAcross returns the text on the other side of a step.
func (f *File) textAcross(r row, here text, back bool) (text, error) {
	var patch []byte
	if err := f.db.QueryRow(`SELECT data FROM patch WHERE id = ? AND length(data) <= ?`, int64(r.id), MaxPast).Scan(&patch); err != nil {
		return text{}, err
	}
	there, err := here.patched(patch, back)
	if err != nil {
		return text{}, err
	}
	want := r.after
	if back {
		want = r.before
	}
	if !bytes.Equal(there.hash(), want) {
		return text{}, errPatch
	}
	return there, nil
}

// readPast reads what steps there are. Steps that do not belong together, or
// not to the board, are passed over and go with the next save.
func (f *File) readPast(tx *sql.Tx, b board.Board) error {
	var at int64
	if err := tx.QueryRow(`SELECT step FROM board`).Scan(&at); err != nil {
		return err
	}
	rows, err := readRows(tx)
	if err != nil {
		return err
	}
	if f.spares, err = readSpares(tx); err != nil {
		return err
	}
	f.at, f.newest = board.StepID(at), board.StepID(at)
	f.rows, f.past = joined(rows, f.at, f.now.hash(), &b)
	for _, r := range f.rows {
		f.newest = max(f.newest, r.id)
	}
	f.texts = map[*board.Board]text{&b: f.now}
	return nil
}

// joined returns the steps in rows that lead without a gap to the board, which
// is at step at and has a hash, and on from it.
func joined(rows []row, at board.StepID, hash []byte, b *board.Board) ([]row, board.Past) {
	now := 0 // steps before the board
	for i, r := range rows {
		if r.id == at {
			now = i + 1
		}
	}
	first, last := now, now
	for h := hash; first > 0 && bytes.Equal(rows[first-1].after, h); first-- {
		h = rows[first-1].before
	}
	for h := hash; last < len(rows) && bytes.Equal(rows[last].before, h); last++ {
		h = rows[last].after
	}
	past := board.Past{Steps: []board.Step{{}}, At: now - first}
	for _, r := range rows[first:last] {
		past.Steps = append(past.Steps, board.Step{ID: r.id, Name: r.name})
	}
	past.Steps[past.At].Board, past.Steps[past.At].ID = b, at
	return rows[first:last], past
}
