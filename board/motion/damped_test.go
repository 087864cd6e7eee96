package motion

import (
	"math"
	"testing"

	"stillbeat/board"
)

// Overshoot, undershoot and settling of a damped spring in damped periods, to
// 5 and to 2 per cent, from the formulas of second-order systems
// (controltheorypro.com).
func TestSettlingTable(t *testing.T) {
	for _, c := range []struct{ z, over, under, five, two float64 }{
		{0.1, 72.92, 53.18, 4.752, 6.203}, {0.2, 52.66, 27.73, 2.352, 3.066}, {0.3, 37.23, 13.86, 1.540, 2.004},
		{0.4, 25.38, 6.44, 1.124, 1.458}, {0.5, 16.30, 2.66, 0.865, 1.118}, {0.6, 9.48, 0.90, 0.683, 0.878}, {0.7, 4.60, 0.21, 0.541, 0.690},
	} {
		near(t, "overshoot", 100*OvershootOf(c.z), c.over, 0.0051)
		near(t, "undershoot", 100*math.Pow(OvershootOf(c.z), 2), c.under, 0.0051)
		near(t, "peak", Response(0.5, c.z), 1+OvershootOf(c.z), 1e-12)
		near(t, "5 %", SettledAfter(c.z, 0.05), c.five, 0.00051)
		near(t, "2 %", SettledAfter(c.z, 0.02), c.two, 0.00051)
		near(t, "damping", DampingFor(OvershootOf(c.z)), c.z, 1e-12)
	}
}

// The response for a damping of 0.3 and a damped period of 12 frames, as
// printed to four digits; and the first whole frame from which it stays within
// 5 and 2 per cent.
func TestResponseFrameByFrame(t *testing.T) {
	want := []float64{0, .4444, 1.1178, 1.3723, 1.2069, .9561, .8614, .9230, 1.0163, 1.0516, 1.0287}
	for i, w := range want {
		near(t, "response", Response(float64(2*i)/12, 0.3), w, 0.00006)
	}
	near(t, "response", Response(2, 0.3), .9808, 0.00006)
	for _, c := range []struct{ z, five, two float64 }{{0.2, 26, 37}, {0.3, 19, 21}, {0.5, 9, 14}} {
		for _, w := range []struct{ within, want float64 }{{0.05, c.five}, {0.02, c.two}} {
			last := 0.0 // the last frame outside
			for f := range 200 {
				if math.Abs(Response(float64(f)/12, c.z)-1) > w.within {
					last = float64(f)
				}
			}
			near(t, "settled", last+1, w.want, 0)
			if most := math.Ceil(12 * SettledAfter(c.z, w.within)); last+1 > most {
				t.Errorf("it settles on frame %g, later than its envelope on %g", last+1, most)
			}
		}
	}
}

// A spoon that settles with the usual figures, on ones, passes through the same
// values as long as its turns lie on whole frames, until its last turn that is
// seen.
func TestSettlingOnExposures(t *testing.T) {
	m := board.ObjectMove{Manner: board.Settling, Keys: []board.Spot{{}, {X: 1000}}}
	tab := Space(m, Every(board.FrameRate{Num: 24, Den: 1}, board.Span{End: 48}, 1), nil, Limits{})
	for f, want := range map[int]float64{0: 0, 2: .4444, 4: 1.1178, 6: 1.3723, 8: 1.2069, 10: .9561, 12: .8614, 14: .9230, 16: 1.0163, 18: 1.0516, 47: 1} {
		near(t, "mm", tab.Rows[f].At.X, 1000*want, 0.06)
	}
}

// A first turn that is given is met, with any damping.
func TestRingMeetsItsFirstTurn(t *testing.T) {
	for _, z := range []float64{0.05, 0.3, 0.7} {
		r := ring(z, 0.5, 8, 0.3)
		near(t, "before", r[0].at(0), 0, 1e-12)
		near(t, "first turn", r[0].at(1), 8, 1e-9)
		for i := 1; i < len(r); i++ {
			near(t, "no jump between turns", r[i].at(0), r[i-1].at(1), 1e-9)
			if i < len(r)-1 {
				near(t, "turns", r[i].at(1), -r[i].at(0)*OvershootOf(z), 1e-9)
			}
		}
		near(t, "at rest", r[len(r)-1].at(1), 0, 1e-9)
	}
}
