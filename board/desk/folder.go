package desk

import (
	"cmp"
	"context"
	"os"
	"slices"

	"stillbeat/board"
	"stillbeat/board/file"
	"stillbeat/board/folder"
)

// WriteFolder writes b, a board of the film, as a folder of ordinary files at
// dir, where there must be nothing or an empty folder; on an error dir is as
// it was. It may run on any goroutine: the board is handed in.
func (d *Desk) WriteFolder(ctx context.Context, dir string, b board.Board, p Progress) error {
	return folder.Write(ctx, dir, b, func(id board.MediaID) ([]byte, string, error) {
		d.moving.RLock()
		defer d.moving.RUnlock()
		data, err := d.store.Media(id)
		if err != nil {
			return nil, "", err
		}
		name, err := d.store.MediaName(id)
		return data, name, err
	}, p)
}

// NewFromFolder makes a film without a name of the folder at dir; SaveAs gives
// it one. Its song is not decoded yet. On an error nothing is left behind. It
// may run on any goroutine.
func NewFromFolder(ctx context.Context, dir string, p Progress) (*Desk, error) {
	b, media, err := folder.Read(ctx, dir, p.Part(0, 0.5))
	if err != nil {
		return nil, err
	}
	d, err := New()
	if err != nil {
		return nil, err
	}
	err = d.takeIn(ctx, media, p.Part(0.5, 1))
	if err == nil {
		err = d.store.SaveBoard(b)
	}
	if err != nil {
		d.Abandon()
		d.Close()
		return nil, err
	}
	return d.reopened()
}

// takenAtOnce bounds the bytes of the media in memory while a folder is taken
// in, but for one.
const takenAtOnce = 32 << 20

// storedAs says which kind a medium of a folder is in the film.
var storedAs = map[folder.Kind]string{folder.Picture: file.Picture, folder.Sketch: file.Sketch, folder.Song: file.Song}

// takeIn stores the media of a folder, several of a kind in one go.
func (d *Desk) takeIn(ctx context.Context, media []folder.Medium, p Progress) error {
	slices.SortStableFunc(media, func(a, b folder.Medium) int { return cmp.Compare(a.Kind, b.Kind) })
	var some []file.Media
	size := 0
	for i, m := range media {
		if err := ctx.Err(); err != nil {
			return err
		}
		data, err := m.Data()
		if err != nil {
			return err
		}
		some, size = append(some, file.Media{Name: m.Name, Data: data}), size+len(data)
		last := i+1 == len(media) || media[i+1].Kind != m.Kind
		if !last && size < takenAtOnce {
			continue
		}
		if _, err := d.store.AddMedia(storedAs[m.Kind], some...); err != nil {
			return err
		}
		some, size = nil, 0
		p.report(float64(i+1) / float64(len(media)))
	}
	return nil
}

// reopened returns a desk on the film as its file has it, where its history
// begins, in the place of d.
func (d *Desk) reopened() (*Desk, error) {
	path := d.store.Path()
	d.keeper.stop()
	err := d.store.Close()
	var out *Desk
	if err == nil {
		out, err = Open(path)
	}
	if err != nil {
		os.Remove(path)
		return nil, err
	}
	out.untitled = true
	return out, nil
}
