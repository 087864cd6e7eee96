// Package mp4 writes an animatic as an MP4 file that plays on phones, in
// browsers and in editors: H.264 constrained baseline at a constant frame
// rate, AAC-LC stereo, the index before the media.
//
// Pictures come from a callback, once per change; a held picture costs about
// ten bytes a frame. The package knows nothing of boards or of sound files.
package mp4

import (
	"context"
	"errors"
	"fmt"
	"image"
	"os"

	"stillbeat/board/beside"
)

// Film is what is to be written.
type Film struct {
	Num, Den int64 // frame rate in frames per second, exact: 23.976 is 24000/1001; 1 to 240

	// Frames is the length in frames, at least 1.
	Frames int64

	// Width and Height are in pixels, 16 or more, and at most what AVC level
	// 5.2 holds (4096x2304, either way up). An odd size is rounded up to even
	// by repeating the last column or row.
	Width, Height int

	// Cuts holds, ascending, the frames at which the picture changes. The
	// first is 0. A film that moves on every frame lists every frame.
	Cuts []int64

	// Picture draws the given frame at Width x Height. It is called once per
	// cut, in order, one call at a time, on a goroutine that ends before Write
	// does; Estimate, and Write with a size to keep to, ask for some cuts
	// before, more than once. The picture is read before the next call, so one
	// image may be drawn over and over. Alpha is ignored: a see-through pixel is seen on black.
	Picture func(ctx context.Context, frame int64) (*image.RGBA, error)

	// Sound is what is heard. With nil the file has no sound track.
	Sound *Sound
}

// Sound is decoded sound and its place in the film.
type Sound struct {
	Samples Samples
	Start   float64 // seconds of film at which sample 0 sounds; may be negative
}

// Samples is decoded sound that can be read at any place: 1 to 8 channels in
// WAVE order, at 1000 to 192000 Hz.
type Samples interface {
	Rate() int // samples per second and channel
	Channels() int
	// Read fills dst, [channel][sample], with the samples from at on, -1..1,
	// silence before and after the sound.
	Read(dst [][]float32, at int)
}

// Quality trades the size of the file against how close its pictures come to
// the drawn ones.
type Quality int

const (
	// Standard suits watching on any screen: quantiser 26.
	Standard Quality = iota
	// Small suits sending by mail: quantiser 34.
	Small
	// Fine suits a large screen and editing: quantiser 18.
	Fine
)

// Options sets the export. The zero value is ready to use.
type Options struct {
	Quality Quality // 0 means Standard

	// Under is how many bytes the file may have; 0 means that its size does not
	// matter. The quality is then the best that keeps to it, Fine at most, and
	// Quality is not asked. It costs some tries at coding.
	Under int64

	// Progress is told how much is done, ascending from 0 to 1, on the
	// goroutine that called Write. Nil means nobody is told.
	Progress func(done float64)
}

// Write writes the film to path. The file is made under another name in the
// same folder and renamed at the end: on an error, or when ctx ends, nothing
// new is left behind and an old file at path is still whole. Several calls may
// run at once; they take turns at coding their sound.
func Write(ctx context.Context, path string, film Film, opts Options) error {
	p, err := newPlan(film, opts)
	if err != nil {
		return fmt.Errorf("share mp4: %w", err)
	}
	write := writeFilm
	if opts.Under > 0 {
		write = writeUnder
	}
	if err := beside.File(path, func(f *os.File) error { return write(ctx, f, film, p, opts) }); err != nil {
		if ctx.Err() != nil && errors.Is(err, ctx.Err()) {
			return fmt.Errorf("share mp4: %s was not written: %w", path, err)
		}
		return fmt.Errorf("share mp4: cannot write %s: %w", path, err)
	}
	return nil
}
