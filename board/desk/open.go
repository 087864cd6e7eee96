package desk

import (
	"context"
	"errors"
	"io/fs"

	"stillbeat/board/file"
)

// Open opens the film at path to edit it. Its song is not decoded yet: see
// LoadSong.
func Open(path string) (*Desk, error) {
	store, _, err := file.Open(path)
	if err != nil {
		return nil, err
	}
	return newDesk(store), nil
}

// View opens the film at path to look at it, also while it is open elsewhere.
// It cannot be changed (see ReadOnly), but copies can be saved, and SaveAs
// goes on in one.
func View(path string) (*Desk, error) {
	store, _, err := file.OpenReadOnly(path)
	if err != nil {
		return nil, err
	}
	return newDesk(store), nil
}

// OpenOrView opens the film at path to edit it or, where it is open elsewhere
// or cannot be written to, to look at it: ReadOnly tells which.
func OpenOrView(path string) (*Desk, error) {
	d, err := Open(path)
	if errors.Is(err, file.ErrInUse) || errors.Is(err, fs.ErrPermission) {
		return View(path)
	}
	return d, err
}

// Salvage opens a film that is damaged, as far as it can be read: see Missing.
// The file is not changed, nor can the film be: SaveAs and SaveCopy write a
// whole one. It reads the whole file and may run on any goroutine.
func Salvage(ctx context.Context, path string) (*Desk, error) {
	store, _, err := file.Salvage(ctx, path)
	if err != nil {
		return nil, err
	}
	return newDesk(store), nil
}

// Missing says what could not be read of a salvaged film, a sentence each.
func (d *Desk) Missing() []string { return d.store.Missing() }

// ReadOnly returns why the film cannot be changed, in one sentence; nil if it
// can.
func (d *Desk) ReadOnly() error { return d.store.ReadOnly() }
