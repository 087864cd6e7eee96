package file

import (
	"bytes"
	"database/sql"
	"encoding/hex"
	"errors"

	"stillbeat/board"
)

// Each stroke makes a new sketch of the one before. They are stored as how they
// are made of each other, and every so many whole.

// maxAlike is how many sketches are made of each other in a row.
const maxAlike = 32

// maxSketch is the size of the largest sketch that is stored like that, in
// bytes.
const maxSketch = 8 << 20

// asker asks one row of the film: the database, or a transaction.
type asker interface {
	QueryRow(query string, args ...any) *sql.Row
}

// alike returns the bytes of a sketch that is stored as made of another one,
// and how many lie between it and a whole one; nil if it is not.
func alike(db asker, id board.MediaID) (data []byte, depth int, err error) {
	return alikeFrom(id, func(id board.MediaID) (base board.MediaID, likeness, whole []byte, err error) {
		err = db.QueryRow(`SELECT data FROM content WHERE id = ?`, string(id)).Scan(&whole)
		if errors.Is(err, sql.ErrNoRows) {
			err = db.QueryRow(`SELECT base, data FROM alike WHERE id = ? AND length(data) <= ?`, string(id), maxSketch).Scan(&base, &likeness)
		}
		return base, likeness, whole, err
	})
}

// alikeFrom puts a sketch together of what read returns: its bytes, or what it
// is made of.
func alikeFrom(id board.MediaID, read func(board.MediaID) (base board.MediaID, likeness, whole []byte, err error)) (data []byte, depth int, err error) {
	var steps [][]byte
	for at := id; ; depth++ {
		base, likeness, whole, err := read(at)
		if err != nil {
			return nil, 0, err
		}
		if whole != nil {
			data = whole
			break
		}
		if depth > maxAlike || likeness == nil {
			return nil, 0, errLikeness
		}
		steps, at = append(steps, likeness), base
	}
	for i := len(steps) - 1; i >= 0; i-- {
		if data, err = applyLikeness(data, steps[i], maxSketch); err != nil {
			return nil, 0, err
		}
	}
	if want, err := hex.DecodeString(string(id)); err != nil || !bytes.Equal(sum(data), want) {
		return nil, 0, errLikeness
	}
	return data, depth, nil
}

// addAlike stores a sketch as made of another one, if that is in the film and
// it is worth it. It reports whether it did.
func addAlike(tx *sql.Tx, id board.MediaID, m Media) (bool, error) {
	if m.Base == "" || len(m.Data) > maxSketch {
		return false, nil
	}
	base, depth, err := alike(tx, m.Base)
	if err != nil || depth >= maxAlike {
		return false, nil // it is stored whole
	}
	likeness := makeLikeness(base, m.Data)
	if len(likeness) > len(m.Data)/2 {
		return false, nil
	}
	_, err = tx.Exec(`INSERT INTO alike (id, base, data) VALUES (?, ?, ?)`, string(id), string(m.Base), likeness)
	return err == nil, err
}

// makeWhole stores the given media whole, so that others can be dropped.
func makeWhole(tx *sql.Tx, ids []board.MediaID) error {
	for _, id := range ids {
		var there bool
		if err := tx.QueryRow(`SELECT EXISTS (SELECT 1 FROM alike WHERE id = ?)`, string(id)).Scan(&there); err != nil {
			return err
		}
		if !there {
			continue
		}
		data, _, err := alike(tx, id)
		if err != nil {
			return damaged("the sketch %.12s is not what was stored", id)
		}
		if _, err := tx.Exec(`INSERT INTO content (id, data) VALUES (?, ?)`, string(id), data); err != nil {
			return err
		}
		if _, err := tx.Exec(`DELETE FROM alike WHERE id = ?`, string(id)); err != nil {
			return err
		}
	}
	return nil
}
