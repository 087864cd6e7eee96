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
)

// Write writes a film as a folder at dir, where there must be nothing or an
// empty folder. It comes there when it is whole and on the disk: an error or
// the end of ctx leaves dir as it was. progress may be nil; it is told how
// much is done, 0 to 1. One picture or song at a time is in memory.
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
	w := writer{stage: stage, media: media, pictures: map[board.MediaID]string{}}
	if err := w.film(ctx, b, progress); err != nil {
		return err
	}
	if err := place(stage, dir, there); err != nil {
		return plain(err)
	}
	return plain(syncFolder(filepath.Dir(dir)))
}

// writer fills a folder.
type writer struct {
	stage    string
	media    Source
	pictures map[board.MediaID]string // files written
	names    []named                  // of files that are called otherwise
}

func (w *writer) film(ctx context.Context, b board.Board, progress func(float64)) error {
	step := &steps{ctx: ctx, progress: progress, total: countMedia(b)}
	song := ""
	if s := b.Song; s != nil && s.Media != "" {
		var err error
		song, err = w.medium(s.Media, func(name string, data []byte) string { return songFile(s.Name, name, data) })
		if err = step.done(err); err != nil {
			return fmt.Errorf("the song: %w", err)
		}
	}
	for i, p := range b.Panels {
		if p.Picture == "" || w.pictures[p.Picture] != "" {
			continue
		}
		file, err := w.medium(p.Picture, func(name string, data []byte) string {
			return pictureFile(i, len(b.Panels), p.Title, name, data)
		})
		if err = step.done(err); err != nil {
			return fmt.Errorf("the picture of panel %d: %w", i+1, err)
		}
		w.pictures[p.Picture] = file
	}
	for _, sub := range []string{pictureFolder, songFolder} {
		if err := syncFolder(filepath.Join(w.stage, sub)); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return plain(err)
		}
	}
	if err := w.json(newDocument(b, w.pictures, song, w.names)); err != nil {
		return err
	}
	return ctx.Err()
}

// countMedia returns how many different pictures and songs a board has.
func countMedia(b board.Board) int {
	seen := map[board.MediaID]bool{}
	for _, p := range b.Panels {
		seen[p.Picture] = true
	}
	if b.Song != nil {
		seen[b.Song.Media] = true
	}
	delete(seen, "")
	return len(seen)
}

// medium writes a picture or song and returns its path in the folder, with
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
	return plain(syncFolder(w.stage))
}

func tooLarge(n int) error {
	return fmt.Errorf("it has %d MB: a film takes at most %d MB in one file", n>>20, maxMedium>>20)
}
