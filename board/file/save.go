package file

import (
	"bytes"
	"crypto/sha256"
	"database/sql"
	"errors"
	"unsafe"

	"stillbeat/board"
)

// Save writes the board with the steps that led to it and those that can be
// redone, in one transaction. When it returns nil they are on disk and stay
// there through a crash or a power cut; on an error the film holds what was
// saved before. Steps beyond MaxPast bytes are let go, the oldest first.
func (f *File) Save(p board.Past) error {
	f.saving.Lock()
	defer f.saving.Unlock()
	return failedIf("save", f.path, f.save(p))
}

// SaveBoard writes a board that no steps led to.
func (f *File) SaveBoard(b board.Board) error { return f.Save(board.NewPast(b)) }

func (f *File) save(p board.Past) error {
	if err := f.writable(); err != nil {
		return err
	}
	c, err := f.plan(p)
	if err != nil {
		return err
	}
	if err := inTransaction(f.db, c.write); err != nil {
		f.holdOver(c)
		return err
	}
	f.took(c)
	return nil
}

// write makes the change.
func (c *change) write(tx *sql.Tx) error {
	if _, err := tx.Exec(`INSERT INTO grid (hash, json) VALUES (?, ?) ON CONFLICT DO NOTHING`, c.now.gridHash, c.now.grid); err != nil {
		return err
	}
	if err := writeBoard(tx, c.now, c.at); err != nil {
		return err
	}
	if _, err := tx.Exec(`DELETE FROM grid WHERE hash <> ?`, c.now.gridHash); err != nil {
		return err
	}
	return c.writePast(tx)
}

func writeBoard(tx *sql.Tx, t text, at board.StepID) error {
	_, err := tx.Exec(`INSERT INTO board (id, hash, grid, json, step) VALUES (1, ?, ?, ?, ?)
		ON CONFLICT (id) DO UPDATE SET hash = excluded.hash, grid = excluded.grid, json = excluded.json, step = excluded.step`,
		t.boardHash, t.gridHash, t.board, int64(at))
	return err
}

// readBoard returns the saved board and its text, both checked.
func readBoard(tx *sql.Tx) (board.Board, text, error) {
	var long bool
	err := tx.QueryRow(`SELECT max(length(board.json), length(grid.json)) > ? FROM board JOIN grid ON grid.hash = board.grid`, maxJSON).Scan(&long)
	if errors.Is(err, sql.ErrNoRows) {
		return board.Board{}, text{}, damaged("it holds no board")
	}
	if err != nil {
		return board.Board{}, text{}, err
	}
	if long {
		return board.Board{}, text{}, damaged("its board is larger than a board can be")
	}
	var t text
	err = tx.QueryRow(`SELECT board.hash, board.grid, board.json, grid.json FROM board JOIN grid ON grid.hash = board.grid`).
		Scan(&t.boardHash, &t.gridHash, &t.board, &t.grid)
	if err != nil {
		return board.Board{}, text{}, err
	}
	if !bytes.Equal(t.boardHash, sum(t.board)) || !bytes.Equal(t.gridHash, sum(t.grid)) {
		return board.Board{}, text{}, damaged("its board is not what was saved")
	}
	b, err := t.decode(text{})
	if err != nil {
		return board.Board{}, text{}, damaged("its board cannot be used: %v", err)
	}
	return b, t, nil
}

// sameGrid reports whether a and b share their beats and onsets, which are
// never changed in place: then neither needs to be read.
func sameGrid(a, b board.Grid) bool {
	return a.Tempo == b.Tempo && a.Confidence == b.Confidence && a.Metre == b.Metre &&
		sameSlice(a.Beats, b.Beats) && sameSlice(a.Onsets, b.Onsets) &&
		sameSlice(a.Unsure, b.Unsure) && sameSlice(a.Locks, b.Locks)
}

func sameSlice[T any](a, b []T) bool {
	return len(a) == len(b) && unsafe.SliceData(a) == unsafe.SliceData(b)
}

func sum(data []byte) []byte {
	h := sha256.Sum256(data)
	return h[:]
}
