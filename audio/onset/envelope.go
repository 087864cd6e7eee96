// Package onset turns sound into onset-strength envelopes and picks the
// onsets: the moments at which something is struck, plucked or sung.
package onset

import (
	"context"
	"fmt"
	"math"
	"sync"

	"stillbeat/audio/onset/fft"
)

const (
	// FrameRate is the number of envelope values a second. Value n of every
	// envelope belongs to second n/FrameRate.
	FrameRate = 100
	// FineRate is the number of fine energy values a second.
	FineRate = 500
	// ColourRate is the number of long-term spectra a second.
	ColourRate = 20

	window  = 1024.0 / 24000 // seconds a spectrum covers
	lag     = 2              // frames between compared spectra, centred on the frame
	silence = 1e-5           // RMS below which a sound counts as silent (-100 dB)
	chunk   = 2000           // frames of work between two looks at the context
)

// Envelope is the onset strength of a sound in several bands.
type Envelope struct {
	Seconds float64     // length of the sound
	Bands   [][]float32 // [group of Groups][frame], rise of log magnitude, >= 0
	Sum     []float32   // [frame], sum over the groups
	Fine    []float32   // [fine frame], power; see FineRate
	Colour  [][]float32 // [colour frame][filter], mean log magnitude; see ColourRate
	Level   float64     // RMS of the sound
}

// Frames returns the number of values in each band.
func (e *Envelope) Frames() int { return len(e.Sum) }

// Measure computes the envelopes of mono, sampled at rate Hz. Samples that
// are not finite count as silence. It fails if the rate is outside 8000 to
// 192000 Hz or ctx ends. progress, if not nil, is told the part done, 0..1.
//
// The strength is the SuperFlux of Boeck and Widmer, "Maximum filter vibrato
// suppression for onset detection", DAFx 2013, per group of bands.
func Measure(ctx context.Context, mono []float32, rate int, progress func(float64)) (*Envelope, error) {
	if rate < 8000 || rate > 192000 {
		return nil, fmt.Errorf("onset: a rate of %d Hz is outside 8000 to 192000", rate)
	}
	e := &Envelope{Seconds: float64(len(mono)) / float64(rate), Level: level(mono)}
	frames := int(e.Seconds*FrameRate) + 1
	if len(mono) == 0 {
		frames = 0
	}
	e.Sum = make([]float32, frames)
	e.Bands = make([][]float32, len(Groups)-1)
	for g := range e.Bands {
		e.Bands[g] = make([]float32, frames)
	}
	e.Fine = make([]float32, frames*FineRate/FrameRate)
	e.Colour = make([][]float32, frames*ColourRate/FrameRate)
	if e.Level < silence {
		return e, ctx.Err()
	}

	var (
		wg   sync.WaitGroup
		lock sync.Mutex
		next int
	)
	for range 2 {
		wg.Go(func() {
			w := newWorker(mono, rate, e)
			for {
				lock.Lock()
				from := next
				next += chunk
				if progress != nil && from < frames {
					progress(float64(from) / float64(frames))
				}
				lock.Unlock()
				if from >= frames || ctx.Err() != nil {
					return
				}
				w.run(from, min(from+chunk, frames))
			}
		})
	}
	wg.Wait()
	return e, ctx.Err()
}

// level returns the root mean square of the finite samples.
func level(mono []float32) float64 {
	sum := 0.0
	for _, v := range mono {
		if v-v == 0 {
			sum += float64(v) * float64(v)
		}
	}
	return math.Sqrt(sum / float64(max(1, len(mono))))
}

// worker measures runs of frames.
type worker struct {
	mono   []float32
	times  int     // halvings
	rate   float64 // Hz after them
	gain   float32
	hann   []float32
	real   *fft.Real
	bank   []filter
	frame  []float32
	bins   []complex64
	mags   []float32
	recent [lag + 1][]float32 // log magnitudes of the last frames
	out    *Envelope
}

