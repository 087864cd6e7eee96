package share

import (
	"context"
	"fmt"
	"os"

	"stillbeat/board"
	"stillbeat/board/beside"
	"stillbeat/board/picture"
	"stillbeat/board/share/gif"
)

// GIF writes the pictures of b to path as a GIF that goes round and round, as
// long as the film to a hundredth of a second. What opts says of sound and
// quality is left aside. It fails as MP4 does.
func GIF(ctx context.Context, path string, b board.Board, pics *picture.Cache, opts Options) error {
	_, film, err := gifFilm(b, pics, opts)
	if err != nil {
		return err
	}
	err = beside.File(path, func(f *os.File) error {
		return gif.Write(ctx, f, film, gif.Options{Progress: opts.Progress})
	})
	if err != nil {
		return fmt.Errorf("cannot write %s: %w", path, err)
	}
	return nil
}

func gifFilm(b board.Board, pics *picture.Cache, opts Options) (*reel, gif.Film, error) {
	span, err := opts.span(b)
	if err != nil {
		return nil, gif.Film{}, err
	}
	w, h := opts.size(b.Aspect, gifSide, gifSide)
	r := newReel(b, pics, span, w, h, opts)
	return r, gif.Film{
		Num: b.Rate.Num, Den: b.Rate.Den, Frames: int64(span.Len()),
		Width: w, Height: h, Cuts: r.cuts(), Picture: r.picture,
	}, nil
}
