package play

import "math"

// Manner says how a film is played.
type Manner struct {
	Speed float64 // of the film's own, 0.25 to 4; 0 means 1
	Bends bool    // the pitch goes with the speed, as of a tape; else it stays
	// From and To bound a passage that is played round and round, in seconds
	// of film; without one To is not after From. Playing that begins before
	// the passage runs into it, and beginning after it, it starts with it.
	From, To float64
}

// plan says which second of film belongs to each sample of a device that
// plays in a manner from a second on. Each pass of a loop is a whole number
// of samples.
type plan struct {
	Manner
	start float64 // second of film
	rate  float64 // samples a second of the device
	first float64 // samples up to the first turn back, without end where nothing loops
	every float64 // samples from each to the next
}

func newPlan(m Manner, start, rate float64) plan {
	if m.Speed == 0 {
		m.Speed = 1
	}
	p := plan{Manner: m, start: start, rate: rate, first: math.Inf(1)}
	if m.To > m.From {
		if start >= m.To {
			p.start = m.From
		}
		p.first, p.every = p.samples(m.To-p.start), p.samples(m.To-m.From)
	}
	return p
}

// samples returns how long so many seconds of film are.
func (p plan) samples(seconds float64) float64 {
	return max(1, math.Round(seconds/p.Speed*p.rate))
}

// at returns the second of film of sample n, which may lie between two.
func (p plan) at(n float64) float64 {
	if n < p.first {
		sec := p.start + n/p.rate*p.Speed
		if p.To > p.From { // the last sample may reach a little further
			sec = min(sec, math.Nextafter(p.To, p.From))
		}
		return sec
	}
	return min(p.From+math.Mod(n-p.first, p.every)/p.rate*p.Speed, math.Nextafter(p.To, p.From))
}
