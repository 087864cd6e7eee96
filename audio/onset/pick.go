package onset

import (
	"math"
	"slices"
)

// Onset is one hit.
type Onset struct {
	Time     float64 // seconds
	Strength float64 // 0..1, 1 the strongest of the sound
}

// An onset is a frame of the weighted sum of the bands that is the highest
// from peakBefore frames before to peakAfter after it and exceeds a threshold
// made of a fixed part, a part of the mean around it and a multiple of the
// median of the seconds around it. The windows follow common practice (madmom's
// SuperFlux: 10 to 50 ms for the peak, 150 ms for the mean); the other figures
// were chosen on 193 excerpts with known onsets, where F stays within 0.013 of
// its best for any of them changed by a third.
const (
	peakBefore, peakAfter = 4, 1  // frames
	meanBefore, meanAfter = 15, 5 // frames
	floorReach            = 200   // frames each side whose median is the floor
	fixedPart             = 0.8   // threshold: log magnitude
	meanPart              = 0.33  // threshold: of the mean
	floorPart             = 1.4   // threshold: of the median
	apart                 = 0.03  // seconds; closer onsets are one
	refineReach           = 0.02  // seconds an onset may move to the rise of the power
)

// crispness weighs the bands of Borders: brightness tells a note from the ring
// of the one before, which beats and wavers in the bands of its partials. On
// either half of the excerpts, with figures chosen on the other, F rises by
// 0.002 to 0.011 above that of equal weights.
var crispness = [len(Borders) - 1]float32{0.5, 0.5, 0.5, 0.5, 1, 2}

// crisp returns the weighted sum of the bands.
func (e *Envelope) crisp() []float32 {
	out := make([]float32, len(e.Sum))
	for b, weight := range crispness {
		for n, v := range e.Bands[b] {
			out[n] += weight * v
		}
	}
	return out
}

// Onsets returns the onsets of the sound, ascending, each at the steepest
// rise of the sound's power near the peak of the envelope.
func (e *Envelope) Onsets() []Onset {
	if len(e.Sum) == 0 {
		return nil
	}
	x := e.crisp()
	top := slices.Max(x)
	floor := medians(x, floorReach)
	var out []Onset
	for n, v := range x {
		if !isPeak(x, n) || float64(v) < fixedPart+meanPart*mean(x, n-meanBefore, n+meanAfter+1)+floorPart*float64(floor[n]) {
			continue
		}
		at, _ := e.Attack(float64(n)/FrameRate, refineReach)
		o := Onset{at, float64(v / top)}
		if last := len(out) - 1; last >= 0 && o.Time-out[last].Time < apart {
			out[last].Strength = math.Max(out[last].Strength, o.Strength)
			continue
		}
		out = append(out, o)
	}
	return out
}

// isPeak reports whether x[n] is the highest value near n, the first if there
// are several.
func isPeak(x []float32, n int) bool {
	for k := max(0, n-peakBefore); k <= min(len(x)-1, n+peakAfter); k++ {
		if x[k] > x[n] || x[k] == x[n] && k < n {
			return false
		}
	}
	return true
}

// mean returns the mean of x[from:to], cut to what there is.
func mean(x []float32, from, to int) float64 {
	from, to = max(0, from), min(len(x), to)
	sum := 0.0
	for _, v := range x[from:to] {
		sum += float64(v)
	}
	return sum / float64(to-from)
}

// medians returns, for each value, the median of those within reach of it,
// worked out every tenth of reach.
func medians(x []float32, reach int) []float32 {
	step := max(1, reach/10)
	out, sorted := make([]float32, len(x)), make([]float32, 0, 2*reach)
	for i := 0; i < len(x); i += step {
		sorted = append(sorted[:0], x[max(0, i-reach):min(len(x), i+reach)]...)
		slices.Sort(sorted)
		for k := i; k < min(len(x), i+step); k++ {
			out[k] = sorted[len(sorted)/2]
		}
	}
	return out
}
