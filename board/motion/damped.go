package motion

import "math"

// Response returns how far along its way something is that springs from 0 to
// 1, after so many damped periods, with a damping of z (a part of the critical,
// below 1): 1 - e^(-zwt) (cos wd t + z/sqrt(1-z^2) sin wd t).
func Response(periods, z float64) float64 {
	q := math.Sqrt(1 - z*z)
	wd := 2 * math.Pi * periods
	return 1 - math.Exp(-z/q*wd)*(math.Cos(wd)+z/q*math.Sin(wd))
}

// OvershootOf returns how far Response goes beyond 1, e^(-pi z/sqrt(1-z^2)).
// Its peak is half a damped period after the start; the undershoot after it is
// the square of it.
func OvershootOf(z float64) float64 { return math.Exp(-math.Pi * z / math.Sqrt(1-z*z)) }

// DampingFor returns the damping with which Response goes too far by a part of
// the way, between 0 and 1.
func DampingFor(overshoot float64) float64 {
	l := math.Log(overshoot)
	return -l / math.Hypot(math.Pi, l)
}

// SettledAfter returns the damped periods after which the envelope of Response
// is within a part of the way of its end, 0.05 or 0.02.
func SettledAfter(z, within float64) float64 {
	q := math.Sqrt(1 - z*z)
	return -math.Log(within*q) / (2 * math.Pi * z / q)
}
