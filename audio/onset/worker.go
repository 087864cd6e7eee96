package onset

import (
	"math"

	"stillbeat/audio/onset/fft"
)

const (
	window   = 1024.0 / 24000 // seconds one spectrum covers
	lag      = 2              // frames between compared spectra
	loudness = 100            // gain before the logarithm, for a sound of RMS 1
)

// worker measures runs of frames. The strength is the SuperFlux of Boeck and
// Widmer, "Maximum filter vibrato suppression for onset detection", DAFx 2013,
// kept apart for several bands.
type worker struct {
	mono  []float32
	times int     // halvings of the rate
	rate  float64 // Hz after them
	gain  float32 // brings the sound to RMS 1
	hann  []float32
	real  *fft.Real
	bank  []filter

	cuts   [2][]float32 // scratch of cut
	frame  []float32
	bins   []complex64
	mags   []float32
	recent [lag + 1][]float32 // log magnitudes, newest first
	out    *Envelope
}

func newWorker(mono []float32, rate int, out *Envelope) *worker {
	w := &worker{mono: mono, times: halvings(rate), gain: float32(1 / out.Level), out: out}
	w.rate = float64(rate) / float64(int(1)<<w.times)
	w.hann = hann(int(math.Round(window * w.rate)))
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

// run measures frames from..to.
func (w *worker) run(from, to int) {
	const half = lag / 2
	reach := len(w.hann) / 2
	start := w.sample(from-half, FrameRate) - reach
	x := w.cut(start, w.sample(to+half, FrameRate)+reach+1)
	w.fine(x, start, from, to)
	for n := from - half; n < to+half; n++ {
		w.spectrum(x[w.sample(n, FrameRate)-reach-start:])
		if n >= from+half {
			w.rise(n - half)
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
	newest := w.recent[lag]
	copy(w.recent[1:], w.recent[:lag])
	w.recent[0] = newest
	for i, f := range w.bank {
		sum := float32(0)
		mags := w.mags[f.first : f.first+len(f.weights)]
		for j, weight := range f.weights {
			sum += weight * mags[j]
		}
		newest[i] = float32(math.Log10(1 + loudness*float64(sum)))
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
