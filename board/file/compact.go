package file

import (
	"database/sql"
	"encoding/json"

	"stillbeat/board"
)

// Compact drops pictures and songs the saved board does not use and gives
// their room back to the disk. An undo to a board that used them would find
// them gone, so callers drop their history too.
func (f *File) Compact() error { return failedIf("compact", f.path, f.compact()) }

func (f *File) compact() error {
	err := inTransaction(f.db, func(tx *sql.Tx) error {
		b, _, err := readBoard(tx)
		if err != nil {
			return err
		}
		used, err := json.Marshal(mediaOf(b))
		if err != nil {
			return err
		}
		_, err = tx.Exec(`DELETE FROM media WHERE id NOT IN (SELECT value FROM json_each(?))`, string(used))
		return err
	})
	if err != nil {
		return err
	}
	_, err = f.db.Exec(`VACUUM`)
	return err
}

// mediaOf returns the ids of the pictures and the song of a board.
func mediaOf(b board.Board) []board.MediaID {
	ids := []board.MediaID{}
	if b.Song != nil {
		ids = append(ids, b.Song.Media)
	}
	for _, p := range b.Panels {
		ids = append(ids, p.Picture)
	}
	return ids
}
