package file

import (
	"bytes"
	"encoding/binary"
	"errors"
	"io"
	"os"
)

// The first bytes of a SQLite file ("Database File Format", section 1.3).
const (
	headerSize      = 100
	writeVersionAt  = 18 // 1: rollback journal, 2: write-ahead log
	readVersionAt   = 19
	userVersionAt   = 60
	applicationAt   = 68
	rollbackJournal = 1
)

var magic = []byte("SQLite format 3\x00")

// checkHeader refuses what is not a film before SQLite sees the file, for
// SQLite may write to a file it is given.
func checkHeader(f *os.File) error {
	head := make([]byte, headerSize)
	n, err := f.ReadAt(head, 0)
	if err != nil && !errors.Is(err, io.EOF) {
		return err
	}
	switch {
	case !bytes.HasPrefix(head[:n], magic):
		return ErrNotFilm
	case n < headerSize:
		return damaged("it is cut off after %d bytes", n)
	case binary.BigEndian.Uint32(head[applicationAt:]) != applicationID:
		return ErrNotFilm
	}
	version := int32(binary.BigEndian.Uint32(head[userVersionAt:]))
	if err := checkVersion(int(version)); err != nil {
		return err
	}
	if head[writeVersionAt] != rollbackJournal || head[readVersionAt] != rollbackJournal {
		return damaged("it asks for a log that films do not have")
	}
	return nil
}
