package onset

import "math"

// nothing is the power that counts as no sound, for a sound of RMS 1 (-40 dB).
const nothing = 1e-4

// emphasis is the time constant, seconds, of the filter that holds back the
// bass in Envelope.Fine: a corner near 160 Hz.
const emphasis = 0.001

// fine writes the power of the sound for envelope frames from..to to dst. x
// begins at sample start, early enough for the filter to settle.
func (w *worker) fine(dst, x []float32, start, from, to int) {
	const per = FineRate / FrameRate
	keep := float32(math.Exp(-1 / (emphasis * w.rate)))
	low, i := float32(0), 0
	for k := from * per; k < to*per; k++ {
		begin, end := w.sample(k, FineRate)-start, w.sample(k+1, FineRate)-start
		sum := float32(0)
		for ; i < end; i++ {
			low = keep*low + (1-keep)*x[i]
			if i >= begin {
				sum += (x[i] - low) * (x[i] - low)
			}
		}
		dst[k-from*per] = sum / float32(max(1, end-begin))
	}
}

// Attack returns the moment, seconds, within reach seconds of t at which the
// power rises most, and by how much: the ratio of the 6 ms after to the 10 ms
// before, bass held back. If nothing rises it is t, with a ratio of 1.
func (e *Envelope) Attack(t, reach float64) (at, rise float64) {
	const after, before = 3, 5 // fine frames
	mean := func(from, to int) float64 {
		sum := 0.0
		for k := max(0, from); k < min(to, len(e.Fine)); k++ {
			sum += float64(e.Fine[k])
		}
		return sum/float64(to-from) + nothing
	}
	at, rise = t, 1
	for k := int(math.Ceil((t - reach) * FineRate)); k <= int((t+reach)*FineRate); k++ {
		if r := mean(k, k+after) / mean(k-before, k); r > rise {
			at, rise = float64(k)/FineRate, r
		}
	}
	return max(0, at), rise
}

// Audible returns the stretch, seconds, from the first to the last moment
// louder than 40 dB below the sound's mean, bass held back. It is empty for a
// silent sound.
func (e *Envelope) Audible() (from, to float64) {
	first, last := -1, -1
	for k, p := range e.Fine {
		if p > nothing {
			if first < 0 {
				first = k
			}
			last = k
		}
	}
	if first < 0 {
		return 0, 0
	}
	return float64(first) / FineRate, float64(last+1) / FineRate
}
