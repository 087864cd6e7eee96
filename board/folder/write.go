package folder

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"math/rand/v2"
	"os"
	"path"
	"path/filepath"

	"stillbeat/board"
	"stillbeat/board/internal/durable"
)

// Write writes a film as a folder at dir, where there must be nothing or an
// empty folder. It comes there when it is whole and on the disk: an error or
// the end of ctx leaves dir as it was. progress may be nil; it is told how
// much is done, 0 to 1. One medium at a time is in memory.
func Write(ctx context.Context, dir string, b board.Board, media Source, progress func(done float64)) error {
	dir, err := filepath.Abs(dir)
	if err == nil {
		err = write(ctx, dir, b, media, progress)
	}
	if err != nil {
		return fmt.Errorf("write folder %q: %w", filepath.Base(dir), err)
	}
	return nil
}

func write(ctx context.Context, dir string, b board.Board, media Source, progress func(float64)) error {
	if err := b.Check(); err != nil {
		return err
	}
	if n := len(b.Grid.Onsets); n > maxOnsets {
		return fmt.Errorf("the song has %d onsets: a folder holds at most %d", n, maxOnsets)
	}
	if real, err := filepath.EvalSymlinks(dir); err == nil {
		dir = real
	}
	there, err := vacant(dir)
	if err != nil {
		return err
	}
	stage := filepath.Join(filepath.Dir(dir), fmt.Sprintf(".stillbeat-%016x", rand.Uint64()))
	if err := os.Mkdir(stage, 0o777); err != nil {
		return plain(err)
	}
	defer os.RemoveAll(stage)
	w := writer{stage: stage, media: media, files: map[board.MediaID]string{}}
	if err := w.film(ctx, b, progress); err != nil {
		return err
	}
	if err := place(stage, dir, there); err != nil {
		return plain(err)
	}
	return plain(durable.Folder(filepath.Dir(dir)))
}

// writer fills a folder.
type writer struct {
	stage string
	media Source
	files map[board.MediaID]string // written
	names []named                  // of files that are called otherwise
}

func (w *writer) film(ctx context.Context, b board.Board, progress func(float64)) error {
	step := &steps{ctx: ctx, progress: progress, total: len(b.Media())}
	put := func(id board.MediaID, what string, fileOf func(name string, data []byte) string) error {
		if id == "" || w.files[id] != "" {
			return nil
		}
		file, err := w.medium(id, fileOf)
		if err = step.done(err); err != nil {
			return fmt.Errorf("%s: %w", what, err)
		}
		w.files[id] = file
		return nil
	}
	if s := b.Song; s != nil {
		if err := put(s.Media, "the song", func(name string, data []byte) string { return songFile(s.Name, name, data) }); err != nil {
			return err
		}
	}
	for i, p := range b.Panels {
		into := func(folder string) func(string, []byte) string {
			return func(name string, data []byte) string {
				return panelFile(folder, i, len(b.Panels), p.Title, name, data)
			}
		}
		if err := put(p.Picture, fmt.Sprintf("the picture of panel %d", i+1), into(pictureFolder)); err != nil {
			return err
		}
		if err := put(p.Drawing().Sketch, fmt.Sprintf("the sketch of panel %d", i+1), into(sketchFolder)); err != nil {
			return err
		}
	}
	for _, sub := range mediaFolders {
		if err := durable.Folder(filepath.Join(w.stage, sub)); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return plain(err)
		}
	}
	if err := w.json(newDocument(b, w.files, w.names)); err != nil {
		return err
	}
	return ctx.Err()
}

// medium writes a picture, sketch or song and returns its path in the folder, with
// slashes.
func (w *writer) medium(id board.MediaID, fileOf func(name string, data []byte) string) (string, error) {
	data, name, err := w.media(id)
	if err != nil {
		return "", err
	}
	if len(data) > maxMedium {
		return "", tooLarge(len(data))
	}
	file := fileOf(name, data)
	if path.Base(file) != name {
		w.names = append(w.names, named{file, name})
	}
	target := filepath.Join(w.stage, filepath.FromSlash(file))
	if err := os.MkdirAll(filepath.Dir(target), 0o777); err != nil {
		return "", plain(err)
	}
	return file, plain(writeFile(target, data))
}

// json writes film.json.
func (w *writer) json(d document) error {
	text, err := layout(d)
	if err != nil {
		return err
	}
	if len(text) > maxJSON {
		return fmt.Errorf("the board takes %d MB of text: a folder holds at most %d MB", len(text)>>20, maxJSON>>20)
	}
	if err := writeFile(filepath.Join(w.stage, filmFile), text); err != nil {
		return plain(err)
	}
	return plain(durable.Folder(w.stage))
}

func tooLarge(n int) error {
	return fmt.Errorf("it has %d MB: a film takes at most %d MB in one file", n>>20, maxMedium>>20)
}
