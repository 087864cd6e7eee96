package file

import (
	"bytes"
	"crypto/sha256"
	"database/sql"
	"errors"
	"unsafe"

	"stillbeat/board"
)

// SaveBoard writes the board. When it returns nil the board is on disk and
// stays there through a crash or a power cut; on an error the film holds the
// board saved before.
func (f *File) SaveBoard(b board.Board) error {
	data, err := encodeBoard(b)
	if err != nil {
		return failed("save", f.path, err)
	}
	f.saving.Lock()
	defer f.saving.Unlock()
	if !sameGrid(b.Grid, f.grid) || f.gridHash == nil {
		return failedIf("save", f.path, f.saveWithGrid(b.Grid, data))
	}
	return failedIf("save", f.path, inTransaction(f.db, func(tx *sql.Tx) error {
		return writeBoard(tx, data, f.gridHash)
	}))
}

// saveWithGrid writes the grid, then the board's JSON, and forgets the grid
// that was.
func (f *File) saveWithGrid(g board.Grid, data []byte) error {
	grid, err := encode(g, maxJSON)
	if err != nil {
		return err
	}
	hash := sum(grid)
	err = inTransaction(f.db, func(tx *sql.Tx) error {
		if _, err := tx.Exec(`INSERT INTO grid (hash, json) VALUES (?, ?) ON CONFLICT DO NOTHING`, hash, grid); err != nil {
			return err
		}
		if err := writeBoard(tx, data, hash); err != nil {
			return err
		}
		_, err := tx.Exec(`DELETE FROM grid WHERE hash <> ?`, hash)
		return err
	})
	if err == nil {
		f.grid, f.gridHash = g, hash
	}
	return err
}

func writeBoard(tx *sql.Tx, data, grid []byte) error {
	_, err := tx.Exec(`INSERT INTO board (id, hash, grid, json) VALUES (1, ?, ?, ?)
		ON CONFLICT (id) DO UPDATE SET hash = excluded.hash, grid = excluded.grid, json = excluded.json`, sum(data), grid, data)
	return err
}

// readBoard returns the saved board and the hash of its grid, both checked.
func readBoard(tx *sql.Tx) (board.Board, []byte, error) {
	var long bool
	err := tx.QueryRow(`SELECT max(length(board.json), length(grid.json)) > ? FROM board JOIN grid ON grid.hash = board.grid`, maxJSON).Scan(&long)
	if errors.Is(err, sql.ErrNoRows) {
		return board.Board{}, nil, damaged("it holds no board")
	}
	if err != nil {
		return board.Board{}, nil, err
	}
	if long {
		return board.Board{}, nil, damaged("its board is larger than a board can be")
	}
	var hash, gridHash, data, gridData []byte
	err = tx.QueryRow(`SELECT board.hash, board.grid, board.json, grid.json FROM board JOIN grid ON grid.hash = board.grid`).
		Scan(&hash, &gridHash, &data, &gridData)
	if err != nil {
		return board.Board{}, nil, err
	}
	if !bytes.Equal(hash, sum(data)) || !bytes.Equal(gridHash, sum(gridData)) {
		return board.Board{}, nil, damaged("its board is not what was saved")
	}
	b, err := decodeBoard(data)
	if err == nil {
		b.Grid, err = decodeGrid(gridData)
	}
	if err == nil {
		err = check(b)
	}
	if err != nil {
		return board.Board{}, nil, damaged("its board cannot be used: %v", err)
	}
	return b, gridHash, nil
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
