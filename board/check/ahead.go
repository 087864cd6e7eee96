package check

import (
	"context"
	"image"
	"runtime"

	"stillbeat/board"
)

// drawer draws a frame.
type drawer func(n board.Frame) (*image.RGBA, error)

// drawnAhead returns a drawer that is to be asked for the frames of order in
// that order, and has some of them drawn before it is, on all processors. What it is
// asked for after the last is drawn then. stop must be called at the end.
func drawnAhead(ctx context.Context, order []board.Frame, draw drawer) (next drawer, stop context.CancelFunc) {
	type drawn struct {
		img *image.RGBA
		err error
	}
	ctx, stop = context.WithCancel(ctx)
	queue := make(chan chan drawn, runtime.GOMAXPROCS(0))
	go func() {
		defer close(queue)
		for _, n := range order {
			done := make(chan drawn, 1)
			select {
			case queue <- done:
			case <-ctx.Done():
				return
			}
			go func() {
				img, err := draw(n)
				done <- drawn{img, err}
			}()
		}
	}()
	return func(n board.Frame) (*image.RGBA, error) {
		done, open := <-queue
		if !open {
			return draw(n)
		}
		d := <-done
		return d.img, d.err
	}, stop
}
