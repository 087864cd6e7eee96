package beat

import (
	"math"
	"slices"

	"stillbeat/audio/onset"
)

// reading is a way to hear the beats of a path: each of its beats is cut in
// parts, of which every step-th is a beat, the first being that of number
// first.
type reading struct {
	parts, step, first int
	trust              float64 // log-odds against the path itself
}

// asFound is the path itself; the other readings are its offbeats, twice and
// half the speed. Readings in two against three were tried: they mend few
// sounds and spoil as many. The trust was learnt with weights.
var (
	asFound  = reading{1, 1, 0, 0}
	readings = []reading{
		asFound, {2, 2, 1, -0.81},
		{2, 1, 0, -0.87},
		{1, 2, 0, -0.90}, {1, 2, 1, -0.90},
	}
)

// beats returns the beats, frames, of the reading of a path.
func (r reading) beats(path []int) []int {
	var out []int
	for k := r.first; k <= (len(path)-1)*r.parts; k += r.step {
		i, part := k/r.parts, k%r.parts
		b := path[i]
		if part > 0 {
			b += ((path[i+1]-path[i])*part + r.parts/2) / r.parts
		}
		out = append(out, b)
	}
	return out
}

// sign is what tells a right reading from a wrong one.
type sign int

const (
	likely      sign = iota // mean log-likelihood of the frames, as in decode
	farTempo                // squared octaves from tempoCentre
	colourHalf              // log ratio of the change of colour on beats to halfway
	swungDouble             // log ratio of the brightness at swungPart to on beats
	changeTwo               // log change of colour on every second beat, at most
	changeFour              // likewise, on every fourth
	alternate               // log contrast of beats in pairs
	signs
)

// swungPart is the part of a beat at which the last swung quaver lies if twice
// the tempo is right.
const swungPart = 5. / 6

// weights are the log-odds a unit of each sign counts for: a chance of being
// right for each reading that is proportional to the exponential of its sum.
// Learnt on 202 excerpts, those of strengths among them, as the weights under
// which the right readings are most probable. With weights learnt on seven
// eighths the F of the beats of the rest rises from 0.855 to 0.893, on one half
// to 0.881; leaving out any sign but farTempo and changeTwo costs 0.01. Tried
// and left out, as they add nothing: onsets to the beat, likeness of bars, kick
// and snare by turns, strength by band.
var weights = [signs]float64{
	likely: 14.9, farTempo: -1.1, colourHalf: 2.1, swungDouble: -1.2,
	changeTwo: -6.6, changeFour: 8.2, alternate: 0.38,
}

// reread returns the beats of the most probable reading of a path.
func reread(f *features, env *onset.Envelope, ev *evidence, path []int) []int {
	const leastBeats = 8
	best, found := math.Inf(-1), path
	for _, r := range readings {
		beats := r.beats(path)
		if len(beats) < leastBeats {
			continue
		}
		interval := float64(beats[len(beats)-1]-beats[0]) / float64(len(beats)-1)
		if r != asFound && (interval < shortest || interval > longest) {
			continue
		}
		odds := r.trust
		for s, v := range signsOf(f, env, ev, beats) {
			odds += weights[s] * v
		}
		if odds > best {
			best, found = odds, beats
		}
	}
	return found
}

// signsOf returns the signs of a reading with at least two beats.
func signsOf(f *features, env *onset.Envelope, ev *evidence, beats []int) (v [signs]float64) {
	const little = 0.1 // added to strengths, whose mean is 1, before the logarithm
	strength := measure(f, env, beats)
	song := means(strength)
	span := float64(beats[len(beats)-1] - beats[0])
	for i := 0; i+1 < len(beats); i++ {
		v[likely] += ev.beat(segments(beats[i+1]-beats[i]), beats[i], beats[i+1]) / span
	}
	octaves := math.Log2(60 * onset.FrameRate * float64(len(beats)-1) / span / tempoCentre)
	v[farTempo] = octaves * octaves
	v[colourHalf] = math.Log((song[0][colour] + little) / (song[halfSegment][colour] + little))
	v[swungDouble] = math.Log((brightness(f, beats, swungPart) + little) / (brightness(f, beats, 0) + little))
	v[changeTwo] = math.Log(topChange(strength, 2) + little)
	v[changeFour] = math.Log(topChange(strength, 4) + little)
	v[alternate] = math.Log(contrast(strength, 2) + 2*little)
	return v
}

// halfSegment is the place of class halfway among the segments.
var halfSegment = slices.Index(segmentClasses, halfway)

// brightness returns the mean strength of the two highest bands at a part of
// the beats, the most of three frames.
func brightness(f *features, beats []int, part float64) float64 {
	sum := 0.0
	for i := 0; i+1 < len(beats); i++ {
		at := int(math.Round(float64(beats[i]) + part*float64(beats[i+1]-beats[i])))
		for _, row := range f[colour-2 : colour] {
			top := float32(0)
			for t := max(0, at-1); t <= min(at+1, len(row)-1); t++ {
				top = max(top, row[t])
			}
			sum += float64(top) / 2
		}
	}
	return sum / float64(len(beats)-1)
}

// topChange returns the mean change of colour on every step-th beat, begun so
// that it is greatest.
func topChange(beats []beatStrength, step int) float64 {
	top := 0.0
	for first := range min(step, len(beats)) {
		sum, n := 0.0, 0.0
		for i := first; i < len(beats); i += step {
			sum += beats[i].change
			n++
		}
		top = math.Max(top, sum/n)
	}
	return top
}
