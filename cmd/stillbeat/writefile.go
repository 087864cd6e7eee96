package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
)

// writeFile puts data at path: whole, or not at all.
func writeFile(path string, data []byte) error {
	return writeInto(path, func(w io.Writer) error {
		_, err := w.Write(data)
		return err
	})
}

// writeInto puts what write writes at path: whole, or not at all.
func writeInto(path string, write func(io.Writer) error) error {
	part, err := os.CreateTemp(filepath.Dir(path), ".part-*")
	if err != nil {
		return fmt.Errorf("write %q: %w", path, bare(err))
	}
	err = write(part)
	err = errors.Join(err, part.Chmod(0o644), part.Close())
	if err == nil {
		err = os.Rename(part.Name(), path)
	}
	if err != nil {
		os.Remove(part.Name())
		return fmt.Errorf("write %q: %w", path, bare(err))
	}
	return nil
}

// bare takes file names out of a file error, for sentences that name the file
// already or where the user does not know it.
func bare(err error) error {
	var inPath *fs.PathError
	var inLink *os.LinkError
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return errors.New("there is no such file")
	case errors.As(err, &inPath):
		return inPath.Err
	case errors.As(err, &inLink):
		return inLink.Err
	}
	return err
}
