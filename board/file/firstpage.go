package file

import (
	"context"
	"encoding/binary"
	"io"
	"os"
	"path/filepath"

	"stillbeat/board"
)

// pageSize is the size of a film's pages in bytes.
const pageSize = 4096

// More places in the first page ("Database File Format", section 1.3).
const (
	pagesAt = 28 // how many pages the file has
	freeAt  = 32 // the first free page and how many there are, 4 bytes each
	freeEnd = 40
)

// renewFirstPage gives the file at path the first page of a fresh film. There
// are the header and the schema, and in every film that was not brought up
// from an older version the same tables begin on the same pages.
func renewFirstPage(path string) error {
	fresh := filepath.Join(filepath.Dir(path), "fresh")
	if err := os.WriteFile(fresh, nil, 0o600); err != nil {
		return err
	}
	if err := write(fresh, board.New()); err != nil {
		return err
	}
	data, err := os.ReadFile(fresh)
	if err != nil {
		return err
	}
	file, err := os.OpenFile(path, os.O_RDWR, 0)
	if err != nil {
		return err
	}
	defer file.Close()
	info, err := file.Stat()
	if err != nil {
		return err
	}
	page := data[:pageSize]
	binary.BigEndian.PutUint32(page[pagesAt:], uint32(info.Size()/pageSize))
	clear(page[freeAt:freeEnd])
	_, err = file.WriteAt(page, 0)
	return err
}

// takeBack has SQLite take back what the journal of the file at path says. A
// journal that is damaged changes nothing.
func takeBack(path string) {
	db := connect(source(path))
	defer db.Close()
	var n int
	_ = db.QueryRow(`SELECT count(*) FROM sqlite_schema`).Scan(&n)
}

// copyOut copies what is read to a new file.
func copyOut(ctx context.Context, in io.Reader, to string) error {
	out, err := os.OpenFile(to, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o600)
	if err != nil {
		return err
	}
	for err == nil && ctx.Err() == nil {
		_, err = io.CopyN(out, in, 64<<20)
	}
	if err == io.EOF {
		err = nil
	}
	if err == nil {
		err = ctx.Err()
	}
	if e := out.Close(); err == nil {
		err = e
	}
	return err
}
