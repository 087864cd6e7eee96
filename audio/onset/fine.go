package onset

import "math"

// emphasis is the time constant, seconds, of the filter that flattens the
// fine energy: 1 ms, a corner near 160 Hz.
const emphasis = 0.001

// fine writes the power of the sound, bass held back, in steps of 1/FineRate
// seconds for envelope frames from..to. x begins at sample start.
func (w *worker) fine(x []float32, start, from, to int) {
	const per = FineRate / FrameRate
	keep := float32(math.Exp(-1 / (emphasis * w.rate)))
	low, i := float32(0), 0
	for k := from * per; k < to*per; k++ {
		end := w.centre(k+1, FineRate) - start
		begin := w.centre(k, FineRate) - start
		sum := float32(0)
		for ; i < end; i++ {
			low = keep*low + (1-keep)*x[i]
			if i >= begin {
				d := x[i] - low
				sum += d * d
			}
		}
		w.out.Fine[k] = sum / float32(max(1, end-begin))
	}
}

// Refine returns the moment of the steepest rise of the sound's energy within
// reach seconds of second t, and how steep it is (natural logarithm of the
// ratio of the powers after and before). Without any rise it returns t and 0.
func (e *Envelope) Refine(t, reach float64) (at, steepness float64) {
	const (
		before, after = 5, 3 // fine frames compared
		floor         = 1e-4 // of the sound's mean power
	)
	at = t
	mean := func(from, to int) float64 {
		sum := 0.0
		for k := from; k < to; k++ {
			if k >= 0 && k < len(e.Fine) {
				sum += float64(e.Fine[k])
			}
		}
		return sum / float64(to-from)
	}
	for k := int(math.Ceil((t - reach) * FineRate)); k <= int((t+reach)*FineRate); k++ {
		r := math.Log((mean(k, k+after) + floor) / (mean(k-before, k) + floor))
		if r > steepness {
			at, steepness = float64(k)/FineRate, r
		}
	}
	return at, steepness
}
