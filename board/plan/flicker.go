package plan

import (
	"fmt"
	"math"
)

// Swing returns how far the exposure swings from photograph to photograph
// under lamps on the mains, as a part of the mean and of the depth to which
// the lamps pulse: |sin(pi N) / (pi N)| with N the pulses, two to a period of
// the mains, in the time the shutter is open. 0 is even. Mains are in hertz,
// the shutter time in seconds; without a time or mains it is 1.
func Swing(mains, shutter float64) float64 {
	n := 2 * mains * shutter
	if !(n > 0) {
		return 1
	}
	if math.Abs(n-math.Round(n)) < 1e-9 {
		return 0
	}
	return math.Abs(math.Sin(math.Pi*n) / (math.Pi * n))
}

// shutters are what 1 second is divided by at times that cameras offer, as they
// are written on them.
var shutters = []int{200, 160, 125, 120, 100, 80, 60, 50, 40, 30, 25, 20, 15, 10, 8, 6, 5, 4, 2, 1}

// Even returns the shutter times of usual cameras at which lamps on the mains,
// in hertz, do not flicker, from the shortest: "1/100", "1".
func Even(mains float64) (out []string) {
	for _, s := range shutters {
		switch {
		case Swing(mains, 1/float64(s)) > 0:
		case s == 1:
			out = append(out, "1")
		default:
			out = append(out, fmt.Sprintf("1/%d", s))
		}
	}
	return out
}
