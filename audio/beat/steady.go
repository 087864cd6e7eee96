package beat

import (
	"math"
	"slices"
)

// How steady a beat is: its repetition by the tempogram less the octaves by
// which the interval changes on it. Measured: songs 0.2 to 0.6, clicks of a
// metronome 0.8, rubato piano and soft strings 0.01 to 0.08, noise, speech and
// clicks at random below 0.03, mostly below 0.
const (
	leastSteady = 0.01 // mean steadiness at and below which there is no beat
	leastPulse  = 0.3  // log ratio of strength on beats and between, likewise
	// beatsForOnset is the most beats there may be for each onset: one chord
	// whose partials beat against each other repeats, but nothing is struck.
	beatsForOnset = 4
	doubtful      = 0.1  // local steadiness below which beats are unsure
	fullySteady   = 0.37 // mean steadiness of confidence 1
)

// steadiness returns the steadiness of each beat but the last, frames.
func steadiness(tg tempogram, beats []int) []float64 {
	var out []float64
	for i := 0; i+1 < len(beats); i++ {
		interval := beats[i+1] - beats[i]
		s := tg.after(beats[i], interval)
		if i > 0 {
			s -= math.Abs(math.Log2(float64(interval) / float64(beats[i]-beats[i-1])))
		}
		out = append(out, s)
	}
	return out
}

// isSteady tells a beat, be it a weak one, from a row of beats read into
// noise.
func isSteady(local []float64, beats []beatStrength) bool {
	if len(local) < 4 || meanOf(local) <= leastSteady {
		return false
	}
	var on, off, onFrames, offFrames float64
	for _, b := range beats {
		for s, c := range segmentClasses {
			for r := range colour {
				switch c {
				case otherBeat:
					on += b.sums[s][r]
				case between:
					off += b.sums[s][r]
				}
			}
			switch c {
			case otherBeat:
				onFrames += b.frames[s]
			case between:
				offFrames += b.frames[s]
			}
		}
	}
	return math.Log((on/onFrames+1e-9)/(off/offFrames+1e-9)) > leastPulse
}

// confidence returns 0..1.
func confidence(local []float64) float64 {
	return min(1, max(0, (meanOf(local)-leastSteady)/(fullySteady-leastSteady)))
}

// unsure returns the stretches in which the beats, seconds, are not steady
// over nine beats, the first and last beat standing for the ends of the sound.
func unsure(local, beats []float64, seconds float64) []Range {
	const reach = 4
	var out []Range
	for i := range local {
		if meanOf(local[max(0, i-reach):min(len(local), i+reach+1)]) >= doubtful {
			continue
		}
		r := Range{beats[i], beats[i+1]}
		if i == 0 {
			r.From = 0
		}
		if i == len(local)-1 {
			r.To = seconds
		}
		if last := len(out) - 1; last >= 0 && out[last].To == r.From {
			out[last].To = r.To
		} else {
			out = append(out, r)
		}
	}
	return slices.Clip(out)
}

func meanOf(x []float64) float64 {
	sum := 0.0
	for _, v := range x {
		sum += v
	}
	return sum / float64(len(x))
}
