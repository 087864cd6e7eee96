package motion

import (
	"math"

	"stillbeat/board"
)

// flight is a phase in the air: across the set at even speed, from one part of
// the way to another, and at the heights of a parabola.
func flight(w way, seconds, from, to float64, ends string, height func(u float64) float64) phase {
	return phase{seconds: seconds, ends: ends, shown: true, at: func(u float64) (board.Spot, float64) {
		s := w.at((from + (to-from)*u) * w.length())
		s.Height = height(u)
		return s, s.Height
	}}
}

// ends returns the heights of the first and the last key.
func ends(m board.ObjectMove) (from, to float64) {
	return m.Keys[0].Height, m.Keys[len(m.Keys)-1].Height
}

// falling drops from the first key to the height of the last, across the set
// at even speed as what is pushed off an edge.
func falling(m board.ObjectMove) course {
	from, to := ends(m)
	h := from - to
	if h <= 0 {
		return still(m, "it has nothing to fall: put the last key lower than the first")
	}
	return course{begins: "lets go", loose: true, upright: true, moments: []int{0, 1}, done: 1, phases: []phase{
		flight(flat(m.Keys), FallSeconds(h, m.Scale), 0, 1, "lands", func(u float64) float64 { return from - h*u*u })}}
}

// bouncing drops and comes up again as long as it is in the air for two
// exposures and leaves the ground by more than what is seen. What goes across
// the set as well rolls out.
func bouncing(m board.ObjectMove, exposure float64) course {
	from, to := ends(m)
	h, e := from-to, or(m.Rebound, usualRebound)
	if h <= 0 {
		return still(m, "it has nothing to fall: put the last key lower than the first")
	}
	times, heights := []float64{FallSeconds(h, m.Scale)}, []float64{h}
	total := times[0]
	for next := h * e * e; next >= atRest && len(times) < board.MaxPathKeys-1; next *= e * e {
		t := HangSeconds(next, m.Scale)
		if t < 2*exposure {
			break
		}
		times, heights, total = append(times, t), append(heights, next), total+t
	}
	c := course{begins: "lets go", loose: true, upright: true, moments: []int{0}, done: len(times)}
	w, sofar := flat(m.Keys), 0.0
	roll := 0.0
	if w.length() > 0 {
		roll = rollOut
	}
	total += roll / 2 // slowing in from that speed to none takes half the way
	for i, t := range times {
		height := func(u float64) float64 { return to + 4*heights[i]*u*(1-u) }
		ends := "bounces"
		if i == 0 {
			height = func(u float64) float64 { return from - h*u*u }
		}
		if i == len(times)-1 && roll == 0 {
			ends = "comes to rest"
		}
		c.phases = append(c.phases, flight(w, t, sofar/total, (sofar+t)/total, ends, height))
		c.moments, sofar = append(c.moments, len(c.phases)), sofar+t
	}
	if roll > 0 {
		c.phases = append(c.phases, phase{seconds: roll, ends: "comes to rest", shown: true, at: func(u float64) (board.Spot, float64) {
			s := w.at((sofar + (total-sofar)*Chart(board.SlowingIn, u)) / total * w.length())
			s.Height = to
			return s, s.Height
		}})
	}
	return c
}

// jumping crouches if it is to anticipate, flies from the first key to the last
// and sinks in and comes up if it is to overshoot.
func jumping(m board.ObjectMove) course {
	from, to := ends(m)
	w := flat(m.Keys)
	rise := or(m.Rise, max(leastRise, w.length()/4))
	top := max(from, to) + rise
	sink := func(part float64, depth func(u float64) float64) func(float64) (board.Spot, float64) {
		return func(u float64) (board.Spot, float64) {
			s := w.at(part * w.length())
			s.Height = from + (to-from)*part - depth(u)
			return s, s.Height
		}
	}
	c := course{begins: "takes off", upright: true}
	if crouch := m.Anticipate * rise; crouch > 0 {
		c.begins = "anticipates"
		c.phases = []phase{
			{seconds: or(m.Ready, usualReady), ends: "pushes off", shown: true, at: sink(0, func(u float64) float64 { return crouch * Chart(board.SlowingBoth, u) })},
			{seconds: pushOff, ends: "takes off", shown: true, at: sink(0, func(u float64) float64 { return crouch * (1 - u*u) })},
		}
	}
	up, down := FallSeconds(top-from, m.Scale), FallSeconds(top-to, m.Scale)
	peak := up / (up + down)
	c.moments = []int{len(c.phases), len(c.phases) + 1}
	c.phases = append(c.phases, flight(w, up+down, 0, 1, "lands", func(u float64) float64 {
		if u < peak {
			return top - (top-from)*(1-u/peak)*(1-u/peak)
		}
		return top - (top-to)*math.Pow((u-peak)/(1-peak), 2)
	}))
	c.done = len(c.phases)
	if m.Overshoot > 0 {
		for _, s := range ring(or(m.Damping, usualSpring), or(m.Period, usualPeriod), m.Overshoot*rise, max(atRest, stillPart*rise)) {
			name := s.ends
			if name == "overshoots" {
				name = "sinks in"
			}
			c.phases = append(c.phases, phase{seconds: s.seconds, ends: name, shown: true, at: sink(1, s.at)})
		}
	}
	return c
}
