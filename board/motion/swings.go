package motion

import (
	"math"
	"sort"

	"stillbeat/board"
)

// radius is an arm about a pivot in an upright plane.
type radius struct {
	pivot  board.Spot
	length float64
	x, y   float64 // the direction the arm points to, seen from above
}

// newRadius returns the arm from a pivot to its end, and the angle in radians
// between it and straight up.
func newRadius(pivot, end board.Spot) (r radius, fromUp float64) {
	across := math.Hypot(end.X-pivot.X, end.Y-pivot.Y)
	r = radius{pivot, Between(pivot, end), 1, 0}
	if across > 0 {
		r.x, r.y = (end.X-pivot.X)/across, (end.Y-pivot.Y)/across
	}
	return r, math.Atan2(across, end.Height-pivot.Height)
}

// at returns where the end of the arm is at an angle from straight up.
func (r radius) at(fromUp float64) board.Spot {
	s, c := math.Sincos(fromUp)
	return board.Spot{X: r.pivot.X + r.length*s*r.x, Y: r.pivot.Y + r.length*s*r.y, Height: r.pivot.Height + r.length*c}
}

// swinging lets the weight at the second key go, below the first one where it
// hangs. Each half swing takes the time of its width and reaches a damped part
// of it, until the rest would not be seen.
func swinging(m board.ObjectMove) course {
	r, fromUp := newRadius(m.Keys[0], m.Keys[1])
	wide := math.Pi - fromUp // from straight down
	if r.length == 0 || wide > 0.99*math.Pi {
		return still(m, "it cannot swing: put the second key, the weight, below the first, where it hangs")
	}
	if wide*r.length < atRest {
		return still(m, "it hangs straight down: put the second key, the weight, to one side")
	}
	z := or(m.Damping, usualSwing)
	part, slower := OvershootOf(z), 1/math.Sqrt(1-z*z)
	swing := func(from, to, seconds float64, ends string) phase {
		return phase{seconds: seconds, ends: ends, shown: true, at: func(u float64) (board.Spot, float64) {
			a := from + (to-from)*(1-math.Cos(math.Pi*u))/2
			return r.at(math.Pi - a), a * r.length
		}}
	}
	c := course{begins: "lets go", moments: []int{0}, done: 1}
	for len(c.moments) < board.MaxPathKeys {
		next := -wide * part
		half := PendulumSeconds(r.length, m.Scale, math.Abs(wide)*180/math.Pi) / 2 * slower
		if math.Abs(next)*r.length < max(atRest, stillPart*r.length) {
			c.phases = append(c.phases, swing(wide, 0, half/2, "at rest"))
			return c
		}
		c.phases = append(c.phases, swing(wide, next, half, "turns"))
		c.moments, wide = append(c.moments, len(c.phases)), next
	}
	return c
}

// toppled is the fall of a thin even stick about its foot, from rest at an
// angle to flat: its times, 0 to 1 of the whole, and its angles.
type toppled struct {
	seconds      float64
	times, angle []float64
}

// topple finds it from the energy: w^2 = (3g/L) (cos a0 - cos a), the moment of
// inertia of the stick about its foot being m L^2 / 3 (mechanics of rigid
// bodies, from memory; the tests integrate the torque). With a = a0 + s^2
// nothing becomes infinite where it is let go.
func topple(metres, from float64) toppled {
	const n = 400
	to := math.Pi / 2
	rate := func(s float64) float64 { // dt/ds
		if s == 0 {
			return 2 / math.Sqrt(math.Sin(from))
		}
		return 2 * s / math.Sqrt(2*math.Sin(from+s*s/2)*math.Sin(s*s/2))
	}
	t := toppled{times: make([]float64, n+1), angle: make([]float64, n+1)}
	t.angle[0] = from
	h := math.Sqrt(to-from) / n
	for i := range n {
		s := float64(i) * h
		t.times[i+1] = t.times[i] + h/6*(rate(s)+4*rate(s+h/2)+rate(s+h))
		t.angle[i+1] = from + (s+h)*(s+h)
	}
	whole := t.times[n]
	for i := range t.times {
		t.times[i] /= whole
	}
	t.seconds = whole * math.Sqrt(metres/(3*Gravity))
	return t
}

// at returns the angle after the part u of the time.
func (t toppled) at(u float64) float64 {
	i := min(max(sort.SearchFloat64s(t.times, u), 1), len(t.times)-1)
	k := (u - t.times[i-1]) / (t.times[i] - t.times[i-1])
	return t.angle[i-1] + k*(t.angle[i]-t.angle[i-1])
}

// toppling lets a stick go that stands on the first key, its tip at the second,
// and lies flat at the end.
func toppling(m board.ObjectMove) course {
	r, from := newRadius(m.Keys[0], m.Keys[1])
	if r.length == 0 || from > 0.98*math.Pi/2 {
		return still(m, "it lies already: put the second key, the tip, above the first, the foot")
	}
	t := topple(scaled(r.length, m.Scale), max(from, leastTilt*math.Pi/180))
	return course{begins: "lets go", loose: true, upright: true, moments: []int{0, 1}, done: 1, phases: []phase{{
		seconds: t.seconds, ends: "lands", shown: true, at: func(u float64) (board.Spot, float64) {
			s := r.at(t.at(u))
			return s, s.Height
		}}}}
}

// ToppleSeconds returns how long a thin even stick of mm on a set of 1:scale
// takes to fall flat about its foot, let go at so many degrees from upright,
// more than 0.
func ToppleSeconds(mm, scale, degrees float64) float64 {
	return topple(scaled(mm, scale), degrees*math.Pi/180).seconds
}
