package file

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"syscall"

	"github.com/mattn/go-sqlite3"
)

// Reasons for which a film cannot be opened or used. Errors wrap them; ask
// with errors.Is.
var (
	ErrNotFilm = errors.New("this is not a Stillbeat film")
	ErrNewer   = errors.New("this film was made by a newer Stillbeat")
	ErrDamaged = errors.New("the film is damaged")
	ErrInUse   = errors.New("the film is already open in another window")
)

// failed says what was being done to which film. Cause is put into words.
func failed(doing, path string, cause error) error {
	return fmt.Errorf("%s film %q: %w", doing, filepath.Base(path), plain(cause))
}

// failedIf is failed for an operation that may have gone well.
func failedIf(doing, path string, err error) error {
	if err == nil {
		return nil
	}
	return failed(doing, path, err)
}

// reason is an error in words of our own that still is its cause.
type reason struct {
	words string
	cause error
}

func (r reason) Error() string { return r.words }
func (r reason) Unwrap() error { return r.cause }

func damaged(format string, args ...any) error {
	return fmt.Errorf("%w: %s", ErrDamaged, fmt.Sprintf(format, args...))
}

// plain puts the errors of the system and of the database into words for a
// person; others stay as they are.
func plain(err error) error {
	var base sqlite3.Error
	if errors.As(err, &base) {
		return plainDatabase(base)
	}
	var path *fs.PathError
	if errors.As(err, &path) {
		return plainSystem(path.Err)
	}
	var link *os.LinkError
	if errors.As(err, &link) {
		return plainSystem(link.Err)
	}
	return err
}

func plainSystem(err error) error {
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return reason{"there is no such file or folder", err}
	case errors.Is(err, fs.ErrPermission):
		return reason{"no permission to read and write it", err}
	case full(err):
		return reason{fullDisk, err}
	}
	return err
}

func plainDatabase(err sqlite3.Error) error {
	switch {
	case err.Code == sqlite3.ErrCorrupt || err.Code == sqlite3.ErrNotADB:
		return damaged("parts of it cannot be read")
	case err.Code == sqlite3.ErrBusy || err.Code == sqlite3.ErrLocked:
		return ErrInUse
	case err.Code == sqlite3.ErrFull || full(err.SystemErrno):
		return reason{fullDisk, errors.Join(err, syscall.ENOSPC)}
	case err.ExtendedCode == sqlite3.ErrReadonlyRollback:
		return reason{"a change that a crash cut short has to be taken back, and the file cannot be written to", errors.Join(err, fs.ErrPermission)}
	case err.ExtendedCode == sqlite3.ErrReadonlyDbMoved:
		return reason{"the file was moved or removed while it was open", errors.Join(err, fs.ErrNotExist)}
	case err.Code == sqlite3.ErrReadonly || err.Code == sqlite3.ErrCantOpen:
		return reason{"the file or its folder cannot be written to", errors.Join(err, fs.ErrPermission)}
	case err.Code == sqlite3.ErrIoErr:
		return reason{"the disk does not answer as it should (" + err.Error() + ")", err}
	}
	return err
}

const fullDisk = "the disk is full or its quota used up"

// full reports whether there is no room: on the disk, in the quota, or in the
// largest file that is allowed.
func full(err error) bool {
	return errors.Is(err, syscall.ENOSPC) || errors.Is(err, syscall.EDQUOT) || errors.Is(err, syscall.EFBIG)
}
