package file

import (
	"database/sql"
	"encoding/json"
	"fmt"
	"path/filepath"
	"syscall"

	"stillbeat/board"
)

// Compact drops the history, and pictures and songs the saved board does not
// use, and gives their room back to the disk; it returns how many bytes the
// film is smaller. A copy of the film is made on the way: without room for it
// nothing is dropped. Callers drop their history too, also on an error if the
// film Holds none of its steps any more.
func (f *File) Compact() (won int64, err error) {
	f.saving.Lock()
	defer f.saving.Unlock()
	won, err = f.compact()
	return won, failedIf("compact", f.path, err)
}

func (f *File) compact() (int64, error) {
	if err := f.writable(); err != nil {
		return 0, err
	}
	before, err := f.size()
	if err != nil {
		return 0, err
	}
	if free, known := freeSpace(filepath.Dir(f.abs)); known && free < 2*before {
		return 0, reason{fmt.Sprintf("that takes up to %d MB beside the film for a moment, and the disk has %d MB free", 2*before>>20+1, free>>20), syscall.ENOSPC}
	}
	c := &change{now: f.now, at: f.at}
	c.planSpare(nil)
	err = inTransaction(f.db, func(tx *sql.Tx) error {
		if err := c.writePast(tx); err != nil {
			return err
		}
		return dropUnused(tx)
	})
	if err != nil {
		return 0, err
	}
	f.took(c)
	if _, err := f.db.Exec(`VACUUM`); err != nil {
		return 0, err
	}
	after, err := f.size()
	return before - after, err
}

func (f *File) size() (int64, error) {
	info, err := f.claim.file().Stat()
	if err != nil {
		return 0, err
	}
	return info.Size(), nil
}

// dropUnused deletes the media the saved board does not use.
func dropUnused(tx *sql.Tx) error {
	b, _, err := readBoard(tx)
	if err != nil {
		return err
	}
	if err := makeWhole(tx, b.Media()); err != nil {
		return err
	}
	used, err := json.Marshal(append([]board.MediaID{""}, b.Media()...)) // never null
	if err != nil {
		return err
	}
	_, err = tx.Exec(`DELETE FROM media WHERE id NOT IN (SELECT value FROM json_each(?))`, string(used))
	return err
}
