package desk

import (
	"context"
	"fmt"

	"stillbeat/board"
	"stillbeat/board/file"
)

// File returns the path of the file the film is in, with or without a name.
func (d *Desk) File() string { return d.store.Path() }

// BorrowPictures stores the pictures that panels of another film show, unless
// they are there already. It may run on any goroutine. On an error, and when
// ctx ends, pictures stored before stay, as yet unused.
func (d *Desk) BorrowPictures(ctx context.Context, film string, panels []board.Panel, p Progress) error {
	var other *Desk
	defer func() {
		if other != nil {
			other.Close()
		}
	}()
	for i, panel := range panels {
		if err := ctx.Err(); err != nil {
			return err
		}
		if p != nil {
			p(float64(i) / float64(len(panels)))
		}
		if panel.Picture == "" {
			continue
		}
		if _, err := d.Media(panel.Picture); err == nil {
			continue
		}
		if other == nil {
			var err error
			if other, err = View(film); err != nil {
				return err
			}
		}
		data, err := other.Media(panel.Picture)
		if err != nil {
			return fmt.Errorf("picture of panel %q: %w", panel.Title, err)
		}
		d.moving.RLock()
		_, err = d.store.AddMedia("picture", file.Media{Name: panel.Title, Data: data})
		d.moving.RUnlock()
		if err != nil {
			return err
		}
	}
	return nil
}
