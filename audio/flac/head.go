package flac

import (
	"bytes"
	"encoding/binary"
	"fmt"

	"stillbeat/audio/clip"
	"stillbeat/audio/internal/input"
	"stillbeat/audio/internal/tags"
)

// head is what the metadata blocks say.
type head struct {
	rate, channels, bits int
	length               int // samples in each channel, 0 if unknown
	title                string
}

// Metadata block types.
const (
	typeStreamInfo    = 0
	typeVorbisComment = 4
)

// parseHead reads the metadata and passes it.
func parseHead(in *input.Window) (*head, error) {
	if err := tags.PassID3(in); err != nil {
		return nil, err
	}
	start, err := in.Peek(4)
	if err != nil {
		return nil, err
	}
	if !bytes.HasPrefix(start, []byte("fLaC")) {
		return nil, fmt.Errorf("%w: it is not a FLAC file", clip.ErrFormat)
	}
	in.Pass(4)
	var h *head
	for last := false; !last; {
		b, err := in.Peek(4)
		if err != nil {
			return nil, err
		}
		if len(b) < 4 {
			return nil, cutShort()
		}
		kind, size := b[0]&0x7F, int(b[1])<<16|int(b[2])<<8|int(b[3])
		last = b[0]&0x80 != 0
		in.Pass(4)
		if int64(size) > in.Left() {
			return nil, cutShort()
		}
		switch {
		case kind == typeStreamInfo && h == nil:
			if b, err = in.Peek(size); err == nil {
				h, err = parseStreamInfo(b[:min(size, len(b))])
			}
		case h == nil:
			err = fmt.Errorf("%w: the FLAC file does not start with its stream information", clip.ErrDamaged)
		case kind == typeVorbisComment && h.title == "":
			if b, err = in.Peek(size); err == nil {
				h.title = tags.VorbisTitle(b[:min(size, len(b))])
			}
		}
		if err != nil {
			return nil, err
		}
		in.Pass(int64(size))
	}
	return h, nil
}

func cutShort() error {
	return fmt.Errorf("%w: the FLAC file ends before the sound starts", clip.ErrDamaged)
}

// parseStreamInfo reads a STREAMINFO block (RFC 9639, section 8.2).
func parseStreamInfo(b []byte) (*head, error) {
	if len(b) < 34 {
		return nil, cutShort()
	}
	// After two block sizes (16 bits each) and two frame sizes (24 bits
	// each) come 20 bits rate, 3 channels-1, 5 bits-1 and 36 length.
	packed := binary.BigEndian.Uint64(b[10:])
	h := &head{
		rate:     int(packed >> 44),
		channels: int(packed>>41&7) + 1,
		bits:     int(packed>>36&31) + 1,
		length:   int(packed & (1<<36 - 1)),
	}
	return h, clip.CheckFormat(h.rate, h.channels)
}
