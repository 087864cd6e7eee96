package printed

import (
	"context"

	"stillbeat/board"
	"stillbeat/board/internal/paper"
	"stillbeat/board/picture"
	"stillbeat/board/share/guess"
)

// Estimate tells how large Board makes the file, from some of its pictures and
// of its pages without them.
func Estimate(ctx context.Context, b board.Board, pics *picture.Cache, o Options) (guess.Size, error) {
	p, err := newPrinter(b, pics, o)
	if err != nil {
		return guess.Size{}, err
	}
	var panels []int // one for each picture of the document
	seen := map[picture.Shot]bool{}
	for i := range b.Panels {
		if shot := p.shown.PanelShot(i, 0); !shot.Blank() && !seen[shot] {
			seen[shot], panels = true, append(panels, i)
		}
	}
	w, h := pixels(p.grid.picture, p.dpi)
	pictures, err := guess.Sum(ctx, len(panels), func(k int) (int64, error) {
		img, err := p.shown.Panel(panels[k], 0, w, h)
		if err != nil {
			return 0, err
		}
		_, data, err := paper.Coded(img)
		return int64(len(data)) + aroundPicture, err
	})
	if err != nil {
		return guess.Size{}, err
	}
	words, err := wordBytes(ctx, b, pics, o)
	return pictures.And(words), err
}

const (
	aroundPicture = 200 // bytes of what a file says of a picture beside its own
	sampledPages  = 4
)

// wordBytes tells what all but the pictures takes: cover and fonts as they are,
// and pages by some of them.
func wordBytes(ctx context.Context, b board.Board, pics *picture.Cache, o Options) (guess.Size, error) {
	pages := o.Pages(b)
	n := min(pages, sampledPages)
	var bytes [2]int64 // of the cover alone, and with n pages
	for k := range bytes {
		p, err := newPrinter(b, pics, o)
		if err != nil {
			return guess.Size{}, err
		}
		p.bare, p.o.Progress = true, nil
		p.AddPage()
		p.cover()
		for page := range n * k {
			if err := p.page(ctx, (2*page+1)*pages/(2*n)); err != nil {
				return guess.Size{}, err
			}
		}
		p.EachPage(p.head)
		var out counter
		if _, err := p.WriteTo(&out); err != nil {
			return guess.Size{}, err
		}
		bytes[k] = int64(out)
	}
	more := (bytes[1] - bytes[0]) * int64(pages-n) / int64(n)
	return guess.Size{Bytes: bytes[1] + more, Within: more / 4}, nil
}

type counter int64

func (c *counter) Write(p []byte) (int, error) {
	*c += counter(len(p))
	return len(p), nil
}