func newWorker(mono []float32, rate int, out *Envelope) *worker {
	w := &worker{mono: mono, times: halvings(rate), out: out}
	w.rate = float64(rate) / float64(int(1)<<w.times)
	w.gain = float32(1 / out.Level)
	w.hann = make([]float32, int(math.Round(window*w.rate)))
	for i := range w.hann {
		// scaled so that a sine of amplitude 1 has magnitude 1
		w.hann[i] = float32((1 - math.Cos(2*math.Pi*(float64(i)+0.5)/float64(len(w.hann)))) * 2 / float64(len(w.hann)))
	}
	n := 4
	for n < len(w.hann) {
		n *= 2
	}
	w.real = fft.New(n)
	w.bank = filterbank(n, w.rate)
	w.frame = make([]float32, n)
	w.bins = make([]complex64, n/2+1)
	w.mags = make([]float32, n/2+1)
	for i := range w.recent {
		w.recent[i] = make([]float32, len(w.bank))
	}
	return w
}

// centre returns the sample a frame of the given rate is centred on.
func (w *worker) centre(frame int, perSecond float64) int {
	return int(math.Round(float64(frame) * w.rate / perSecond))
}

// run measures frames from..to.
func (w *worker) run(from, to int) {
	half := len(w.hann) / 2
	start := w.centre(from-lag/2, FrameRate) - half
	x := cut(w.mono, w.times, start, w.centre(to+lag/2, FrameRate)+half+1, w.gain)
	w.fine(x, start, from, to)
	for n := from - lag/2; n < to+lag/2; n++ {
		w.spectrum(x[w.centre(n, FrameRate)-half-start:])
		if n >= from+lag/2 {
			w.rise(n - lag/2)
		}
		if n >= from && n < to {
			w.colour(n)
		}
	}
}

// spectrum puts the log magnitudes of the frame that begins x in front of
// w.recent.
func (w *worker) spectrum(x []float32) {
	for i, h := range w.hann {
		w.frame[i] = x[i] * h
	}
	w.real.Transform(w.bins, w.frame)
	for k, z := range w.bins {
		w.mags[k] = float32(math.Sqrt(float64(real(z)*real(z) + imag(z)*imag(z))))
	}
	oldest := w.recent[lag]
	copy(w.recent[1:], w.recent[:lag])
	w.recent[0] = oldest
	for i, f := range w.bank {
		sum := float32(0)
		mags := w.mags[f.first : f.first+len(f.weights)]
		for j, weight := range f.weights {
			sum += weight * mags[j]
		}
		oldest[i] = float32(math.Log10(1 + P.Loud*float64(sum)))
	}
}

// rise writes the onset strength of frame n: how far each band of the newest
// spectrum rises above the loudest of itself and its neighbours lag frames
// before, n being halfway between.
func (w *worker) rise(n int) {
	var groups [len(Groups) - 1]float32
	superFlux(&groups, w.bank, w.recent[0], w.recent[lag])
	for g, v := range groups {
		w.out.Bands[g][n] = v
		w.out.Sum[n] += v
	}
}

// superFlux adds to groups the positive differences between cur and the
// maximum of prev over three neighbouring bands.
func superFlux(groups *[len(Groups) - 1]float32, bank []filter, cur, prev []float32) {
	for i, c := range cur {
		p := prev[i]
		if i > 0 {
			p = max(p, prev[i-1])
		}
		if i+1 < len(prev) {
			p = max(p, prev[i+1])
		}
		if c > p {
			groups[bank[i].group] += c - p
		}
	}
}

// colour adds frame n to the long-term spectra.
func (w *worker) colour(n int) {
	const every = FrameRate / ColourRate
	at := n / every
	if at >= len(w.out.Colour) {
		return
	}
	if w.out.Colour[at] == nil {
		w.out.Colour[at] = make([]float32, len(w.bank))
	}
	for i, v := range w.recent[0] {
		w.out.Colour[at][i] += v / every
	}
}
