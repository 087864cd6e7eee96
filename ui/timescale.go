package ui

import "math"

// timescale maps seconds of film to the timeline's width and back.
type timescale struct {
	from   float64 // second at the left edge
	perSec float64 // units of width per second
	width  float64
}

// Zoom limits: a three-hour film in a narrow window, and one frame at 24 fps
// nearly a hand wide.
const (
	minPerSec = 0.05
	maxPerSec = 2400
)

func (t timescale) x(sec float64) float64   { return (sec - t.from) * t.perSec }
func (t timescale) sec(x float64) float64   { return t.from + x/t.perSec }
func (t timescale) to() float64             { return t.sec(t.width) }
func (t timescale) span(dx float64) float64 { return dx / t.perSec }

// zoomed returns the scale by factor, with the second under x staying there.
func (t timescale) zoomed(factor, x float64) timescale {
	at := t.sec(x)
	t.perSec = math.Max(minPerSec, math.Min(maxPerSec, t.perSec*factor))
	t.from = at - x/t.perSec
	return t
}

// kept returns the scale moved so that it does not run off a film of the
// given length by more than a margin.
func (t timescale) kept(length float64) timescale {
	margin := 40 / t.perSec
	most := length + margin - t.width/t.perSec
	t.from = math.Max(-margin/2, math.Min(t.from, math.Max(-margin/2, most)))
	return t
}

// fit returns the scale that shows from..to with a little air.
func (t timescale) fit(from, to float64) timescale {
	if to-from < 0.05 {
		to = from + 0.05
	}
	const air = 16.0
	t.perSec = math.Max(minPerSec, math.Min(maxPerSec, (t.width-2*air)/(to-from)))
	t.from = from - air/t.perSec
	return t
}

// roundSteps are the distances of labelled ticks on the ruler, in seconds.
var roundSteps = []float64{1, 2, 5, 10, 15, 30, 60, 120, 300, 600, 1200, 1800, 3600}

// tick returns the distance of labelled ticks, in seconds, so that labels are
// at least room units apart; below a second it is a whole number of frames
// that divides the nominal rate.
func (t timescale) tick(room, fps float64) float64 {
	n := math.Round(fps)
	for k := 1.0; k < n; k++ {
		if math.Mod(n, k) == 0 && k/fps*t.perSec >= room {
			return k / fps
		}
	}
	for _, s := range roundSteps {
		if s*t.perSec >= room {
			return s
		}
	}
	return 7200
}
