package gif

import (
	"bufio"
	"context"
	"fmt"

	"stillbeat/board/share/guess"
)

// Estimate tells how large Write makes the file, from some of its pictures.
// Small says of a frame that it differs in little from the one before, as where
// only words over the picture change: such pictures are guessed on their own.
func Estimate(ctx context.Context, film Film, small func(frame int64) bool) (guess.Size, error) {
	if err := film.check(); err != nil {
		return guess.Size{}, fmt.Errorf("share gif: %w", err)
	}
	table := film.timetable()
	var kinds [2][]int // pictures of the file: those that differ in much, and in little
	for i, s := range table {
		k := 0
		if i > 0 && small(s.frame) {
			k = 1
		}
		kinds[k] = append(kinds[k], i)
	}
	var all guess.Size
	for _, of := range kinds {
		size, err := guess.Sum(ctx, len(of), func(k int) (int64, error) { return film.sizeOf(ctx, table, of[k]) })
		if err != nil {
			return guess.Size{}, fmt.Errorf("share gif: %w", err)
		}
		all = all.And(size)
	}
	out := newCounting(film)
	out.header(true)
	out.bytes(0x3b)
	return all.Plus(out.count()), nil
}

// sizeOf returns how many bytes picture i of the file takes.
func (f Film) sizeOf(ctx context.Context, table []shown, i int) (int64, error) {
	out := newCounting(f)
	start := int64(0)
	if i > 0 {
		start = table[i-1].end
		before, err := f.draw(ctx, table[i-1].frame)
		if err != nil {
			return 0, err
		}
		out.shows(before)
	}
	img, err := f.draw(ctx, table[i].frame)
	if err != nil {
		return 0, err
	}
	out.picture(img, table[i].end-start)
	return out.count(), out.err
}

// counting is a writer whose bytes are only counted.
type counting struct {
	*writer
	n counter
}

type counter int64

func (c *counter) Write(p []byte) (int, error) {
	*c += counter(len(p))
	return len(p), nil
}

func newCounting(f Film) *counting {
	c := &counting{}
	c.writer = &writer{w: bufio.NewWriter(&c.n), film: f}
	return c
}

func (c *counting) count() int64 {
	c.w.Flush()
	return int64(c.n)
}
