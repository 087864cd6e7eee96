package file

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// CopyTo writes the film as last saved to another path, without the room
// that deleted things left. A file that is there is replaced at the end, in
// one step, so that at every instant the path holds either what it held or
// the whole copy; a film that is open is not replaced. Copying a film onto
// itself does nothing.
func (f *File) CopyTo(path string) error {
	if err := f.copyTo(path); err != nil {
		return fmt.Errorf("save film %q: %w", filepath.Base(path), plain(err))
	}
	return nil
}

func (f *File) copyTo(path string) error {
	if real, err := filepath.EvalSymlinks(path); err == nil {
		path = real // replace the file, not the link to it
	}
	path, err := filepath.Abs(path)
	if err != nil {
		return err
	}
	mode := fs.FileMode(0)
	if info, err := os.Stat(path); err == nil {
		if os.SameFile(info, f.claim.info) {
			return nil
		}
		if err := replaceable(path, info); err != nil {
			return err
		}
		mode = info.Mode().Perm()
	}
	return beside(path, func(temporary string) error {
		if err := f.fill(temporary); err != nil || mode == 0 {
			return err
		}
		return os.Chmod(temporary, mode)
	}, os.Rename)
}

// fill writes the film to an empty file.
func (f *File) fill(path string) error {
	if f.salvage != nil {
		return f.mend(path)
	}
	_, err := f.db.Exec(`VACUUM INTO ?`, path)
	return err
}

// replaceable refuses to put a copy where a folder, a device or an open film
// is.
func replaceable(path string, info os.FileInfo) error {
	if !info.Mode().IsRegular() {
		return fmt.Errorf("%q is not a file and cannot be replaced", filepath.Base(path))
	}
	if info.Size() == 0 {
		return nil
	}
	c, err := take(path, true)
	if errors.Is(err, ErrInUse) {
		return reason{fmt.Sprintf("%q is open in another window", filepath.Base(path)), ErrInUse}
	}
	if err != nil {
		return err
	}
	return c.release()
}
