// Package motion says how far what moves on the set goes from one photograph
// to the next, so that it reads as weight. It knows the moves of a board's
// objects and makes tables of them: Space for one move, Tables for a film.
//
// Lengths are millimetres on the set, times seconds. A set 1:S of what it
// should look like takes the time of the large thing: a fall is divided by S
// and keeps its time, so from the same height on the set it takes sqrt(S)
// times as long as one at full size.
package motion

import "math"

// Gravity is the standard acceleration of free fall in m/s^2 (3rd General
// Conference on Weights and Measures, 1901).
const Gravity = 9.80665

// scaled returns a length on the set of 1:scale as the metres it should look
// like; scale 0 is 1.
func scaled(mm, scale float64) float64 {
	if scale == 0 {
		scale = 1
	}
	return mm / 1000 * scale
}

// FallSeconds returns how long a fall of mm on a set of 1:scale takes,
// sqrt(2h/g).
func FallSeconds(mm, scale float64) float64 {
	return math.Sqrt(2 * max(0, scaled(mm, scale)) / Gravity)
}

// Fallen returns how far something has fallen on a set of 1:scale after so
// many seconds, g t^2 / 2.
func Fallen(seconds, scale float64) float64 {
	return Gravity * seconds * seconds / 2 / scaled(1, scale)
}

// HangSeconds returns how long a jump of mm on a set of 1:scale is in the air
// from take-off to landing at the same height, 2 sqrt(2h/g).
func HangSeconds(mm, scale float64) float64 { return 2 * FallSeconds(mm, scale) }

// LiveRate returns the frames a second at which the real motion of a model of
// 1:scale is to be filmed so that it reads large, base times sqrt(scale). It is
// for water, smoke and cloth that move by themselves in front of the camera;
// what is set by hand is spaced instead. Source: VES Handbook, appendix A.
func LiveRate(base, scale float64) float64 { return base * math.Sqrt(scale) }

// PendulumSeconds returns the time of a full swing, there and back, of a
// weight mm below where it hangs on a set of 1:scale, let go at so many
// degrees: 2 pi sqrt(L/g) at small angles, longer at large ones by
// 1/agm(1, cos(angle/2)).
func PendulumSeconds(mm, scale, degrees float64) float64 {
	a, g := 1.0, math.Abs(math.Cos(degrees*math.Pi/360))
	for range 8 { // the mean doubles its digits each time
		a, g = (a+g)/2, math.Sqrt(a*g)
	}
	return 2 * math.Pi * math.Sqrt(scaled(mm, scale)/Gravity) / max(a, 1e-3)
}

// BounceHeights returns the heights of so many bounces after a drop, each
// rebound^2 of the one before.
func BounceHeights(mm, rebound float64, n int) []float64 {
	out := make([]float64, n)
	for i := range out {
		mm *= rebound * rebound
		out[i] = mm
	}
	return out
}

// BounceSeconds returns when something dropped comes to rest after all its
// bounces, t0 (1+e)/(1-e).
func BounceSeconds(mm, scale, rebound float64) float64 {
	return FallSeconds(mm, scale) * (1 + rebound) / (1 - rebound)
}
