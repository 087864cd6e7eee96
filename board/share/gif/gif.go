// Package gif writes a film without sound as a GIF that plays in browsers and
// messages (GIF89a). Pictures come one by one: the film is never held whole.
package gif

import (
	"bufio"
	"context"
	"errors"
	"fmt"
	"image"
	"io"
	"math"
)

// Film is what is to be written.
type Film struct {
	Num, Den      int64   // frame rate in frames per second, exact
	Frames        int64   // length, at least 1
	Width, Height int     // pixels, 1 to 65535
	Cuts          []int64 // frames at which the picture changes, ascending; the first is 0

	// Picture draws a frame at Width x Height; it is called in order, on the
	// goroutine that called Write or Estimate, and its result is read before the
	// next call.
	Picture func(ctx context.Context, frame int64) (*image.RGBA, error)
}

// Options sets the export. The zero value is ready to use.
type Options struct {
	Once     bool               // played once, not round and round
	Progress func(done float64) // told the part done, 0 to 1; may be nil
}

// least is the shortest delay in hundredths of a second: common viewers show
// shorter ones for ten (common practice).
const least = 2

// most is the longest delay a picture can have (GIF89a, section 23: unsigned,
// 16 bits); a longer hold is several pictures.
const most = math.MaxUint16

// shown is a picture of the file: the frame it shows, and when it ends.
type shown struct {
	frame int64
	end   int64 // hundredths of a second
}

// timetable returns the pictures of the file. The ends are rounded one by one,
// so nothing adds up: the file is as long as the film to half a hundredth of a
// second. A picture that would be up for less than the least delay gives its
// place to the next.
func (f Film) timetable() []shown {
	at := func(frame int64) int64 {
		return int64(math.Round(float64(frame) * 100 * float64(f.Den) / float64(f.Num)))
	}
	var out []shown
	start := int64(0) // of the last picture
	for _, cut := range f.Cuts {
		if n := len(out); n > 0 {
			if at(cut)-start < least {
				out[n-1].frame = cut
				continue
			}
			out[n-1].end = at(cut)
			start = at(cut)
		}
		out = append(out, shown{frame: cut})
	}
	end := max(at(f.Frames), least)
	if n := len(out); n > 1 && end-start < least { // it takes the place of the one before
		out[n-2].frame = out[n-1].frame
		out = out[:n-1]
	}
	out[len(out)-1].end = end
	return out
}

func (f Film) check() error {
	switch {
	case f.Num < 1 || f.Den < 1:
		return fmt.Errorf("%d/%d is no frame rate", f.Num, f.Den)
	case f.Frames < 1 || len(f.Cuts) == 0 || f.Cuts[0] != 0 || f.Picture == nil:
		return errors.New("there is no picture to show")
	case f.Width < 1 || f.Height < 1 || f.Width > math.MaxUint16 || f.Height > math.MaxUint16:
		return fmt.Errorf("a picture of %dx%d is no size of a GIF", f.Width, f.Height)
	}
	for i := 1; i < len(f.Cuts); i++ {
		if f.Cuts[i] <= f.Cuts[i-1] || f.Cuts[i] >= f.Frames {
			return fmt.Errorf("the cut at frame %d is out of order", f.Cuts[i])
		}
	}
	return nil
}

// draw draws a frame.
func (f Film) draw(ctx context.Context, frame int64) (*image.RGBA, error) {
	img, err := f.Picture(ctx, frame)
	if err != nil {
		return nil, fmt.Errorf("frame %d: %w", frame, err)
	}
	if size := img.Bounds().Size(); size != image.Pt(f.Width, f.Height) {
		return nil, fmt.Errorf("frame %d measures %dx%d, not %dx%d", frame, size.X, size.Y, f.Width, f.Height)
	}
	return img, nil
}

// Write writes the film to w. Its length is that of the film, rounded to a
// hundredth of a second.
func Write(ctx context.Context, w io.Writer, film Film, opts Options) error {
	if err := film.check(); err != nil {
		return fmt.Errorf("share gif: %w", err)
	}
	out := &writer{w: bufio.NewWriterSize(w, 1<<16), film: film}
	out.header(!opts.Once)
	table := film.timetable()
	start := int64(0)
	for i, s := range table {
		if err := ctx.Err(); err != nil {
			return fmt.Errorf("share gif: %w", err)
		}
		img, err := film.draw(ctx, s.frame)
		if err != nil {
			return fmt.Errorf("share gif: %w", err)
		}
		out.picture(img, s.end-start)
		start = s.end
		if out.err != nil {
			return fmt.Errorf("share gif: %w", out.err)
		}
		if opts.Progress != nil {
			opts.Progress(float64(i+1) / float64(len(table)))
		}
	}
	out.bytes(0x3b) // trailer, section 27
	if err := out.w.Flush(); err != nil {
		return fmt.Errorf("share gif: %w", err)
	}
	return out.err
}
