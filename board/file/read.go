package file

import (
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"

	"stillbeat/board"
)

// ErrReadOnly is the reason a film that is only read refuses to be changed.
var ErrReadOnly = errors.New("this film is only read")

// OpenReadOnly opens the film at path to read it, also while it is open
// elsewhere to be edited: then it shows what was last saved. The file is not
// written to, but for one thing: a change that a crash cut short is taken back
// first, if nobody has the film open. What cannot be a film is refused as by
// Open.
func OpenReadOnly(path string) (*File, board.Board, error) {
	f, b, err := openReadOnly(path)
	if err != nil {
		return nil, board.Board{}, failed("open", path, err)
	}
	return f, b, nil
}

func openReadOnly(path string) (*File, board.Board, error) {
	abs, err := filepath.Abs(path)
	if err != nil {
		return nil, board.Board{}, err
	}
	why := error(reason{"it was opened to be read only, so it is only shown here", ErrReadOnly})
	switch err := settle(abs); {
	case errors.Is(err, ErrInUse):
		why = reason{"it is open in another window, so it is only shown here", errors.Join(ErrReadOnly, ErrInUse)}
	case errors.Is(err, fs.ErrPermission):
		why = reason{"the file cannot be written to, so it is only shown here", errors.Join(ErrReadOnly, fs.ErrPermission)}
	case err != nil:
		return nil, board.Board{}, err
	}
	c, err := take(abs, false)
	if err != nil {
		return nil, board.Board{}, err
	}
	return openClaimed(&File{path: path, abs: abs, claim: c, refuses: why}, readingSource(abs))
}

// settle takes back a change that a crash cut short in the film at path. An
// error tells that the film is in use (ErrInUse), cannot be written to
// (fs.ErrPermission) or is none.
func settle(path string) error {
	c, err := take(path, true)
	if err != nil {
		return err
	}
	if err := c.release(); err != nil {
		return err
	}
	journal := journalOf(path)
	if !exists(journal) {
		return nil
	}
	f, _, err := open(path)
	if err != nil {
		return err
	}
	return f.Close()
}

// ReadOnly returns why the film is not written to, nil if it is.
func (f *File) ReadOnly() error { return f.refuses }

// writable returns an error if the film is only read.
func (f *File) writable() error {
	if f.refuses == nil {
		return nil
	}
	return fmt.Errorf("%w; a copy can be saved", f.refuses)
}
