package share

import (
	"context"
	"image"

	"stillbeat/board"
	"stillbeat/board/picture"
)

// reel is the pictures of an export.
type reel struct {
	opts    Options
	board   board.Board
	shown   *picture.Film
	span    board.Span
	w, h    int
	starts  []board.Frame
	numbers []string
	burnt   *image.RGBA // the last picture that something stands over
	burntOn picture.Shot
	burntIn image.Rectangle // the part of it that is not as in the shot
}

func newReel(b board.Board, pics *picture.Cache, span board.Span, w, h int, opts Options) *reel {
	return &reel{opts: opts, board: b, shown: picture.NewFilm(pics, b), span: span, w: w, h: h, starts: b.Starts(), numbers: b.Numbers()}
}

// cuts returns the frames, counted from the first that is written, at which
// another picture comes up.
func (r *reel) cuts() []int64 {
	type look struct {
		shot picture.Shot
		over picture.Burn
	}
	var out []int64
	var last look
	for n := r.span.Start; n < r.span.End; n++ {
		if now := (look{r.shown.Shot(n), r.over(n)}); n == r.span.Start || now != last {
			out, last = append(out, int64(n-r.span.Start)), now
		}
	}
	return out
}

// frame returns frame n of the film as it is written; it is good until the next
// call.
func (r *reel) frame(n board.Frame) (*image.RGBA, error) {
	img, err := r.shown.Frame(n, r.w, r.h)
	if err != nil {
		return nil, err
	}
	return r.under(img, r.shown.Shot(n), r.over(n)), nil
}

// under returns the picture of a shot with what stands over it.
func (r *reel) under(img *image.RGBA, shot picture.Shot, over picture.Burn) *image.RGBA {
	if over == (picture.Burn{}) {
		return img
	}
	if r.burnt == nil {
		r.burnt = image.NewRGBA(image.Rect(0, 0, r.w, r.h))
		r.burntIn = r.burnt.Rect
	}
	part := r.burnt.Rect
	if shot == r.burntOn { // all but what stood over it is still right
		part = r.burntIn
	}
	from, to := part.Min.Y*r.burnt.Stride, part.Max.Y*r.burnt.Stride
	copy(r.burnt.Pix[from:to], img.Pix[from:to])
	r.burntOn, r.burntIn = shot, over.Paint(r.burnt, r.board.Aspect)
	return r.burnt
}

// picture is frame for the writers of films, who count from the first frame
// that is written.
func (r *reel) picture(_ context.Context, n int64) (*image.RGBA, error) {
	return r.frame(r.span.Start + board.Frame(n))
}
