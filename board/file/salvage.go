package file

import (
	"context"
	"errors"
	"io"
	"os"
	"path/filepath"

	"stillbeat/board"
)

// salvaged is what is known of a film that is damaged.
type salvaged struct {
	lost     []string                // what is missing, a sentence each
	media    []medium                // that are whole
	place    map[board.MediaID]int64 // their rows, where the index does not find them
	settings map[string]string       // that can be read
	folder   string                  // of a copy that is read in place of the film; "": there is none
}

type medium struct {
	row        int64 // in the order they were brought in
	id         board.MediaID
	kind, name string
}

// Salvage opens a film that Open refuses as damaged, to read what can be read
// of it; Missing says what cannot. Everything it returns,
// then and later, is as it was stored: by its hash. The film cannot be changed
// but copied, and the copy is whole. A board whose own row is damaged is
// rebuilt from the history; without that, the pictures are laid out in a row.
//
// The file at path is only read. Where it has the journal of a crash, or its
// first page is damaged, what is read is a copy in the folder for temporary
// files, which is removed when the film is closed.
//
// It refuses what is no film (ErrNotFilm), a film of a newer Stillbeat
// (ErrNewer), and one of which nothing is left (ErrDamaged). It reads the
// whole file: a second or so for each gigabyte.
func Salvage(ctx context.Context, path string) (*File, board.Board, error) {
	f, err := salvage(ctx, path)
	if err != nil {
		return nil, board.Board{}, failed("open", path, err)
	}
	return f, f.past.Board(), nil
}

// Missing says what could not be read of a salvaged film, one sentence each;
// nil if all is there.
func (f *File) Missing() []string {
	if f.salvage == nil {
		return nil
	}
	return f.salvage.lost
}

func salvage(ctx context.Context, path string) (*File, error) {
	abs, err := filepath.Abs(path)
	if err != nil {
		return nil, err
	}
	c, err := take(abs, false)
	if err != nil {
		return nil, err
	}
	if c.written {
		c.release()
		return nil, ErrInUse
	}
	// What the header says is believed only where it is whole.
	header := checkHeader(c.file())
	if errors.Is(header, ErrNewer) {
		c.release()
		return nil, header
	}
	f := &File{path: path, claim: c, salvage: &salvaged{}, refuses: reason{"it is damaged, so it is only shown here", errors.Join(ErrReadOnly, ErrDamaged)}}
	err = damaged("nothing in it can be read")
	whole := header == nil && !exists(journalOf(abs)) // the first page, as far as one can tell
	if whole {
		err = f.salvageFrom(ctx, abs, boardOnly)
	}
	if errors.Is(err, ErrDamaged) {
		err = f.salvageCopy(ctx, abs)
	}
	if errors.Is(err, ErrDamaged) && whole {
		err = f.salvageFrom(ctx, abs, orPictures)
	}
	if err == nil {
		return f, nil
	}
	f.Close()
	if errors.Is(header, ErrNotFilm) && errors.Is(err, ErrDamaged) {
		return nil, header
	}
	return nil, err
}

// salvageCopy reads a copy of the file at path: first with what its journal
// takes back, then with a first page as films have it.
func (f *File) salvageCopy(ctx context.Context, path string) error {
	folder, err := os.MkdirTemp("", "stillbeat-")
	if err != nil {
		return err
	}
	f.salvage.folder = folder
	work := filepath.Join(folder, "film")
	if err := copyOut(ctx, io.NewSectionReader(f.claim.file(), 0, f.claim.info.Size()), work); err != nil {
		return err
	}
	if journal, err := os.Open(journalOf(path)); err == nil {
		defer journal.Close()
		if err := copyOut(ctx, journal, journalOf(work)); err != nil {
			return err
		}
		takeBack(work)
		if err := f.salvageFrom(ctx, work, boardOnly); !errors.Is(err, ErrDamaged) {
			return err
		}
	}
	if err := renewFirstPage(work); err != nil {
		return err
	}
	return f.salvageFrom(ctx, work, orPictures)
}

// What counts as a film that can be read: one with a board, or one with
// pictures alone too.
const (
	boardOnly  = false
	orPictures = true
)

// salvageFrom reads what can be read of the file at path. The error is
// ErrDamaged if that is nothing.
func (f *File) salvageFrom(ctx context.Context, path string, pictures bool) error {
	info, err := os.Stat(path)
	if err != nil {
		return err
	}
	if f.db != nil {
		f.db.Close()
	}
	f.db = connectDamaged(path, info.Size())
	r := &wreck{ctx: ctx, db: f.db, pages: info.Size() / pageSize}
	if err := r.findTables(); err != nil {
		return err
	}
	r.readBoard()
	if r.past.Steps != nil || pictures {
		r.readMedia()
	}
	r.readSettings()
	if err := ctx.Err(); err != nil {
		return err
	}
	if r.past.Steps == nil {
		return damaged("nothing in it can be read")
	}
	f.now, f.at, f.rows, f.past = r.now, r.at, r.rows, r.past
	f.salvage.lost, f.salvage.media, f.salvage.place, f.salvage.settings = r.lost, r.media, r.place, r.settings
	return nil
}
