// Package onset turns sound into onset-strength envelopes and picks the
// onsets: the moments at which something is struck, plucked or sung.
package onset

import (
	"context"
	"fmt"
	"math"
	"sync"
)

const (
	// FrameRate is the number of envelope values a second. Value n of an
	// envelope belongs to second n/FrameRate, whatever the sound's rate.
	FrameRate = 100
	// FineRate is the number of values a second of Envelope.Fine.
	FineRate = 500
	// ColourRate is the number of spectra a second of Envelope.Colour.
	ColourRate = 20

	// silence is the RMS below which a sound counts as silent (-100 dB).
	silence = 1e-5
	// chunk is the number of frames measured between two looks at the
	// context; a multiple of FrameRate/ColourRate, so that no two chunks
	// share a row of Colour.
	chunk = 2000
	// workers is the number of chunks measured at a time.
	workers = 2
)

// Envelope is the onset strength of a sound. It depends neither on the
// sound's loudness nor, below 11 kHz, on its rate.
type Envelope struct {
	Seconds float64     // length of the sound
	Level   float64     // root mean square of the samples
	Bands   [][]float32 // [band of Borders][frame], rise of log magnitude, >= 0
	Sum     []float32   // [frame], sum over the bands
	Fine    []float32   // [fine frame], power with the bass held back
	Colour  [][]float32 // [colour frame][filter], mean log magnitude; nil rows if silent
}

// Silent reports whether there is nothing to hear, so that all values are 0.
func (e *Envelope) Silent() bool { return !(e.Level >= silence) }

// Measure computes the envelopes of mono, sampled at rate Hz. Samples that
// are not finite count as silence. It fails if the rate is outside 8000 to
// 192000 Hz or ctx ends. progress, if not nil, is told the part done, 0..1,
// one call at a time.
func Measure(ctx context.Context, mono []float32, rate int, progress func(float64)) (*Envelope, error) {
	if rate < 8000 || rate > 192000 {
		return nil, fmt.Errorf("onset: a rate of %d Hz is outside 8000 to 192000", rate)
	}
	e := newEnvelope(mono, rate)
	if e.Silent() {
		return e, ctx.Err()
	}
	var (
		group sync.WaitGroup
		lock  sync.Mutex
		next  int
	)
	frames := len(e.Sum)
	take := func() (from int, ok bool) {
		lock.Lock()
		defer lock.Unlock()
		from = next
		if from >= frames || ctx.Err() != nil {
			return 0, false
		}
		next += chunk
		if progress != nil {
			progress(float64(from) / float64(frames))
		}
		return from, true
	}
	for range workers {
		group.Go(func() {
			w := newWorker(mono, rate, e)
			for from, ok := take(); ok; from, ok = take() {
				w.run(from, min(from+chunk, frames))
			}
		})
	}
	group.Wait()
	if err := ctx.Err(); err != nil {
		return nil, err
	}
	return e, nil
}

// newEnvelope returns an envelope of zeros for a sound.
func newEnvelope(mono []float32, rate int) *Envelope {
	e := &Envelope{Seconds: float64(len(mono)) / float64(rate), Level: rms(mono)}
	frames := 0
	if len(mono) > 0 {
		frames = int(e.Seconds*FrameRate) + 1
	}
	e.Sum = make([]float32, frames)
	e.Bands = make([][]float32, len(Borders)-1)
	for b := range e.Bands {
		e.Bands[b] = make([]float32, frames)
	}
	e.Fine = make([]float32, frames*FineRate/FrameRate)
	e.Colour = make([][]float32, frames*ColourRate/FrameRate)
	return e
}

// rms returns the root mean square of the samples, those that are not finite
// taken as 0.
func rms(x []float32) float64 {
	sum := 0.0
	for _, v := range x {
		if finite(v) {
			sum += float64(v) * float64(v)
		}
	}
	return math.Sqrt(sum / float64(max(1, len(x))))
}

// finite reports whether v is neither infinite nor NaN.
func finite(v float32) bool { return v-v == 0 }
