package file

import (
	"database/sql"
	"errors"
	"fmt"
	"unicode/utf8"
)

// maxSetting is the length of the longest key or value, in bytes.
const maxSetting = 64 << 10

// SetSetting keeps a value in the film that is not part of the board: the
// place in the film, the zoom. An empty value takes the setting away.
func (f *File) SetSetting(key, value string) error {
	for _, s := range []string{key, value} {
		if len(s) > maxSetting || !utf8.ValidString(s) {
			return failed("save", f.path, fmt.Errorf("the setting %.80q is too long or not readable text", key))
		}
	}
	if err := f.writable(); err != nil {
		return failed("save", f.path, err)
	}
	statement, args := `INSERT INTO setting (key, value) VALUES (?, ?) ON CONFLICT (key) DO UPDATE SET value = excluded.value`, []any{key, value}
	if value == "" {
		statement, args = `DELETE FROM setting WHERE key = ?`, []any{key}
	}
	return failedIf("save", f.path, inTransaction(f.db, func(tx *sql.Tx) error {
		_, err := tx.Exec(statement, args...)
		return err
	}))
}

// Setting returns the value of a setting, "" if it was never set.
func (f *File) Setting(key string) (string, error) {
	var value string
	err := f.db.QueryRow(`SELECT value FROM setting WHERE key = ?`, key).Scan(&value)
	if errors.Is(err, sql.ErrNoRows) {
		return "", nil
	}
	return value, failedIf("read from", f.path, err)
}
