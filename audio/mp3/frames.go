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

// decode decodes the frames one after the other and returns the sound by
// channel. A frame that cannot be decoded is silent; if too many are, or all,
// that is an error. The first ones may need data that was cut off.
func (s *stream) decode(ctx context.Context, progress func(float64)) ([][]float32, error) {
	c, err := newCore()
	if err != nil {
		return nil, err
	}
	defer c.close()
	out := make([][]float32, s.channels)
	for ch := range out {
		out[ch] = make([]float32, s.length)
	}
	meter := guard.NewMeter(ctx, len(s.frames), progress)
	silent, first, sounds := 0, 0, false
	for i, f := range s.frames {
		pcm, channels := c.frame(s.data[f.offset:][:f.header.size()])
		switch {
		case pcm != nil:
			sounds = true
			s.place(out, i, pcm, channels)
		case i >= reach:
			if silent++; silent == 1 {
				first = i
			}
		}
		if silent > len(s.frames)/maxDamage {
			if !sounds {
				first = 0
			}
			return nil, s.damaged(first)
		}
		if err := meter.Add(1); err != nil {
			return nil, err
		}
	}
	if !sounds && len(s.frames) > 0 {
		return nil, s.damaged(0)
	}
	meter.Finish()
	return out, nil
}

// damaged returns the error for a frame that cannot be decoded.
func (s *stream) damaged(i int) error {
	at := float64(max(0, i*s.frames[0].header.samples()-s.skip)) / float64(s.rate)
	return fmt.Errorf("%w: its MP3 data cannot be decoded after %.1f seconds", clip.ErrDamaged, at)
}

// place converts frame i and puts the part of it that is to be kept where it
// belongs. One channel of two is heard on both sides.
func (s *stream) place(out [][]float32, i int, pcm []int16, channels int) {
	n := s.frames[0].header.samples()
	at := i*n - s.skip
	for k := max(0, -at); k < min(n, len(pcm)/channels) && at+k < s.length; k++ {
		for ch := range out {
			out[ch][at+k] = float32(pcm[k*channels+min(ch, channels-1)]) / (1 << 15)
		}
	}
}
