package share

import (
	"context"

	"stillbeat/board"
	"stillbeat/board/picture"
	"stillbeat/board/share/guess"
	"stillbeat/board/share/mp4"
)

// MP4 writes the animatic of b to path, at the film's rate, with the song where
// it lies under the film. A film without a song, or opts.Silent, gives a file
// without a sound track unless there are clicks. It returns ErrEmpty for a film
// without panels, ErrNoSong if sound is missing, ErrNoBeats for clicks without
// beats and mp4.ErrTooSmall for a size that the film cannot keep to. When it
// fails, or ctx ends, nothing new is left behind and an old file at path is
// still whole.
func MP4(ctx context.Context, path string, b board.Board, pics *picture.Cache, sound board.Sound, opts Options) error {
	film, err := mp4Film(b, pics, sound, opts)
	if err != nil {
		return err
	}
	return mp4.Write(ctx, path, film, mp4.Options{Quality: opts.Quality, Under: opts.Under, Progress: opts.Progress})
}

// Estimate tells how large MP4 will make the file, and by how much that may be
// wrong, from a few pictures that it draws and codes. The song need not be
// loaded. It takes up to a second at 1280x720.
func Estimate(ctx context.Context, b board.Board, pics *picture.Cache, sound board.Sound, opts Options) (guess.Size, error) {
	if b.Song != nil && sound == nil {
		sound = board.Silence{}
	}
	film, err := mp4Film(b, pics, sound, opts)
	if err != nil {
		return guess.Size{}, err
	}
	return mp4.Estimate(ctx, film, mp4.Options{Quality: opts.Quality, Under: opts.Under})
}

func mp4Film(b board.Board, pics *picture.Cache, sound board.Sound, opts Options) (mp4.Film, error) {
	span, err := opts.span(b)
	if err != nil {
		return mp4.Film{}, err
	}
	w, h := opts.usualSize(b.Aspect)
	r := newReel(b, pics, span, w, h, opts)
	film := mp4.Film{
		Num: b.Rate.Num, Den: b.Rate.Den, Frames: int64(span.Len()),
		Width: w, Height: h, Cuts: r.cuts(), Picture: r.picture,
	}
	film.Sound, err = opts.sound(b, sound, span)
	return film, err
}
