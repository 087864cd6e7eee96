package mp4

import (
	"context"
	"fmt"
)

// drawer draws and converts the pictures of a film's cuts on a goroutine of its
// own, one ahead of the coder: where every frame differs, drawing takes nearly
// as long as coding.
type drawer struct {
	stop  context.CancelFunc
	ready chan *converter // in the order of the cuts; closed at the end, or on an error
	free  chan *converter // those that may be drawn into
	err   error           // why ready was closed; to be read after that
	up    *converter      // the picture that is coded
}

// newDrawer begins to draw. The caller closes it.
func newDrawer(ctx context.Context, film Film, p *plan) *drawer {
	ctx, stop := context.WithCancel(ctx)
	d := &drawer{stop: stop, ready: make(chan *converter), free: make(chan *converter, 2)}
	for range cap(d.free) {
		d.free <- newConverter(p.width, p.height)
	}
	go func() {
		defer close(d.ready)
		defer func() {
			if r := recover(); r != nil {
				d.err = fmt.Errorf("internal error: %v", r)
			}
		}()
		for _, cut := range film.Cuts {
			if d.err = d.draw(ctx, film, cut); d.err != nil {
				return
			}
		}
	}()
	return d
}

// draw draws the picture of a frame and waits until it is taken.
func (d *drawer) draw(ctx context.Context, film Film, cut int64) error {
	var c *converter
	select {
	case c = <-d.free:
	case <-ctx.Done():
		return ctx.Err()
	}
	if err := drawInto(ctx, c, film, cut); err != nil {
		return err
	}
	select {
	case d.ready <- c:
		return nil
	case <-ctx.Done():
		return ctx.Err()
	}
}

// next makes the next picture the one that is coded.
func (d *drawer) next() error {
	if d.up != nil {
		d.free <- d.up
	}
	d.up = <-d.ready
	if d.up == nil {
		return d.err
	}
	return nil
}

// close waits until nothing is drawn any more.
func (d *drawer) close() {
	d.stop()
	for range d.ready {
	}
}
