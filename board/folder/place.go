package folder

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"

	"stillbeat/board/internal/durable"
)

// vacant reports whether an empty folder is at dir, with an error if anything
// else is.
func vacant(dir string) (there bool, err error) {
	if parent, err := os.Stat(filepath.Dir(dir)); err != nil || !parent.IsDir() {
		return false, fmt.Errorf("there is no folder %q", filepath.Dir(dir))
	}
	info, err := os.Lstat(dir)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return false, nil
	case err != nil:
		return false, plain(err)
	case !info.IsDir():
		return false, reason{"there is already a file of that name", fs.ErrExist}
	}
	held, err := os.ReadDir(dir)
	switch {
	case err != nil:
		return true, plain(err)
	case len(held) > 0:
		return true, reason{"there is already a folder of that name with something in it", fs.ErrExist}
	}
	return true, nil
}

// place brings what is in stage to dir: in one step, or into the empty folder
// that is there, film.json last, as without it nothing is a film.
func place(stage, dir string, there bool) error {
	if !there {
		return os.Rename(stage, dir)
	}
	var placed []string
	for _, name := range append(slices.Clone(mediaFolders), filmFile) {
		from, to := filepath.Join(stage, name), filepath.Join(dir, name)
		if _, err := os.Lstat(from); errors.Is(err, fs.ErrNotExist) {
			continue
		}
		if err := os.Rename(from, to); err != nil {
			for _, p := range placed {
				os.RemoveAll(p)
			}
			return err
		}
		placed = append(placed, to)
	}
	return durable.Folder(dir)
}

// writeFile makes a file that is on the disk when it returns.
func writeFile(path string, data []byte) error {
	f, err := os.OpenFile(path, os.O_WRONLY|os.O_CREATE|os.O_EXCL, 0o666)
	if err != nil {
		return err
	}
	_, err = f.Write(data)
	if err == nil {
		err = f.Sync()
	}
	return errors.Join(err, f.Close())
}
