package beat

import (
	"math"
	"sync"

	"stillbeat/audio/onset"
	"stillbeat/audio/onset/fft"
)

const (
	repeatWindow = 8 * onset.FrameRate // frames whose repetition is measured together
	repeatHop    = onset.FrameRate
	repeatFFT    = 2048 // at least repeatWindow + the longest lag
	repeatBeats  = 4    // multiples of the beat that should repeat
)

// tempogram says, for each second, how well the sound repeats after each beat
// interval and its multiples: [second][interval - shortest], 1 a perfect
// repetition, 0 none.
type tempogram [][]float64

// at returns the repetition around a frame after interval shortest+i.
func (tg tempogram) at(frame, i int) float64 {
	return tg[tg.second(frame)][i]
}

// after returns the repetition around a frame after so many frames, or after
// the interval closest to that.
func (tg tempogram) after(frame, length int) float64 {
	return tg.at(frame, min(intervals-1, max(0, length-shortest)))
}

// second returns the place of a frame in the tempogram.
func (tg tempogram) second(frame int) int { return min(len(tg)-1, max(0, frame)/repeatHop) }

// newTempogram measures the repetition of the onset bands.
func newTempogram(f *features) tempogram {
	tg := make(tempogram, (f.frames()+repeatHop-1)/repeatHop)
	const workers = 2
	var group sync.WaitGroup
	for w := range workers {
		group.Go(func() {
			r := newRepetition()
			for i := w; i < len(tg); i += workers {
				lo, hi := max(0, i*repeatHop-repeatWindow/2), min(f.frames(), i*repeatHop+repeatWindow/2)
				clear(r.sum)
				for _, row := range f[:colour] {
					r.add(row[lo:hi])
				}
				tg[i] = r.combs()
			}
		})
	}
	group.Wait()
	return tg
}

// repetition sums autocorrelations.
type repetition struct {
	real *fft.Real
	buf  []float32
	bins []complex64
	sum  []float64 // [lag], mean over the bands
}

func newRepetition() *repetition {
	return &repetition{
		real: fft.New(repeatFFT),
		buf:  make([]float32, repeatFFT),
		bins: make([]complex64, repeatFFT/2+1),
		sum:  make([]float64, repeatBeats*longest+repeatBeats/2+1),
	}
}

// add adds the autocorrelation of x about its mean, 1 at lag 0, by the
// transform of the power spectrum.
func (r *repetition) add(x []float32) {
	mean := float32(0)
	for _, v := range x {
		mean += v / float32(len(x))
	}
	clear(r.buf)
	for i, v := range x {
		r.buf[i] = v - mean
	}
	r.real.Transform(r.bins, r.buf)
	for k, z := range r.bins {
		power := real(z)*real(z) + imag(z)*imag(z)
		r.buf[k] = power
		if k > 0 {
			r.buf[repeatFFT-k] = power
		}
	}
	r.real.Transform(r.bins, r.buf)
	scale := 1 / (float64(real(r.bins[0])) + 1e-6) / float64(colour)
	for lag := range r.sum {
		r.sum[lag] += float64(real(r.bins[lag])) * scale
	}
}

// combs returns the mean repetition at the multiples of each interval. The
// k-th may be k/2 frames off, as the interval is rounded to a frame.
func (r *repetition) combs() []float64 {
	out := make([]float64, intervals)
	for i := range out {
		for k := 1; k <= repeatBeats; k++ {
			best := math.Inf(-1)
			at := k * (shortest + i)
			for _, v := range r.sum[at-k/2 : at+k/2+1] {
				best = math.Max(best, v)
			}
			out[i] += best / repeatBeats
		}
	}
	return out
}
