package file

import (
	"errors"
	"fmt"
	"math/rand/v2"
	"os"
	"path/filepath"

	"stillbeat/board/internal/durable"
)

// beside makes an empty hidden file in the folder of path, has it filled,
// brings it to the disk and only then has it placed at path. On an error the
// temporary file is gone; a crash may leave it.
func beside(path string, fill func(temporary string) error, place func(temporary, path string) error) error {
	if err := clearJournal(path); err != nil {
		return err
	}
	folder := filepath.Dir(path)
	temporary := filepath.Join(folder, fmt.Sprintf(".stillbeat-%016x", rand.Uint64()))
	file, err := os.OpenFile(temporary, os.O_RDWR|os.O_CREATE|os.O_EXCL, 0o666)
	if err != nil {
		return err
	}
	defer os.Remove(temporary)
	defer file.Close()
	if err := fill(temporary); err != nil {
		return err
	}
	if err := file.Sync(); err != nil {
		return err
	}
	if err := place(temporary, path); err != nil {
		return err
	}
	return durable.Folder(folder)
}

// publish gives the file its name, unless something has that name. Where the
// disk knows no links it looks before it renames.
func publish(temporary, path string) error {
	err := os.Link(temporary, path)
	if errors.Is(err, os.ErrExist) {
		return errTaken
	}
	if err == nil {
		return nil
	}
	if exists(path) {
		return errTaken
	}
	return os.Rename(temporary, path)
}

// clearJournal sees to it that a film can come to path without meeting the
// rollback journal of a film that crashed there: SQLite knows a journal only
// by its name and would put the old film's pages into the new one.
func clearJournal(path string) error {
	journal := journalOf(path)
	if !exists(journal) {
		return nil
	}
	if !exists(path) {
		return os.Remove(journal) // SQLite too forgets a journal without a film
	}
	if f, _, err := open(path); err == nil { // takes the change back
		f.Close()
	}
	if exists(journal) {
		return fmt.Errorf("an unfinished change lies in %q", filepath.Base(journal))
	}
	return nil
}

func exists(path string) bool {
	_, err := os.Lstat(path)
	return err == nil
}

// journalOf returns where SQLite keeps the rollback journal of a film.
func journalOf(path string) string { return path + "-journal" }
