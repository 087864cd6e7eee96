package page

import (
	"bufio"
	"bytes"
	"context"
	"encoding/base64"
	"io"

	"stillbeat/board"
	"stillbeat/board/picture"
	"stillbeat/board/share"
	"stillbeat/board/share/guess"
)

// Estimate tells how large the page will be, from some of its pictures. The
// song need not be loaded. It fails as Write does where a bound would be passed.
func Estimate(ctx context.Context, b board.Board, pics *picture.Cache, opts Options) (guess.Size, error) {
	if len(b.Panels) == 0 {
		return guess.Size{}, share.ErrEmpty
	}
	if err := opts.check(); err != nil {
		return guess.Size{}, err
	}
	p, err := newPictures(pics, b, opts)
	if err != nil {
		return guess.Size{}, err
	}
	var coded bytes.Buffer
	all, err := guess.Sum(ctx, len(p.shots), func(n int) (int64, error) {
		coded.Reset()
		err := p.code(&coded, p.shots[n])
		return int64(coded.Len()), err
	})
	if err != nil {
		return guess.Size{}, err
	}
	heard := b.Song != nil && !opts.Silent
	if heard {
		all = all.Plus(soundBytes(b))
	}
	if all.Bytes-all.Within > MaxBytes {
		return guess.Size{}, errTooLarge
	}
	out := &counter{w: bufio.NewWriter(io.Discard)}
	doc := writer{out: out}
	doc.head(b.Title)
	doc.data(newDocument(b, p, heard, opts))
	for n := range p.shots {
		doc.picture(n, nil)
	}
	doc.sound(nil)
	doc.tail()
	text := base64.StdEncoding.EncodedLen(1 << 20)
	return guess.Size{Bytes: all.Bytes * int64(text) >> 20, Within: all.Within*int64(text)>>20 + all.Bytes/100}.Plus(out.n), doc.err
}

// soundBytes returns how many bytes the film's sound takes: 160 kbit/s of AAC,
// as mp4 codes it.
func soundBytes(b board.Board) int64 { return int64(b.Rate.Seconds(b.Frames()) * 20000) }
