package share

import (
	"image"
	"slices"

	"stillbeat/board"
	"stillbeat/board/picture"
)

// Still draws frame n of b as an export writes it, with what stands over it, to
// be looked at before. The picture is the caller's. It returns ErrEmpty for a
// film without panels, and an error for a frame that is not written.
func Still(b board.Board, pics *picture.Cache, n board.Frame, opts Options) (*image.RGBA, error) {
	span, err := opts.span(b)
	if err == nil && (n < span.Start || n >= span.End) {
		_, err = Options{From: n, To: n}.span(b)
	}
	if err != nil {
		return nil, err
	}
	w, h := opts.usualSize(b.Aspect)
	img, err := newReel(b, pics, span, w, h, opts).frame(n)
	if err != nil {
		return nil, err
	}
	out := *img
	out.Pix = slices.Clone(img.Pix)
	return &out, nil
}
