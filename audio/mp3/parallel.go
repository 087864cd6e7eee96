package mp3

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"maps"
	"runtime"
	"slices"
	"sync"

	gomp3 "github.com/hajimehoshi/go-mp3"

	"stillbeat/audio/clip"
	"stillbeat/audio/internal/guard"
)

const (
	// segment is the frames decoded in one go: 13 s at 44.1 kHz.
	segment = 512
	// preroll is the frames decoded before a segment and dropped. A granule
	// needs the overlap of the one before it and 15 steps of its filter
	// bank, which are right only if that one had its own overlap: two
	// granules, one MPEG-1 or two MPEG-2 frames. One more may be needed as
	// it holds main data of the next.
	preroll = 3
	// maxDamage is the part of the frames that may be damaged, 1 in so many.
	maxDamage = 20
)

// decode decodes all segments, several at a time, and returns the sound by
// channel.
func (s *stream) decode(ctx context.Context, progress func(float64)) ([][]float32, error) {
	out := make([][]float32, s.channels)
	for ch := range out {
		out[ch] = make([]float32, s.length)
	}
	meter := guard.NewMeter(ctx, len(s.frames), progress)
	ctx, stop := context.WithCancelCause(ctx)
	defer stop(nil)
	starts := make(chan int)
	var workers sync.WaitGroup
	damage := newDamage(len(s.frames) / maxDamage)
	for range min(runtime.GOMAXPROCS(0), 1+len(s.frames)/segment) {
		workers.Go(func() {
			for from := range starts {
				err := s.decodeSegment(out, from, min(from+segment, len(s.frames)), meter, damage)
				if err != nil {
					stop(err)
					return
				}
			}
		})
	}
feed:
	for from := 0; from < len(s.frames); from += segment {
		select {
		case starts <- from:
		case <-ctx.Done():
			break feed
		}
	}
	close(starts)
	workers.Wait()
	if err := context.Cause(ctx); err != nil {
		return nil, err
	}
	meter.Finish()
	return out, nil
}

// damage collects the frames that cannot be decoded.
type damage struct {
	limit int // how many there may be

	mu    sync.Mutex
	muted map[int]bool
}

func newDamage(limit int) *damage {
	return &damage{limit: limit, muted: map[int]bool{}}
}

// add notes a damaged frame and reports whether there are still few enough.
func (d *damage) add(i int) bool {
	d.mu.Lock()
	defer d.mu.Unlock()
	d.muted[i] = true
	return len(d.muted) <= d.limit
}

// first returns the first damaged frame.
func (d *damage) first() int {
	d.mu.Lock()
	defer d.mu.Unlock()
	return slices.Min(slices.Collect(maps.Keys(d.muted)))
}

func (d *damage) has(i int) bool {
	d.mu.Lock()
	defer d.mu.Unlock()
	return d.muted[i]
}

// decodeSegment writes the sound of frames from to to into out. A frame that
// the decoder refuses is muted, and decoding starts over from there.
func (s *stream) decodeSegment(out [][]float32, from, to int, meter *guard.Meter, damage *damage) error {
	muted := -1 // the frame that was muted last
	for from < to {
		start := max(0, from-preroll)
		at := start // the frame that is decoded next
		var stopped error
		err := guard.Call("MP3", func() error {
			packed := repack(s.data, s.frames, start, to, damage.has)
			d, err := gomp3.NewDecoder(bytes.NewBuffer(packed)) // a buffer cannot seek: the decoder then reads it once
			if err != nil {
				return err
			}
			buf := make([]byte, 4*s.frames[start].header.samples()) // always 16-bit stereo
			for ; at < to; at++ {
				if _, err = io.ReadFull(d, buf); err != nil {
					return err
				}
				if at < from {
					continue
				}
				s.place(out, at, buf)
				if stopped = meter.Add(1); stopped != nil {
					return nil
				}
			}
			return nil
		})
		if stopped != nil {
			return stopped
		}
		if err == nil {
			return nil
		}
		if at == muted || !damage.add(at) {
			return s.damaged(damage.first())
		}
		muted = at
		from = max(from, at)
	}
	return nil
}

// damaged returns the error for a frame that cannot be decoded.
func (s *stream) damaged(i int) error {
	at := float64(max(0, i*s.frames[0].header.samples()-s.skip)) / float64(s.rate)
	return fmt.Errorf("%w: its MP3 data cannot be decoded after %.1f seconds", clip.ErrDamaged, at)
}

// place converts frame i, 16-bit stereo, and puts the part of it that is to be
// kept where it belongs.
func (s *stream) place(out [][]float32, i int, pcm []byte) {
	n := len(pcm) / 4
	at := i*n - s.skip
	for k := max(0, -at); k < n && at+k < s.length; k++ {
		for ch := range out {
			out[ch][at+k] = float32(int16(uint16(pcm[4*k+2*ch])|uint16(pcm[4*k+2*ch+1])<<8)) / (1 << 15)
		}
	}
}
