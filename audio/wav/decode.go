// Package wav reads WAVE files (RIFF, RF64 and BW64; integer and floating
// point PCM) and writes 16-bit ones.
//
// Layouts: Microsoft and IBM, Multimedia Programming Interface and Data
// Specifications 1.0, 1991 (RIFF); Microsoft, Multiple Channel Audio Data and
// WAVE Files, 2007 (EXTENSIBLE); EBU Tech 3306, 2009 (RF64).
package wav

import (
	"context"
	"encoding/binary"
	"fmt"

	"stillbeat/audio/clip"
	"stillbeat/audio/internal/guard"
	"stillbeat/audio/internal/tags"
)

// Decode reads a whole WAVE file. 1 to 8 channels of 8 to 32-bit integers or
// 32 and 64-bit floats are read, at 1 to 768 kHz. Sound that is cut short, or
// whose size field is wrong, is read as far as it goes.
//
// progress, if not nil, is called with the part that is done, 0 to 1. Errors
// wrap clip.ErrFormat, ErrDamaged, ErrEmpty, ErrTooLong, ErrTooBig or the
// error of ctx.
func Decode(ctx context.Context, data []byte, progress func(done float64)) (*clip.Clip, error) {
	return guard.Decode("WAV", func() (*clip.Clip, error) {
		f, err := parse(data)
		if err != nil {
			return nil, err
		}
		return f.decode(ctx, progress)
	})
}

// file is what the chunks of a WAVE file say.
type file struct {
	format  *format
	samples []byte // the data chunk, nil if there is none
	title   string
	size    int // bytes in the whole file
}

// parse walks the chunks.
func parse(data []byte) (*file, error) {
	if len(data) < 12 || string(data[8:12]) != "WAVE" {
		return nil, fmt.Errorf("%w: it is not a WAV file", clip.ErrFormat)
	}
	switch string(data[:4]) {
	case "RIFF", "RF64", "BW64":
	default:
		return nil, fmt.Errorf("%w: it is not a WAV file", clip.ErrFormat)
	}
	f := &file{size: len(data)}
	var wideSize uint64 // size of the data chunk from a ds64 chunk
	for rest := data[12:]; len(rest) >= 8; {
		id, size := string(rest[:4]), uint64(binary.LittleEndian.Uint32(rest[4:]))
		rest = rest[8:]
		if id == "data" {
			size = dataSize(size, wideSize, rest)
		}
		body := rest[:min(size, uint64(len(rest)))]
		switch id {
		case "ds64":
			if len(body) >= 16 {
				wideSize = binary.LittleEndian.Uint64(body[8:])
			}
		case "fmt ":
			if f.format == nil {
				var err error
				if f.format, err = parseFormat(body); err != nil {
					return nil, err
				}
			}
		case "data":
			if f.samples == nil {
				f.samples = body
			}
		case "LIST":
			if f.title == "" {
				f.title = infoTitle(body)
			}
		}
		rest = rest[min(size+size%2, uint64(len(rest))):] // chunks start at even offsets
	}
	switch {
	case f.format == nil:
		return nil, fmt.Errorf("%w: the WAV file has no format chunk", clip.ErrDamaged)
	case f.samples == nil:
		return nil, fmt.Errorf("%w: the WAV file has no data chunk", clip.ErrDamaged)
	}
	return f, nil
}

// dataSize returns the true size of the data chunk before rest. Programs that
// write to a pipe leave 0 or 0xFFFFFFFF, which then means up to the end.
func dataSize(size, wideSize uint64, rest []byte) uint64 {
	const unknown = 0xFFFFFFFF
	switch {
	case size == unknown && wideSize > 0:
		return wideSize
	case size == unknown, size == 0 && !isChunk(rest):
		return uint64(len(rest))
	}
	return size
}

// isChunk reports whether b starts with a well-known chunk, which then follows
// an empty data chunk.
func isChunk(b []byte) bool {
	if len(b) < 8 {
		return false
	}
	switch string(b[:4]) {
	case "LIST", "JUNK", "id3 ", "ID3 ", "bext", "cue ", "fact", "smpl", "PEAK":
		return true
	}
	return false
}

// infoTitle returns the INAM field of a LIST INFO chunk, "" if there is none.
func infoTitle(list []byte) string {
	if len(list) < 4 || string(list[:4]) != "INFO" {
		return ""
	}
	for list = list[4:]; len(list) >= 8; {
		size := uint64(binary.LittleEndian.Uint32(list[4:]))
		body := list[8:]
		if string(list[:4]) == "INAM" {
			return tags.Text(body[:min(size, uint64(len(body)))])
		}
		list = body[min(size+size%2, uint64(len(body))):]
	}
	return ""
}

// block is how many samples of each channel are decoded between two looks at
// the context.
const block = 1 << 15

func (f *file) decode(ctx context.Context, progress func(float64)) (*clip.Clip, error) {
	n := len(f.samples) / f.format.frameBytes()
	if err := clip.CheckSize(f.format.rate, f.format.channels, n, f.size); err != nil {
		return nil, err
	}
	c := &clip.Clip{Rate: f.format.rate, Samples: make([][]float32, f.format.channels), Title: f.title}
	for ch := range c.Samples {
		c.Samples[ch] = make([]float32, n)
	}
	meter := guard.NewMeter(ctx, n, progress)
	for from := 0; from < n; from += block {
		to := min(from+block, n)
		for ch, dst := range c.Samples {
			src := f.samples[from*f.format.frameBytes()+ch*f.format.bytes:]
			f.format.read(dst[from:to], src, f.format.frameBytes())
		}
		if err := meter.Add(to - from); err != nil {
			return nil, err
		}
	}
	meter.Finish()
	return c, nil
}
