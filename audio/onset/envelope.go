// Package onset turns sound into onset-strength envelopes and picks the
// onsets: the moments at which something is struck, plucked or sung.
package onset

import (
	"context"

	"stillbeat/audio/clip"
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

// Measure computes the envelopes of mono, sampled at rate Hz: an Intake for a
// sound that is in memory. It fails if the rate is outside 8000 to 192000 Hz
// or ctx ends. progress, if not nil, is told the part done, 0..1.
func Measure(ctx context.Context, mono []float32, rate int, progress func(float64)) (*Envelope, error) {
	var in Intake
	if err := in.Begin(clip.Info{Rate: rate, Channels: 1}); err != nil {
		return nil, err
	}
	const block = 1 << 16
	for from := 0; from < len(mono); from += block {
		if err := ctx.Err(); err != nil {
			return nil, err
		}
		if progress != nil {
			progress(float64(from) / float64(len(mono)))
		}
		if err := in.Add([][]float32{mono[from:min(from+block, len(mono))]}); err != nil {
			return nil, err
		}
	}
	return in.Envelope(ctx)
}

// newEnvelope returns an envelope of zeros for a sound of so many samples.
func newEnvelope(samples, rate int, level float64) *Envelope {
	e := &Envelope{Seconds: float64(samples) / float64(rate), Level: level}
	frames := 0
	if samples > 0 {
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
