package beat

import "math"

// Metrical classes of a moment.
const (
	downbeat  = iota // first beat of a bar
	middle           // the beat halfway through a bar of 4 or 6
	otherBeat        // any other beat
	halfway          // between two beats
	third            // a third or two thirds after a beat
	quarter          // a quarter or three quarters after a beat
	between          // the rest
	classes
)

// beatClass returns the class of beat p (0 first) in a bar of m beats.
func beatClass(m, p int) int {
	switch {
	case p == 0:
		return downbeat
	case m%2 == 0 && p == m/2:
		return middle
	}
	return otherBeat
}

// P holds parameters under trial.
var P = struct{ Tau, PriorCentre, PriorWeight, ColourWeight, Alpha, ChangeWeight, Stiff, Metre4, TG, Power, Clip, Side, Gap, ColPow, Lambda, Half, Around, Floor, TGW float64 }{4, 112, 1, 8, 6, 4, 2, 0.1, 8, 0.7, 3, 6, 0, 2, 100, 2, 4, 0.05, 8}

// segment is a part of a beat of one class. It ends at frame end after the
// beat (exclusive); the next one begins there. The last, of class otherBeat,
// belongs to the beat that follows.
type segment struct{ class, end int }

// segments cuts a beat of the given length in frames by metrical class. A
// position of the pulse covers 2 frames on each side, less in short beats.
func segments(length float64) []segment {
	h := math.Min(P.Half, length/24)
	var out []segment
	add := func(class int, end float64) {
		e := int(math.Floor(end)) + 1
		if len(out) > 0 && e <= out[len(out)-1].end {
			return
		}
		out = append(out, segment{class, e})
	}
	add(otherBeat, h)
	for _, p := range []struct {
		at    float64
		class int
	}{{1. / 4, quarter}, {1. / 3, third}, {1. / 2, halfway}, {2. / 3, third}, {3. / 4, quarter}} {
		add(between, p.at*length-h-1e-9)
		add(p.class, p.at*length+h)
	}
	add(between, length-h-1e-9)
	add(otherBeat, length-1e-9)
	return out
}

// Means is the mean evidence by class and row.
var Means = [classes][bands]float64{
	{5.04, 4.03, 3.04, 3.04, 3.34, 3.97, 1.54},
	{4.20, 3.41, 2.76, 2.68, 2.99, 3.81, 1.28},
	{2.92, 3.43, 2.70, 2.79, 3.18, 4.06, 1.08},
	{1.52, 1.73, 1.58, 1.62, 1.94, 2.33, 0.90},
	{0.61, 0.68, 0.75, 0.78, 0.77, 0.69, 0.91},
	{0.82, 0.89, 0.98, 0.94, 0.90, 0.78, 0.97},
	{0.71, 0.68, 0.78, 0.77, 0.69, 0.56, 1.03},
}
