package mp4

import (
	"context"
	"errors"
	"fmt"
	"math"
	"os"
)

// Quantisers between which a size is kept to: those of Fine, and of pictures
// that can just be told.
const (
	finestQP   = 18
	coarsestQP = 46
)

// perHalf is about how much the quantiser grows for half the bytes: its step
// doubles with each 6 (ISO/IEC 14496-10, 8.5.9).
const perHalf = 6

// aim is the part of a size that is tried for, good what is not improved on.
const (
	aim  = 0.96
	good = 0.85
)

// ErrTooSmall is returned for a size that a film cannot keep to.
var ErrTooSmall = errors.New("too little for the film")

// writeUnder writes a film that keeps to opts.Under: it guesses the quantiser
// from some pictures, writes the film, and writes it again, twice at most,
// where it came out too large or much too small.
func writeUnder(ctx context.Context, f *os.File, film Film, p *plan, opts Options) error {
	tell := opts.Progress
	if tell == nil {
		tell = func(float64) {}
	}
	told := 0.05 // a part of the way for the guess, then most of what is left for each try
	qp, err := p.quantiserFor(ctx, film, opts.Under)
	if err != nil {
		return err
	}
	try := func(qp int) (int64, error) {
		p.qp = qp
		from, share := told, 0.8*(1-told)
		o := opts
		o.Progress = func(done float64) { told = from + share*done; tell(told) }
		if err := f.Truncate(0); err != nil {
			return 0, err
		}
		if err := writeFilm(ctx, f, film, p, o); err != nil {
			return 0, err
		}
		info, err := f.Stat()
		if err != nil {
			return 0, err
		}
		return info.Size(), nil
	}
	size, err := try(qp)
	if err != nil {
		return err
	}
	switch fits := size <= opts.Under; {
	case fits && (qp == finestQP || float64(size) >= good*float64(opts.Under)):
	case fits:
		finer := max(finestQP, qp-max(1, int(stepsTo(opts.Under, size))))
		size, err = try(finer)
		if err == nil && size > opts.Under {
			size, err = try(qp)
		}
	default:
		qp = min(coarsestQP, qp+max(1, int(math.Ceil(-stepsTo(opts.Under, size)))))
		if size, err = try(qp); err == nil && size > opts.Under && qp < coarsestQP {
			size, err = try(min(coarsestQP, qp+4))
		}
	}
	if err != nil {
		return err
	}
	if size > opts.Under {
		return p.tooSmall(opts.Under, size)
	}
	tell(1)
	return nil
}

// stepsTo returns by how much the quantiser may fall for a film of one size to
// come to another; it is negative where it must grow.
func stepsTo(under, size int64) float64 {
	return perHalf * math.Log2(aim*float64(under)/float64(size))
}

// quantiserFor chooses how the sound and the pictures are coded so that the
// file will have about the part aim of under bytes.
func (p *plan) quantiserFor(ctx context.Context, film Film, under int64) (int, error) {
	s := newSampler(film, p)
	qp, best := 26, coarsestQP+1
	usual, err := s.guess(ctx, qp)
	if err != nil {
		return 0, err
	}
	around, err := p.fitSound(under, usual.Bytes)
	if err != nil {
		return 0, err
	}
	room := aim * float64(under-around)
	tried := map[int]bool{}
	for range 5 {
		g := usual
		if len(tried) > 0 {
			if g, err = s.guess(ctx, qp); err != nil {
				return 0, err
			}
		}
		tried[qp] = true
		if float64(g.Bytes) <= room {
			best = min(best, qp)
		} else if qp == coarsestQP {
			if float64(g.Bytes-g.Within) > float64(under-around) {
				return 0, p.tooSmall(under, g.Bytes+around)
			}
			return qp, nil // the guess may be off: it is tried
		}
		next := coarsestQP
		if room > 0 {
			next = qp + int(math.Ceil(perHalf*math.Log2(float64(g.Bytes)/room)))
		}
		next = max(finestQP, min(coarsestQP, next))
		if tried[next] {
			break
		}
		qp = next
	}
	return min(best, coarsestQP), nil
}

// soundBits are the bit rates of sound that are chosen from.
var soundBits = []int{aacBitRate, 128000, 96000, 64000}

// fitSound chooses the bit rate of the sound: the highest at which it takes at
// most a quarter of the file, or leaves the pictures what they usually take. It
// returns the bytes beside the pictures.
func (p *plan) fitSound(under, pictures int64) (around int64, err error) {
	for _, bits := range soundBits {
		p.audioBits = bits
		if around, err = p.aroundPictures(); err != nil || around <= max(under/4, under-pictures) {
			return around, err
		}
	}
	return around, nil
}

// tooSmall says what a film that cannot keep to a size takes.
func (p *plan) tooSmall(under, least int64) error {
	return fmt.Errorf("%s is %w: at %dx%d it takes about %s; a smaller picture takes less",
		megabytes(under), ErrTooSmall, p.width, p.height, megabytes(least))
}

// megabytes writes a number of bytes in MB, 1000000 bytes.
func megabytes(n int64) string { return fmt.Sprintf("%.3g MB", float64(n)/1e6) }
