package folder

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"strconv"
	"strings"
	"syscall"
)

// Reasons for which a folder cannot be read or written. Errors wrap them; ask
// with errors.Is.
var (
	ErrNotFilm = errors.New("this is not a film in a folder")
	ErrNewer   = errors.New("this folder was written by a newer Stillbeat")
)

// reason is an error in words of our own that still is its cause.
type reason struct {
	words string
	cause error
}

func (r reason) Error() string { return r.words }
func (r reason) Unwrap() error { return r.cause }

// plain takes the file name out of a file error, for sentences that name the
// file already, and puts the commonest causes into words.
func plain(err error) error {
	bare := err
	var inPath *fs.PathError
	var inLink *os.LinkError
	switch {
	case errors.As(err, &inPath):
		bare = inPath.Err
	case errors.As(err, &inLink):
		bare = inLink.Err
	default:
		return err
	}
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return reason{"there is no such file or folder", err}
	case errors.Is(err, fs.ErrPermission):
		return reason{"there is no permission for it", err}
	case errors.Is(err, syscall.ENOSPC) || errors.Is(err, syscall.EDQUOT):
		return reason{"the disk is full", err}
	case errors.Is(err, outside()):
		return reason{"it lies outside the folder", err}
	}
	return bare
}

// outside returns the error that a root gives for a path that leads out of it.
// It has no name of its own.
func outside() error {
	root, err := os.OpenRoot(os.TempDir())
	if err != nil {
		return err
	}
	defer root.Close()
	var inPath *fs.PathError
	if _, err = root.Lstat(".."); errors.As(err, &inPath) {
		return inPath.Err
	}
	return err
}

// plainJSON puts what is wrong with the JSON value in all into words.
func plainJSON(err error, all []byte) error {
	var syntax *json.SyntaxError
	var kind *json.UnmarshalTypeError
	switch {
	case err == nil:
		return nil
	case errors.As(err, &syntax):
		line := 1 + bytes.Count(all[:min(int(syntax.Offset), len(all))], []byte("\n"))
		return fmt.Errorf("line %d is not JSON (%v)", line, syntax)
	case errors.As(err, &kind) && kind.Field != "":
		field := kind.Field[1+strings.LastIndexByte(kind.Field, '.'):] // before it come names of types
		return fmt.Errorf("the value of %q does not fit (%s)", field, kind.Value)
	case errors.As(err, &kind):
		return fmt.Errorf("the value does not fit (%s)", kind.Value)
	}
	if _, field, ok := strings.Cut(err.Error(), "json: unknown field "); ok {
		if name, err := strconv.Unquote(field); err == nil {
			return fmt.Errorf("the field %.40q is not known", name)
		}
	}
	return err
}
