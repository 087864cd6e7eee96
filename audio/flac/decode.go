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

	"github.com/mewkiz/flac/frame"

	"stillbeat/audio/clip"
	"stillbeat/audio/internal/guard"
)

// Decode reads a whole FLAC file. Sound that is cut short is read as far as it
// goes; a damaged frame is an error that says where it is.
//
// progress, if not nil, is called with the part that is done, 0 to 1. Errors
// wrap clip.ErrFormat, ErrDamaged, ErrEmpty, ErrTooLong, ErrTooBig or the
// error of ctx.
func Decode(ctx context.Context, data []byte, progress func(done float64)) (*clip.Clip, error) {
	return guard.Decode("FLAC", func() (*clip.Clip, error) {
		head, frames, err := parseHead(data)
		if err != nil {
			return nil, err
		}
		if err := clip.CheckSize(head.rate, head.channels, head.length, len(data)); err != nil {
			return nil, err
		}
		d := &decoder{head: head, size: len(data)}
		if err := d.decode(ctx, frames, progress); err != nil {
			return nil, err
		}
		return &clip.Clip{Rate: head.rate, Samples: d.samples, Title: head.title}, nil
	})
}

// decoder collects the samples of the frames.
type decoder struct {
	head    *head
	size    int // bytes in the whole file
	samples [][]float32
	decoded int // samples in each channel so far
}

func (d *decoder) decode(ctx context.Context, data []byte, progress func(float64)) error {
	d.samples = make([][]float32, d.head.channels)
	// The stated length saves copying, if it is believable: real sound
	// unpacks to a few values for each byte.
	if n := d.head.length; n > 0 && n*d.head.channels <= 8*d.size {
		for ch := range d.samples {
			d.samples[ch] = make([]float32, 0, n)
		}
	}
	meter := guard.NewMeter(ctx, len(data), progress)
	for r := bytes.NewReader(data); !d.complete() && !isTag(data[len(data)-r.Len():]); {
		before := r.Len()
		f, err := d.nextFrame(r)
		if errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF) {
			break // the end, or cut short
		}
		if err == nil {
			err = d.add(f)
		}
		if err != nil {
			return err
		}
		if err := meter.Add(before - r.Len()); err != nil {
			return err
		}
	}
	meter.Finish()
	return nil
}

// complete reports whether all samples that the file promises are there.
func (d *decoder) complete() bool {
	return d.head.length > 0 && d.decoded >= d.head.length
}

// nextFrame decodes one frame. Damage becomes an error with its place.
func (d *decoder) nextFrame(r io.Reader) (*frame.Frame, error) {
	f, err := frame.New(r)
	if err == nil {
		if f.BitsPerSample == 0 { // the frame refers to the stream's
			f.BitsPerSample = uint8(d.head.bits)
		}
		if err = clip.CheckSize(d.head.rate, d.head.channels, d.decoded+int(f.BlockSize), d.size); err != nil {
			return nil, err
		}
		if f.Channels.Count() != d.head.channels {
			return nil, d.damage()
		}
		err = f.Parse()
	}
	if err != nil && !errors.Is(err, io.EOF) && !errors.Is(err, io.ErrUnexpectedEOF) {
		return nil, d.damage()
	}
	return f, err
}

// damage returns the error for a frame that cannot be read.
func (d *decoder) damage() error {
	return fmt.Errorf("%w: its FLAC data cannot be decoded after %.1f seconds", clip.ErrDamaged, float64(d.decoded)/float64(d.head.rate))
}

// add appends the samples of a frame.
func (d *decoder) add(f *frame.Frame) error {
	n := int(f.BlockSize)
	if d.head.length > 0 {
		n = min(n, d.head.length-d.decoded)
	}
	gain := 1 / float32(uint64(1)<<(f.BitsPerSample-1))
	for ch, sub := range f.Subframes {
		if len(sub.Samples) < n {
			return d.damage()
		}
		for _, v := range sub.Samples[:n] {
			d.samples[ch] = append(d.samples[ch], float32(v)*gain)
		}
	}
	d.decoded += n
	return nil
}

// isTag reports whether an ID3v1 or APE tag, which some programs append,
// starts here.
func isTag(b []byte) bool {
	return bytes.HasPrefix(b, []byte("TAG")) || bytes.HasPrefix(b, []byte("APETAGEX"))
}
