package page

import (
	"bytes"
	"context"
	"fmt"
	"image/jpeg"
	"io"

	"stillbeat/board"
	"stillbeat/board/picture"
)

// pictures are those of a film: one for each shot that looks like no other.
type pictures struct {
	film          *picture.Film
	width, height int
	quality       int
	shots         []board.Frame // a frame that shows each picture
	changes       [][2]int64    // the frames at which another comes up, and which
}

// newPictures fails for more pictures than a page may have.
func newPictures(pics *picture.Cache, b board.Board, opts Options) (*pictures, error) {
	p := &pictures{film: picture.NewFilm(pics, b), height: orElse(opts.Height, 540), quality: orElse(opts.Quality, 80)}
	p.width, p.height = b.Aspect.Inside(1<<20, p.height)
	seen := map[picture.Shot]int{}
	for _, f := range p.film.Changes() {
		shot := p.film.Shot(f)
		n, known := seen[shot]
		if !known {
			n = len(p.shots)
			seen[shot], p.shots = n, append(p.shots, f)
		}
		p.changes = append(p.changes, [2]int64{int64(f), int64(n)})
	}
	if len(p.shots) > MaxPictures {
		return nil, fmt.Errorf("the page would have %d pictures, the most are %d: a film that moves so much goes better as .mp4", len(p.shots), MaxPictures)
	}
	return p, nil
}

// code writes the picture of a frame to w as JPEG.
func (p *pictures) code(w io.Writer, f board.Frame) error {
	img, err := p.film.Frame(f, p.width, p.height)
	if err != nil {
		return err
	}
	if err := jpeg.Encode(w, img, &jpeg.Options{Quality: p.quality}); err != nil {
		return fmt.Errorf("picture of frame %d: %w", f, err)
	}
	return nil
}

// each hands the pictures over as JPEG, in order, and returns the bytes of all.
// They and what is there besides stay within MaxBytes.
func (p *pictures) each(ctx context.Context, besides int64, progress func(float64), to func(n int, data []byte) error) (int64, error) {
	var sum int64
	var out bytes.Buffer
	for n, f := range p.shots {
		if err := ctx.Err(); err != nil {
			return sum, err
		}
		out.Reset()
		if err := p.code(&out, f); err != nil {
			return sum, err
		}
		if sum += int64(out.Len()); sum+besides > MaxBytes {
			return sum, errTooLarge
		}
		if err := to(n, out.Bytes()); err != nil {
			return sum, err
		}
		if progress != nil {
			progress(float64(n+1) / float64(len(p.shots)))
		}
	}
	return sum, nil
}

func orElse(v, fallback int) int {
	if v == 0 {
		return fallback
	}
	return v
}
