package motion

import (
	"math"

	"stillbeat/board"
)

// sway is a part of a swinging out about a place, from one turn to the next.
type sway struct {
	seconds float64
	ends    string
	at      func(u float64) float64 // mm beyond the place
}

// on lays a sway on a path, about the place mm along it.
func (s sway) on(w way, mm float64) phase {
	return phase{seconds: s.seconds, ends: s.ends, shown: true, at: func(u float64) (board.Spot, float64) {
		at := mm + s.at(u)
		return w.at(at), at
	}}
}

// ring swings out after an arrival at speed: A e^(-zwt) sin wd t, with its first
// turn over mm beyond, until a turn is less than rest. It always makes the
// first.
func ring(z, period, over, rest float64) []sway {
	q := math.Sqrt(1 - z*z)
	wd := 2 * math.Pi / period
	first := math.Acos(z) / wd
	value := func(t float64) float64 { return math.Exp(-z/q*wd*t) * math.Sin(wd*t) }
	scale := over / value(first)
	return swayed(first, period, OvershootOf(z), over, rest, func(t float64) float64 { return scale * value(t) })
}

// swayed cuts what swings by x(t) into sways: up to the first turn, which is
// over mm beyond the place, and from turn to turn, each r of the one before,
// until one is less than rest. The last sway comes to rest in a quarter of a
// period.
func swayed(first, period, r, over, rest float64, x func(t float64) float64) []sway {
	out := []sway{{first, "overshoots", func(u float64) float64 { return x(u * first) }}}
	from := first
	for over *= r; over >= rest && len(out) < 200; over *= r {
		begin := from
		out = append(out, sway{period / 2, "turns", func(u float64) float64 { return x(begin + u*period/2) }})
		from += period / 2
	}
	last := x(from)
	return append(out, sway{period / 4, "at rest", func(u float64) float64 { return last * (1 + math.Cos(math.Pi*u)) / 2 }})
}

// settling springs from the first key to the last and beyond.
func settling(m board.ObjectMove) course {
	w := newWay(m.Keys)
	l := w.length()
	if l == 0 {
		return still(m, "it has nowhere to settle: put the last key elsewhere than the first")
	}
	z, period := or(m.Damping, usualSpring), or(m.Period, usualPeriod)
	if m.Overshoot > 0 && m.Damping == 0 {
		z = min(max(DampingFor(min(m.Overshoot, 0.99)), 0.01), 0.99)
	}
	there := (math.Pi - math.Acos(z)) / (2 * math.Pi) // damped periods to the arrival
	c := course{begins: "sets off", moments: []int{0, 1}, done: 1, phases: []phase{{
		seconds: there * period, ends: "arrives", at: func(u float64) (board.Spot, float64) {
			s := l * Response(u*there, z)
			return w.at(s), s
		}}}}
	beyond := func(t float64) float64 { return l * (Response(there+t/period, z) - 1) }
	over, rest := l*OvershootOf(z), max(atRest, stillPart*l)
	if over < rest {
		return c
	}
	for _, s := range swayed((0.5-there)*period, period, OvershootOf(z), over, rest, beyond) {
		c.phases = append(c.phases, s.on(w, l))
		c.moments = append(c.moments, len(c.phases))
	}
	return c
}
