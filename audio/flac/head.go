package flac

import (
	"bytes"
	"encoding/binary"
	"fmt"

	"stillbeat/audio/clip"
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

// parseHead reads the metadata and returns the frames after it.
func parseHead(data []byte) (*head, []byte, error) {
	rest := tags.SkipID3(data)
	if !bytes.HasPrefix(rest, []byte("fLaC")) {
		return nil, nil, fmt.Errorf("%w: it is not a FLAC file", clip.ErrFormat)
	}
	rest = rest[4:]
	var h *head
	for last := false; !last; {
		if len(rest) < 4 {
			return nil, nil, cutShort()
		}
		kind, size := rest[0]&0x7F, int(rest[1])<<16|int(rest[2])<<8|int(rest[3])
		last = rest[0]&0x80 != 0
		rest = rest[4:]
		if size > len(rest) {
			return nil, nil, cutShort()
		}
		body := rest[:size]
		rest = rest[size:]
		switch {
		case kind == typeStreamInfo && h == nil:
			var err error
			if h, err = parseStreamInfo(body); err != nil {
				return nil, nil, err
			}
		case h == nil:
			return nil, nil, fmt.Errorf("%w: the FLAC file does not start with its stream information", clip.ErrDamaged)
		case kind == typeVorbisComment && h.title == "":
			h.title = tags.VorbisTitle(body)
		}
	}
	return h, rest, nil
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
