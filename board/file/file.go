// Package file keeps a film in one file on disk: a SQLite database with the
// board, the history of its edits, its pictures and its song. A crash at any
// instant leaves the film as it was after the last save that returned. A film
// that is open can be read by others, and of a damaged one what is left.
package file

import (
	"database/sql"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"sync"

	"stillbeat/board"
)

// Ext is the ending of a film's file name.
const Ext = ".stillbeat"

// File is an open film. Its methods may be called from several goroutines.
// While it is open nobody else can open it, but to read it.
type File struct {
	path    string // as it was opened
	abs     string // the same, absolute
	db      *sql.DB
	claim   *claim
	refuses error     // why it is not written to; nil: it is
	salvage *salvaged // nil: nothing of it is known to be damaged
	past    board.Past

	saving sync.Mutex
	now    text                  // of the board on disk
	at     board.StepID          // its step
	texts  map[*board.Board]text // of this board and perhaps the one before
	spares []spare               // on disk
	newest board.StepID          // of all that ever were on disk

	unsaved map[board.StepID]newRow // steps that the last save could not write

	shelf sync.Mutex
	rows  []row // the steps on disk, oldest first
}

// Create makes a film that holds b at path, and opens it. It refuses a path
// at which there is something already (os.ErrExist). On an error there is no
// new file.
func Create(path string, b board.Board) (*File, error) {
	f, err := create(path, b)
	if err != nil {
		return nil, failed("create", path, err)
	}
	return f, nil
}

func create(path string, b board.Board) (*File, error) {
	abs, err := filepath.Abs(path)
	if err != nil {
		return nil, err
	}
	if exists(abs) {
		return nil, errTaken
	}
	if err := beside(abs, func(temporary string) error { return write(temporary, b) }, publish); err != nil {
		return nil, err
	}
	f, _, err := open(path)
	return f, err
}

var errTaken = reason{"there is already a file of that name", os.ErrExist}

// write fills the empty file at path with a film, as a draft.
func write(path string, b board.Board) error {
	db := connect(draftSource(path))
	defer db.Close()
	if _, err := db.Exec(fmt.Sprintf(`PRAGMA application_id = %d`, applicationID)); err != nil {
		return err
	}
	if err := inTransaction(db, func(tx *sql.Tx) error { return migrate(tx, 0, len(migrations)) }); err != nil {
		return err
	}
	if err := (&File{db: db}).save(board.NewPast(b)); err != nil {
		return err
	}
	return db.Close()
}

// Open opens the film at path and returns it with its board. A file that it
// refuses is left as it is, byte for byte: what is not a film (ErrNotFilm),
// a film of a newer Stillbeat (ErrNewer), a damaged one (ErrDamaged), one
// that is open (ErrInUse). The one thing done to a file before it is known to
// be whole is to take back a change that a crash cut short.
func Open(path string) (*File, board.Board, error) {
	f, b, err := open(path)
	if err != nil {
		return nil, board.Board{}, failed("open", path, err)
	}
	return f, b, nil
}

func open(path string) (*File, board.Board, error) {
	abs, err := filepath.Abs(path)
	if err != nil {
		return nil, board.Board{}, err
	}
	c, err := take(abs, true)
	if err != nil {
		return nil, board.Board{}, err
	}
	return openClaimed(&File{path: path, abs: abs, claim: c}, source(abs))
}

// openClaimed goes on with opening a film that is claimed.
func openClaimed(f *File, source string) (*File, board.Board, error) {
	if err := checkHeader(f.claim.file()); err != nil {
		f.claim.release()
		return nil, board.Board{}, err
	}
	f.db = connect(source)
	b, err := f.load()
	if err != nil {
		f.Close()
		return nil, board.Board{}, err
	}
	return f, b, nil
}

// load checks the film, brings it to the newest schema and reads its board.
// It is one transaction, so a film that fails a check late is not changed
// either; one that needs no change, or is only read, is not written to.
func (f *File) load() (b board.Board, err error) {
	err = inTransaction(f.db, func(tx *sql.Tx) error {
		have, err := version(tx)
		if err != nil {
			return err
		}
		if err := checkSchema(tx, have); err != nil {
			return err
		}
		if f.refuses == nil {
			if err := migrate(tx, have, len(migrations)); err != nil {
				return err
			}
			have = len(migrations)
		}
		if b, f.now, err = readBoard(tx); err != nil {
			return err
		}
		if have < withHistory {
			f.past = board.NewPast(b)
			return nil
		}
		return f.readPast(tx, b)
	})
	return b, err
}

// Path returns the path the film was opened with.
func (f *File) Path() string { return f.path }

// Close ends the use of the film and gives it free for others. Everything
// saved is already on disk.
func (f *File) Close() error {
	var err error
	if f.db != nil {
		err = f.db.Close()
	}
	if f.salvage != nil && f.salvage.folder != "" {
		err = errors.Join(err, os.RemoveAll(f.salvage.folder))
	}
	return failedIf("close", f.path, errors.Join(err, f.claim.release()))
}
