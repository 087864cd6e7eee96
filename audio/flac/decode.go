// Package flac reads FLAC files.
//
// Layout: RFC 9639, Free Lossless Audio Codec, 2024.
package flac

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io"

	"stillbeat/audio/clip"
	"stillbeat/audio/internal/guard"
	"stillbeat/audio/internal/input"
)

// Decode reads a FLAC file of size bytes into sink and returns what came out.
// Sound that is cut short is read as far as it goes; a damaged frame is an
// error that says where it is. Little of the file is held in memory at a time.
//
// progress, if not nil, is called with the part that is done, 0 to 1. Errors
// wrap clip.ErrFormat, ErrDamaged, ErrEmpty, ErrTooLong, ErrTooBig or the
// error of file, sink or ctx.
func Decode(ctx context.Context, file io.ReaderAt, size int64, sink clip.Sink, progress func(done float64)) (clip.Info, error) {
	return guard.Decode("FLAC", sink, func(out *guard.Feed) error {
		in := input.NewWindow(file, size)
		head, err := parseHead(in)
		if err != nil {
			return err
		}
		if err := clip.CheckSize(head.rate, head.channels, head.length, int(size)); err != nil {
			return err
		}
		if err := out.Begin(clip.Info{Rate: head.rate, Channels: head.channels, Title: head.title}); err != nil {
			return err
		}
		d := &decoder{head: head, fileBytes: size, in: in, frame: frame{head: head}, out: out}
		return d.decode(ctx, progress)
	})
}

// decoder reads the frames.
type decoder struct {
	head      *head
	fileBytes int64
	in        *input.Window
	frame     frame
	out       *guard.Feed
}

func (d *decoder) decode(ctx context.Context, progress func(float64)) error {
	meter := guard.NewMeter(ctx, int(d.fileBytes-d.in.At()), progress)
	for !d.complete() {
		n, err := d.next()
		if err != nil {
			return err
		}
		if n == 0 {
			break
		}
		if err := d.hand(); err != nil {
			return err
		}
		d.in.Pass(int64(n))
		if err := meter.Add(n); err != nil {
			return err
		}
	}
	meter.Finish()
	return nil
}

// complete reports whether all samples that the file promises are there.
func (d *decoder) complete() bool {
	return d.head.length > 0 && d.out.Info().Len >= d.head.length
}

// Bytes of a frame: what is read ahead for one, and more than any takes
// (65,536 samples of 8 channels and 32 bits, stored as they are).
const (
	usualFrame = 64 << 10
	mostFrame  = 4 << 20
)

// next decodes the next frame and returns its bytes, 0 at the end of the sound
// and where the file is cut short.
func (d *decoder) next() (int, error) {
	for room := usualFrame; ; room *= 4 {
		data, err := d.in.Peek(room)
		if err != nil {
			return 0, err
		}
		if len(data) == 0 || isTag(data) {
			return 0, nil
		}
		n, err := d.parse(data)
		switch {
		case err == nil:
			return n, nil
		case errors.Is(err, errDamaged), errors.Is(err, errEnds) && len(data) >= mostFrame:
			return 0, fmt.Errorf("%w: its FLAC data cannot be decoded after %.1f seconds", clip.ErrDamaged, d.out.Info().Seconds())
		case !errors.Is(err, errEnds):
			return 0, err
		case len(data) < room:
			return 0, nil
		}
	}
}

// parse decodes the frame that data begins with.
func (d *decoder) parse(data []byte) (int, error) {
	r, err := d.frame.parse(data)
	if err != nil {
		return 0, err
	}
	if err := clip.CheckSize(d.head.rate, d.head.channels, d.out.Info().Len+d.frame.size, int(d.fileBytes)); err != nil {
		return 0, err
	}
	return d.frame.samples(r)
}

// hand passes the samples of the frame on.
func (d *decoder) hand() error {
	n := d.frame.size
	if d.head.length > 0 {
		n = min(n, d.head.length-d.out.Info().Len)
	}
	gain := 1 / float32(uint64(1)<<(d.frame.bits-1))
	for from := 0; from < n; {
		room := d.out.Room()
		k := min(n-from, len(room[0]))
		for ch, dst := range room {
			for i, v := range d.frame.channels[ch][from : from+k] {
				dst[i] = float32(v) * gain
			}
		}
		if err := d.out.Filled(k); err != nil {
			return err
		}
		from += k
	}
	return nil
}

// isTag reports whether an ID3v1 or APE tag, which some programs append,
// starts here.
func isTag(b []byte) bool {
	return bytes.HasPrefix(b, []byte("TAG")) || bytes.HasPrefix(b, []byte("APETAGEX"))
}
