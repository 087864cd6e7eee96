package mp3

import (
	"context"
	"fmt"

	"stillbeat/audio/clip"
	"stillbeat/audio/internal/guard"
)

const (
	// maxDamage is the part of the frames that may be damaged, 1 in so many.
	maxDamage = 20
	// reach is how many frames the main data of one may begin before it.
	reach = 10
)

// decode decodes the frames one after the other. A frame that cannot be
// decoded is silent; if too many are, or all, that is an error. The first ones
// may need data that was cut off.
func (s *stream) decode(ctx context.Context, out *guard.Feed, progress func(float64)) error {
	c, err := newCore()
	if err != nil {
		return err
	}
	defer c.close()
	meter := guard.NewMeter(ctx, len(s.frames), progress)
	silent, first, sounds := 0, 0, false
	for i, f := range s.frames {
		pcm, channels := c.frame(s.data[f.offset:][:f.header.size()])
		switch {
		case pcm != nil:
			sounds = true
		case i >= reach:
			if silent++; silent == 1 {
				first = i
			}
		}
		if silent > len(s.frames)/maxDamage {
			if !sounds {
				first = 0
			}
			return s.damaged(first)
		}
		if err := s.hand(out, i, pcm, channels); err != nil {
			return err
		}
		if err := meter.Add(1); err != nil {
			return err
		}
	}
	if !sounds && len(s.frames) > 0 {
		return s.damaged(0)
	}
	meter.Finish()
	return nil
}

// damaged returns the error for a frame that cannot be decoded.
func (s *stream) damaged(i int) error {
	at := float64(max(0, i*s.frames[0].header.samples()-s.skip)) / float64(s.rate)
	return fmt.Errorf("%w: its MP3 data cannot be decoded after %.1f seconds", clip.ErrDamaged, at)
}

// hand converts frame i, silence where it has no samples, and passes on the
// part of it that is to be kept. One channel of two is heard on both sides.
func (s *stream) hand(out *guard.Feed, i int, pcm []int16, channels int) error {
	n := s.frames[0].header.samples()
	at := i*n - s.skip // of the frame, in what is kept
	to := min(n, s.length-at)
	channels = max(1, channels) // none in a silent frame
	for from := max(0, -at); from < to; {
		room := out.Room()
		k := min(to-from, len(room[0]))
		for ch, dst := range room {
			convert(dst[:k], pcm, from*channels+min(ch, channels-1), channels)
		}
		if err := out.Filled(k); err != nil {
			return err
		}
		from += k
	}
	return nil
}

// convert reads dst[i] at pcm[at+i*stride], silence past its end.
func convert(dst []float32, pcm []int16, at, stride int) {
	for i := range dst {
		dst[i] = 0
		if at < len(pcm) {
			dst[i] = float32(pcm[at]) / (1 << 15)
		}
		at += stride
	}
}
