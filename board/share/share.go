// Package share makes of a film what is handed to others. It draws every
// frame through board/picture, so that a share shows what the window shows.
package share

import (
	"context"
	"errors"
	"image"

	"stillbeat/board"
	"stillbeat/board/picture"
	"stillbeat/board/share/mp4"
)

// Errors of films that cannot be shared.
var (
	ErrEmpty  = errors.New("the film has no panels to show")
	ErrNoSong = errors.New("the film's song is not loaded")
)

// Options sets an export. The zero value is ready to use.
type Options struct {
	Silent        bool               // leave the song out
	Width, Height int                // pixels; 0 means picture.Width and picture.Height
	Progress      func(done float64) // told the part done, 0..1; may be nil
}

// MP4 writes the animatic of b to path, at the film's rate and length, with
// the song where it lies under the film. A film without a song, or
// opts.Silent, gives a file without a sound track. It returns ErrEmpty for a
// film without panels and ErrNoSong if sound is missing. When it fails, or ctx
// ends, nothing new is left behind and an old file at path is still whole.
func MP4(ctx context.Context, path string, b board.Board, pics *picture.Cache, sound board.Sound, opts Options) error {
	if len(b.Panels) == 0 {
		return ErrEmpty
	}
	shown := picture.NewFilm(pics, b)
	film := mp4.Film{
		Num: b.Rate.Num, Den: b.Rate.Den,
		Frames: int64(b.Frames()),
		Width:  orElse(opts.Width, picture.Width), Height: orElse(opts.Height, picture.Height),
	}
	for _, n := range shown.Changes() {
		film.Cuts = append(film.Cuts, int64(n))
	}
	film.Picture = func(_ context.Context, frame int64) (*image.RGBA, error) {
		return shown.Frame(board.Frame(frame), film.Width, film.Height)
	}
	if b.Song != nil && !opts.Silent {
		if sound == nil {
			return ErrNoSong
		}
		film.Sound = &mp4.Sound{Samples: b.Song.Shape(sound), Start: b.SongOffset()}
	}
	return mp4.Write(ctx, path, film, mp4.Options{Progress: opts.Progress})
}

func orElse(v, fallback int) int {
	if v == 0 {
		return fallback
	}
	return v
}
