package motion

import "stillbeat/board"

// Chart returns the part of the way a spacing has done after the part u of
// the time, 0 to 1: the curves of animators' charts. Accelerating is u^3, more
// than a slow out; manners with weight have none and count as even.
func Chart(m board.Manner, u float64) float64 {
	u = min(max(u, 0), 1)
	switch m {
	case board.SlowingIn:
		return board.SlowIn.At(u)
	case board.SlowingOut:
		return board.SlowOut.At(u)
	case board.SlowingBoth:
		return board.SlowInOut.At(u)
	case board.Accelerating:
		return u * u * u
	}
	return u
}

// The usual figures of a move that says none. That they read right is common
// practice, but for the time of an anticipation: 8 of the usual 6 to 12 frames
// at 24 a second.
const (
	usualReady   = 8.0 / 24 // seconds of an anticipation
	usualSpring  = 0.3      // damping of what settles
	usualPeriod  = 0.5      // seconds: 12 frames at 24
	usualSwing   = 0.1      // damping of a pendulum
	usualRebound = 0.6
	pushOff      = 2.0 / 24 // seconds from the bottom of a crouch to take-off
	rollOut      = 8.0 / 24 // seconds from the last bounce to rest
	leastRise    = 30       // mm, of a jump; it is a quarter of its width if that is more
	leastTilt    = 2        // degrees at which an upright stick is let go
	atRest       = 0.3      // mm below which a swing or bounce is over
	stillPart    = 0.02     // of the way: the same for what settles
)

// or returns v, or the usual where it is 0.
func or(v, usual float64) float64 {
	if v == 0 {
		return usual
	}
	return v
}
