package review

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
)

// Open reads the file of notes at path, as Read does, and no more of it than a
// file of notes may have. The error names the file.
func Open(path string) (File, error) {
	f, err := open(path)
	if err != nil {
		return File{}, fmt.Errorf("read %q: %w", filepath.Base(path), err)
	}
	return f, nil
}

func open(path string) (File, error) {
	// What is no file of its own, such as a pipe, could be waited for without end.
	info, err := os.Stat(path)
	if err == nil && !info.Mode().IsRegular() {
		err = ErrNotNotes
	}
	if err != nil {
		return File{}, bare(err)
	}
	in, err := os.Open(path)
	if err != nil {
		return File{}, bare(err)
	}
	defer in.Close()
	data, err := io.ReadAll(io.LimitReader(in, MaxBytes+1))
	if err != nil {
		return File{}, bare(err)
	}
	return Read(data)
}

// bare leaves out of an error which file it was and what was done.
func bare(err error) error {
	var on *fs.PathError
	if errors.As(err, &on) {
		return on.Err
	}
	return err
}
