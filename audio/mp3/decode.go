// Package mp3 reads MPEG-1, MPEG-2 and MPEG-2.5 Layer III files so that each sample
// comes out where the encoder was given it.
package mp3

import (
	"context"
	"fmt"

	"stillbeat/audio/clip"
	"stillbeat/audio/internal/guard"
	"stillbeat/audio/internal/tags"
)

// Decode reads a whole MP3 file, 8 to 48 kHz, into sink and returns what came
// out. The samples that encoder and decoder add at the start and the end are
// dropped if the file has the tag that tells how many there are; without it
// they stay, as in other players. A file that is cut short is read as far as it
// goes, and a single damaged frame is silent.
//
// progress, if not nil, is called with the part that is done, 0 to 1. Errors
// wrap clip.ErrFormat, ErrDamaged, ErrEmpty, ErrTooLong, ErrTooBig or the error
// of sink or ctx.
func Decode(ctx context.Context, data []byte, sink clip.Sink, progress func(done float64)) (clip.Info, error) {
	return guard.Decode("MP3", sink, func(out *guard.Feed) error {
		s, err := open(data)
		if err != nil {
			return err
		}
		if err := out.Begin(clip.Info{Rate: s.rate, Channels: s.channels, Len: s.length, Title: tags.ID3Title(data)}); err != nil {
			return err
		}
		return s.decode(ctx, out, progress)
	})
}

// stream is the audio frames of a file and what is to come out of them.
type stream struct {
	data         []byte
	frames       []frame // without the tag frame
	rate         int
	channels     int
	skip, length int // samples to drop at the start, and to keep after them
}

// open finds the frames.
func open(data []byte) (*stream, error) {
	s := &stream{data: tags.SkipID3(data)}
	s.frames = scan(s.data)
	if len(s.frames) == 0 {
		if h, ok := parseHeader(s.data); ok && h.size() == 0 {
			return nil, fmt.Errorf("%w: it is MPEG audio of free format; convert it to WAV", clip.ErrFormat)
		}
		return nil, fmt.Errorf("%w: there are no MP3 frames in it", clip.ErrFormat)
	}
	h := s.frames[0].header
	if err := supported(h); err != nil {
		return nil, err
	}
	var tag streamTag
	if t, ok := parseTag(s.data[s.frames[0].offset:][:h.size()], h); ok {
		tag, s.frames = t, s.frames[1:]
	}
	s.rate, s.channels = h.rate(), 1
	for _, f := range s.frames {
		if !f.header.mono() {
			s.channels = 2
			break
		}
	}
	s.skip, s.length = tag.span(len(s.frames), h.samples())
	return s, clip.CheckSize(s.rate, s.channels, s.length, len(data))
}

// supported names what the decoder cannot read.
func supported(h header) error {
	switch {
	case h.layer() == layer1:
		return fmt.Errorf("%w: it is MPEG audio Layer I, not an MP3; convert it to WAV, MP3, FLAC or OGG Vorbis", clip.ErrFormat)
	case h.layer() != layer3:
		return fmt.Errorf("%w: it is MPEG audio Layer II, not an MP3; convert it to WAV, MP3, FLAC or OGG Vorbis", clip.ErrFormat)
	}
	return nil
}
