// Package beside writes files and folders under another name in the folder
// where they belong and renames them when they are whole, so that nothing half
// written ever stands under a name that was asked for.
package beside

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math/rand/v2"
	"os"
	"path/filepath"
	"strings"

	"stillbeat/board/internal/durable"
)

// partName returns a name beside path for what is not finished.
func partName(path string) string {
	return filepath.Join(filepath.Dir(path), fmt.Sprintf(".film-%016x.part", rand.Uint64()))
}

// File calls write with a new file in the folder of path and moves that file to
// path if all went well, in place of an old one; otherwise it removes it, and
// an old file is still whole. A panic in write becomes an error. Errors do not
// name the unfinished file.
func File(path string, write func(*os.File) error) (err error) {
	if info, err := os.Stat(path); err == nil && info.IsDir() {
		return errors.New("it is a folder")
	}
	part := partName(path)
	f, err := os.OpenFile(part, os.O_RDWR|os.O_CREATE|os.O_EXCL, 0o666)
	if err != nil {
		return Bare(err)
	}
	defer func() {
		if r := recover(); r != nil {
			err = fmt.Errorf("internal error: %v", r)
		}
		if err != nil {
			f.Close()
			os.Remove(part)
		}
	}()
	if err := write(f); err != nil {
		return Bare(err)
	}
	if err := f.Sync(); err != nil {
		return Bare(err)
	}
	if err := f.Close(); err != nil {
		return Bare(err)
	}
	return Bare(os.Rename(part, path))
}

// Save is File for whoever writes from the first byte to the last; its errors
// name path.
func Save(path string, write func(io.Writer) error) error {
	if err := File(path, func(f *os.File) error { return write(f) }); err != nil {
		return fmt.Errorf("cannot write %s: %w", path, err)
	}
	return nil
}

// Folder calls write with a new folder beside path and moves it to path if all
// went well; otherwise it removes it. A folder that stands at path already is
// replaced only if mayReplace, and only if it holds nothing but files with one
// of the endings: what else a person keeps there is not ours to take away.
func Folder(path string, mayReplace bool, ending string, write func(dir string) error) (err error) {
	if err := free(path, mayReplace, ending); err != nil {
		return err
	}
	part := partName(path)
	if err := os.Mkdir(part, 0o777); err != nil {
		return Bare(err)
	}
	defer func() {
		if r := recover(); r != nil {
			err = fmt.Errorf("internal error: %v", r)
		}
		if err != nil {
			os.RemoveAll(part)
		}
	}()
	if err := write(part); err != nil {
		return Bare(err)
	}
	if err := durable.Folder(part); err != nil {
		return Bare(err)
	}
	if err := free(path, mayReplace, ending); err != nil { // it may have come up meanwhile
		return err
	}
	old := partName(path)
	err = os.Rename(path, old)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return Bare(os.Rename(part, path))
	case err != nil:
		return Bare(err)
	}
	if err := os.Rename(part, path); err != nil {
		return errors.Join(Bare(err), Bare(os.Rename(old, path)))
	}
	return Bare(os.RemoveAll(old))
}

// ErrThere is returned where something stands already that may not be replaced.
var ErrThere = errors.New("it is there already")

// free returns nil if a folder may be put at path.
func free(path string, mayReplace bool, ending string) error {
	info, err := os.Lstat(path)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil
	case err != nil:
		return Bare(err)
	case !info.IsDir():
		return errors.New("it is a file, not a folder")
	case !mayReplace:
		return ErrThere
	}
	held, err := os.ReadDir(path)
	if err != nil {
		return Bare(err)
	}
	for _, e := range held {
		if !e.Type().IsRegular() || !strings.EqualFold(filepath.Ext(e.Name()), ending) {
			return fmt.Errorf("it holds something else too, %q: it is not replaced", e.Name())
		}
	}
	return nil
}

// Bare takes the name of the unfinished file out of a file error: the user has
// never heard of it.
func Bare(err error) error {
	var pathErr *fs.PathError
	if errors.As(err, &pathErr) {
		return pathErr.Err
	}
	var linkErr *os.LinkError
	if errors.As(err, &linkErr) {
		return linkErr.Err
	}
	return err
}
