package file

import (
	"bytes"
	"context"
	"database/sql"
	"encoding/hex"
	"errors"
	"fmt"
	"io/fs"
	"strings"

	"stillbeat/board"
)

// The kinds of media.
const (
	Picture = "picture"
	Song    = "song"
	Sketch  = "sketch"
)

// MaxMedia is the size of the largest picture or song, in bytes.
const MaxMedia = 512 << 20

// Media is a picture or a song as it was brought in: the name of its file
// and its bytes.
type Media struct {
	Name string
	Data []byte
	Base board.MediaID // of a sketch: the one it was made of, if there is one
}

// AddMedia stores media of a kind and returns their
// ids in order: all of them are stored or, on an error, none. Bytes that are
// already in the film are not stored again and keep their first name. Bytes
// of a name that are not UTF-8 are replaced by U+FFFD.
func (f *File) AddMedia(kind string, items ...Media) ([]board.MediaID, error) {
	return f.AddAll(context.Background(), kind, items, nil)
}

// AddAll is AddMedia for many: when ctx ends, nothing of them is stored.
// progress, if not nil, is told the part done, 0 to 1.
func (f *File) AddAll(ctx context.Context, kind string, items []Media, progress func(float64)) ([]board.MediaID, error) {
	ids := make([]board.MediaID, len(items))
	for i, m := range items {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		if err := checkMedia(kind, m); err != nil {
			return nil, failed("add to", f.path, err)
		}
		ids[i] = board.MediaID(hex.EncodeToString(sum(m.Data)))
	}
	if err := f.writable(); err != nil {
		return nil, failed("add to", f.path, err)
	}
	err := inTransaction(f.db, func(tx *sql.Tx) error {
		for i, m := range items {
			if err := ctx.Err(); err != nil {
				return err
			}
			if err := addMedia(tx, ids[i], kind, m); err != nil {
				return err
			}
			if progress != nil {
				progress(float64(i+1) / float64(len(items)))
			}
		}
		return nil
	})
	if ctx.Err() != nil && err != nil {
		return nil, ctx.Err()
	}
	if err != nil {
		return nil, failed("add to", f.path, err)
	}
	return ids, nil
}

func checkMedia(kind string, m Media) error {
	switch {
	case kind != Picture && kind != Song && kind != Sketch:
		return fmt.Errorf("%q is no kind of media", kind)
	case len(m.Data) == 0:
		return fmt.Errorf("the %s %q is empty", kind, m.Name)
	case len(m.Data) > MaxMedia:
		return fmt.Errorf("the %s %q has %d MB: a film takes at most %d MB in one file", kind, m.Name, len(m.Data)>>20, MaxMedia>>20)
	}
	return nil
}

func addMedia(tx *sql.Tx, id board.MediaID, kind string, m Media) error {
	done, err := tx.Exec(`INSERT INTO media (id, kind, name) VALUES (?, ?, ?) ON CONFLICT DO NOTHING`,
		string(id), kind, strings.ToValidUTF8(m.Name, "\uFFFD"))
	if err != nil {
		return err
	}
	if added, err := done.RowsAffected(); err != nil || added == 0 {
		return err
	}
	if done, err := addAlike(tx, id, m); done || err != nil {
		return err
	}
	_, err = tx.Exec(`INSERT INTO content (id, data) VALUES (?, ?)`, string(id), m.Data)
	return err
}

// Media returns the bytes of a picture or song. Bytes that are not what was
// stored are not returned: the error is ErrDamaged. An id the film does not
// hold is fs.ErrNotExist. It may be called from several goroutines.
func (f *File) Media(id board.MediaID) ([]byte, error) {
	query, arg := `SELECT data FROM content WHERE id = ?`, any(string(id))
	if row, ok := f.astray(id); ok {
		query, arg = `SELECT data FROM content NOT INDEXED WHERE rowid = ?`, row
	}
	var data []byte
	err := f.db.QueryRow(query, arg).Scan(&data)
	if errors.Is(err, sql.ErrNoRows) && f.alike(id) {
		if data, _, err = alike(f.db, id); err != nil {
			return nil, failed("read from", f.path, damaged("the sketch %.12s is not what was stored", id))
		}
	}
	if err != nil {
		return nil, failed("read from", f.path, missing(id, err))
	}
	if want, err := hex.DecodeString(string(id)); err != nil || !bytes.Equal(sum(data), want) {
		return nil, failed("read from", f.path, damaged("the picture or song %.12s is not what was stored", id))
	}
	return data, nil
}

// alike reports whether a sketch is stored as made of another one. A film of an
// earlier version has none.
func (f *File) alike(id board.MediaID) bool {
	var there bool
	return f.db.QueryRow(`SELECT EXISTS (SELECT 1 FROM alike WHERE id = ?)`, string(id)).Scan(&there) == nil && there
}

// MediaName returns the name under which a picture or song was brought in.
func (f *File) MediaName(id board.MediaID) (string, error) {
	var name string
	err := f.db.QueryRow(`SELECT name FROM media WHERE id = ?`, string(id)).Scan(&name)
	return name, failedIf("read from", f.path, missing(id, err))
}

func missing(id board.MediaID, err error) error {
	if errors.Is(err, sql.ErrNoRows) {
		return reason{fmt.Sprintf("it does not hold the picture or song %.12q", string(id)), fs.ErrNotExist}
	}
	return err
}
