package file

import (
	"database/sql"

	"stillbeat/board"
)

// astray returns where in a damaged film a picture or song lies that its index
// does not find.
func (f *File) astray(id board.MediaID) (row int64, ok bool) {
	if f.salvage == nil {
		return 0, false
	}
	row, ok = f.salvage.place[id]
	return row, ok
}

// mend writes what could be read of a damaged film into an empty file, as a
// whole film.
func (f *File) mend(path string) error {
	if err := write(path, f.past.Board()); err != nil {
		return err
	}
	db := connect(draftSource(path))
	defer db.Close()
	err := inTransaction(db, func(tx *sql.Tx) error {
		for _, m := range f.salvage.media {
			data, err := f.Media(m.id)
			if err != nil {
				return err
			}
			if err := addMedia(tx, m.id, m.kind, Media{Name: m.name, Data: data}); err != nil {
				return err
			}
		}
		for key, value := range f.salvage.settings {
			if _, err := tx.Exec(`INSERT INTO setting (key, value) VALUES (?, ?)`, key, value); err != nil {
				return err
			}
		}
		return f.mendPast(tx)
	})
	if err != nil {
		return err
	}
	return db.Close()
}

// mendPast copies the steps of the history that can be read.
func (f *File) mendPast(tx *sql.Tx) error {
	for _, r := range f.rows {
		var patch []byte
		if err := f.db.QueryRow(`SELECT data FROM patch WHERE id = ?`, int64(r.id)).Scan(&patch); err != nil {
			return err
		}
		if err := insertStep(tx, r, patch); err != nil {
			return err
		}
	}
	_, err := tx.Exec(`UPDATE board SET step = ?`, int64(f.at))
	return err
}
