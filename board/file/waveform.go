package file

import (
	"database/sql"
	"errors"
	"fmt"

	"stillbeat/board"
)

// MaxWaveform is the size of the largest waveform, in bytes: that of three
// hours of song.
const MaxWaveform = 64 << 20

// SaveWaveform keeps the waveform of a song that is in the film, as bytes that
// mean nothing here. It can be made anew from the song at any time.
func (f *File) SaveWaveform(song board.MediaID, data []byte) error {
	if len(data) == 0 || len(data) > MaxWaveform {
		return failed("save", f.path, fmt.Errorf("a waveform of %d bytes cannot be kept", len(data)))
	}
	return failedIf("save", f.path, inTransaction(f.db, func(tx *sql.Tx) error {
		_, err := tx.Exec(`INSERT INTO waveform (id, data) VALUES (?, ?) ON CONFLICT (id) DO UPDATE SET data = excluded.data`,
			string(song), data)
		return err
	}))
}

// Waveform returns what SaveWaveform kept for a song, nil if there is nothing.
// The bytes may be damaged: whoever reads them checks them. It may be called
// from several goroutines.
func (f *File) Waveform(song board.MediaID) ([]byte, error) {
	var data []byte
	err := f.db.QueryRow(`SELECT data FROM waveform WHERE id = ? AND length(data) <= ?`, string(song), MaxWaveform).Scan(&data)
	if errors.Is(err, sql.ErrNoRows) {
		return nil, nil
	}
	return data, failedIf("read from", f.path, err)
}
