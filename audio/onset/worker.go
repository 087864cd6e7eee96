package onset

import (
	"math"

	"stillbeat/audio/onset/fft"
)

const (
	window   = 1024.0 / 24000 // seconds one spectrum covers
	lag      = 2              // frames between compared spectra
	half     = lag / 2        // of them before the frame whose rise it is
	loudness = 100            // gain before the logarithm, for a sound of RMS 1
)

// worker measures runs of frames. The strength is the SuperFlux of Boeck and
// Widmer, "Maximum filter vibrato suppression for onset detection", DAFx 2013,
// kept apart for several bands.
type worker struct {
	rate float64 // Hz, halved as often as it is
	hann []float32
	real *fft.Real
	bank []filter

	samples []float32 // of the chunk to be measured
	frame   []float32
	mags    []float32
	recent  [lag + 1][]float32 // log magnitudes, newest first
	out     *Envelope
}

func newWorker(rate int) *worker {
	w := &worker{rate: float64(rate) / float64(int(1)<<halvings(rate))}
	w.hann = hann(int(math.Round(window * w.rate)))
	n := 4
	for n < len(w.hann) {
		n *= 2
	}
	w.real = fft.New(n)
	w.bank = filterbank(n, w.rate)
	w.frame = make([]float32, n)
	w.mags = make([]float32, n/2+1)
	return w
}

// hann returns a window of n values scaled so that a sine of amplitude 1 has
// magnitude 1.
func hann(n int) []float32 {
	w := make([]float32, n)
	for i := range w {
		w[i] = float32((1 - math.Cos(2*math.Pi*(float64(i)+0.5)/float64(n))) * 2 / float64(n))
	}
	return w
}

// sample returns the sample at value number i of perSecond values a second.
func (w *worker) sample(i, perSecond int) int {
	return int(math.Round(float64(i) * w.rate / float64(perSecond)))
}

// span returns the samples, at the worker's rate, that chunk n is made of.
func (w *worker) span(n int) (start, end int) {
	reach := len(w.hann) / 2
	return w.sample(n*chunk-half, FrameRate) - reach, w.sample((n+1)*chunk-half-1, FrameRate) + reach + 1
}

// measure measures chunk n, whose span is in w.samples. A power of two brings
// the loudest of them near 1, so that no square runs over.
func (w *worker) measure(p *piece, n int) {
	peak := float32(0)
	for _, v := range w.samples {
		peak = max(peak, v, -v)
	}
	_, exponent := math.Frexp(float64(peak))
	p.scale = math.Ldexp(1, -exponent)
	for i, v := range w.samples {
		w.samples[i] = float32(float64(v) * p.scale)
	}
	start, _ := w.span(n)
	from, to := n*chunk-half, (n+1)*chunk-half
	p.fine = make([]float32, chunk*FineRate/FrameRate)
	w.fine(p.fine, w.samples, start, from, to)
	p.rows = make([]float32, chunk*len(w.bank))
	for f := from; f < to; f++ {
		at := w.sample(f, FrameRate) - len(w.hann)/2 - start
		w.spectrum(p.rows[(f-from)*len(w.bank):][:len(w.bank)], w.samples[at:])
	}
}

// spectrum writes the magnitudes of the frame that begins x to row, one for
// each filter.
func (w *worker) spectrum(row, x []float32) {
	for i, h := range w.hann {
		w.frame[i] = x[i] * h
	}
	w.real.Magnitudes(w.mags, w.frame)
	for i, f := range w.bank {
		sum := float32(0)
		mags := w.mags[f.first : f.first+len(f.weights)]
		for j, weight := range f.weights {
			sum += weight * mags[j]
		}
		row[i] = sum
	}
}

// rise writes the onset strength of frame n, which lies halfway between the
// newest and the oldest of w.recent.
func (w *worker) rise(n int) {
	strength := superFlux(w.bank, w.recent[lag], w.recent[0])
	for b, v := range strength {
		w.out.Bands[b][n] = v
		w.out.Sum[n] += v
	}
}

// superFlux returns, for each band, the sum over its filters of how far cur
// rises above the greatest of prev at the same filter and its neighbours.
func superFlux(bank []filter, prev, cur []float32) (strength [len(Borders) - 1]float32) {
	for i, c := range cur {
		p := prev[i]
		if i > 0 {
			p = max(p, prev[i-1])
		}
		if i+1 < len(prev) {
			p = max(p, prev[i+1])
		}
		if c > p {
			strength[bank[i].band] += c - p
		}
	}
	return strength
}

// colour adds the newest spectrum, of frame n, to the mean it belongs to.
func (w *worker) colour(n int) {
	const every = FrameRate / ColourRate
	at := n / every
	if at >= len(w.out.Colour) {
		return
	}
	if n%every == 0 {
		w.out.Colour[at] = make([]float32, len(w.bank))
	}
	for i, v := range w.recent[0] {
		w.out.Colour[at][i] += v / every
	}
}
