package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"github.com/spf13/cobra"

	"stillbeat/board"
	"stillbeat/board/desk"
	"stillbeat/board/file"
)

// withFilm opens the film at path, lets do work on it and closes it again,
// with everything written.
func withFilm(path string, do func(*desk.Desk) error) error { return withOpened(path, desk.Open, do) }

// viewFilm opens the film at path, also while it is open in a window, lets do
// look at it and closes it again.
func viewFilm(path string, do func(*desk.Desk) error) error { return withOpened(path, desk.View, do) }

func withOpened(path string, open func(string) (*desk.Desk, error), do func(*desk.Desk) error) (err error) {
	if err := findFilm(path); err != nil {
		return err
	}
	d, err := open(path)
	if err != nil {
		return err
	}
	defer func() { err = errors.Join(err, d.Close()) }()
	return do(d)
}

// findFilm returns an error if there is nothing at path.
func findFilm(path string) error {
	if _, err := os.Stat(path); err != nil {
		return fmt.Errorf("open film %q: %w", filepath.Base(path), bare(err))
	}
	return nil
}

// withNewFilm lets do fill an empty film and then puts it at path. Until then
// nothing stands there, so a failure leaves no trace.
func withNewFilm(path string, do func(*desk.Desk) error) error {
	d, err := desk.New()
	if err != nil {
		return err
	}
	return nameFilm(d, path, do)
}

// nameFilm lets do work with a film that has no name and then puts it at
// path, closed.
func nameFilm(d *desk.Desk, path string, do func(*desk.Desk) error) (err error) {
	defer func() {
		d.Abandon() // it has a name by now, or it failed
		err = errors.Join(err, d.Close())
	}()
	if err := do(d); err != nil {
		return err
	}
	return d.SaveAs(path)
}

// checkOutput returns an error if a file cannot be put at path: no such
// folder, or something is there and may not be replaced.
func checkOutput(path string, force bool) error {
	folder, err := os.Stat(filepath.Dir(path))
	if err != nil || !folder.IsDir() {
		return fmt.Errorf("write %q: there is no folder %q", filepath.Base(path), filepath.Dir(path))
	}
	info, err := os.Stat(path)
	switch {
	case err != nil:
		return nil // nothing is there; other troubles show when it is written
	case info.IsDir():
		return fmt.Errorf("write %q: it is a folder", path)
	case !force:
		return fmt.Errorf("write %q: it is there already; --force replaces it", path)
	}
	return nil
}

// checkFilmName refuses names that are not those of films, so that a
// forgotten FILM does not turn the first picture into one.
func checkFilmName(cmd *cobra.Command, path string) error {
	if filepath.Ext(path) != file.Ext {
		return wrong(cmd, "%q is no name for a film: it must end in %s", path, file.Ext)
	}
	return nil
}

// gist sums a film up in a line.
func gist(b board.Board) string {
	return fmt.Sprintf("%s, %d frames (%.3f s) at %s fps on %s, %s",
		count(len(b.Panels), "panel"), b.Frames(), b.Rate.Seconds(b.Frames()), b.Rate, ones(b.Step),
		count(int(b.Exposures()), "exposure"))
}

func count(n int, what string) string {
	if n == 1 {
		return "1 " + what
	}
	return fmt.Sprintf("%d %ss", n, what)
}

// ones names a step: on ones, on twos.
func ones(step int) string {
	if step >= 1 && step <= 4 {
		return [...]string{"ones", "twos", "threes", "fours"}[step-1]
	}
	return fmt.Sprintf("%ds", step)
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
