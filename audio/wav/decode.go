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
	"io"

	"stillbeat/audio/clip"
	"stillbeat/audio/internal/guard"
	"stillbeat/audio/internal/input"
	"stillbeat/audio/internal/tags"
)

// Decode reads a WAVE file of size bytes into sink and returns what came out.
// 1 to 8 channels of 8 to 32-bit integers or 32 and 64-bit floats are read, at
// 1 to 768 kHz. Sound that is cut short, or whose size field is wrong, is read
// as far as it goes. Little of the file is held in memory at a time.
//
// progress, if not nil, is called with the part that is done, 0 to 1. Errors
// wrap clip.ErrFormat, ErrDamaged, ErrEmpty, ErrTooLong, ErrTooBig or the
// error of file, sink or ctx.
func Decode(ctx context.Context, file io.ReaderAt, size int64, sink clip.Sink, progress func(done float64)) (clip.Info, error) {
	return guard.Decode("WAV", sink, func(out *guard.Feed) error {
		h, err := parse(ctx, input.NewWindow(file, size))
		if err != nil {
			return err
		}
		h.fileBytes = size
		sound := io.NewSectionReader(file, h.at, h.bytes)
		return h.decode(ctx, input.NewWindow(sound, h.bytes), out, progress)
	})
}

// head is what the chunks of a WAVE file say.
type head struct {
	format    *format
	found     bool // there is a data chunk
	at, bytes int64
	title     string
	fileBytes int64
}

// parse walks the chunks.
func parse(ctx context.Context, in *input.Window) (*head, error) {
	start, err := in.Peek(12)
	if err != nil {
		return nil, err
	}
	if len(start) < 12 || string(start[8:12]) != "WAVE" {
		return nil, fmt.Errorf("%w: it is not a WAV file", clip.ErrFormat)
	}
	switch string(start[:4]) {
	case "RIFF", "RF64", "BW64":
	default:
		return nil, fmt.Errorf("%w: it is not a WAV file", clip.ErrFormat)
	}
	in.Pass(12)
	h := &head{}
	var wideSize uint64 // size of the data chunk from a ds64 chunk
	for chunks := 0; ; chunks++ {
		if chunks%1000 == 0 && ctx.Err() != nil {
			return nil, ctx.Err()
		}
		b, err := in.Peek(8)
		if err != nil {
			return nil, err
		}
		if len(b) < 8 {
			break
		}
		id, size := string(b[:4]), uint64(binary.LittleEndian.Uint32(b[4:]))
		in.Pass(8)
		// What is wanted of a chunk's body fits into so much.
		if b, err = in.Peek(1 << 16); err != nil {
			return nil, err
		}
		if id == "data" {
			size = dataSize(size, wideSize, b, in.Left())
		}
		body := b[:min(size, uint64(len(b)))]
		switch id {
		case "ds64":
			if len(body) >= 16 {
				wideSize = binary.LittleEndian.Uint64(body[8:])
			}
		case "fmt ":
			if h.format == nil {
				if h.format, err = parseFormat(body); err != nil {
					return nil, err
				}
			}
		case "data":
			if !h.found {
				h.found, h.at, h.bytes = true, in.At(), int64(min(size, uint64(in.Left())))
			}
		case "LIST":
			if h.title == "" {
				h.title = infoTitle(body)
			}
		}
		in.Pass(int64(min(size+size%2, uint64(in.Left())))) // chunks start at even offsets
	}
	switch {
	case h.format == nil:
		return nil, fmt.Errorf("%w: the WAV file has no format chunk", clip.ErrDamaged)
	case !h.found:
		return nil, fmt.Errorf("%w: the WAV file has no data chunk", clip.ErrDamaged)
	}
	return h, nil
}

// dataSize returns the true size of a data chunk, which begins with rest and
// has left bytes to the end of the file. Programs that write to a pipe leave 0
// or 0xFFFFFFFF, which then means up to the end.
func dataSize(size, wideSize uint64, rest []byte, left int64) uint64 {
	const unknown = 0xFFFFFFFF
	switch {
	case size == unknown && wideSize > 0:
		return wideSize
	case size == unknown, size == 0 && !isChunk(rest):
		return uint64(left)
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
const block = 1 << 14

func (h *head) decode(ctx context.Context, in *input.Window, out *guard.Feed, progress func(float64)) error {
	f := h.format
	n := int(h.bytes) / f.frameBytes()
	if err := clip.CheckSize(f.rate, f.channels, n, int(h.fileBytes)); err != nil {
		return err
	}
	if err := out.Begin(clip.Info{Rate: f.rate, Channels: f.channels, Len: n, Title: h.title}); err != nil {
		return err
	}
	meter := guard.NewMeter(ctx, n, progress)
	for from := 0; from < n; from += block {
		data, err := in.Peek(block * f.frameBytes())
		if err != nil {
			return err
		}
		whole := min(block, n-from, len(data)/f.frameBytes())
		if err := f.decode(data, whole, out); err != nil {
			return err
		}
		in.Pass(int64(whole * f.frameBytes()))
		if err := meter.Add(whole); err != nil {
			return err
		}
	}
	meter.Finish()
	return nil
}

// decode hands on the first n samples of data.
func (f *format) decode(data []byte, n int, out *guard.Feed) error {
	for n > 0 {
		room := out.Room()
		k := min(n, len(room[0]))
		for ch, dst := range room {
			f.read(dst[:k], data[ch*f.bytes:], f.frameBytes())
		}
		if err := out.Filled(k); err != nil {
			return err
		}
		data, n = data[k*f.frameBytes():], n-k
	}
	return nil
}
