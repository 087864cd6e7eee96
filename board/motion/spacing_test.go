package motion

import (
	"math"
	"testing"

	"stillbeat/board"
)

// Fractions of the distance in 12 equal steps, as animators' charts have them,
// computed from the formulas and rounded to four digits. The curve 1-(1-u)^3 is
// Accelerating backwards.
func TestCharts(t *testing.T) {
	for _, c := range []struct {
		name string
		at   func(u float64) float64
		want [11]float64
	}{
		{"u^2", func(u float64) float64 { return Chart(board.SlowingOut, u) },
			[11]float64{.0069, .0278, .0625, .1111, .1736, .25, .3403, .4444, .5625, .6944, .8403}},
		{"1-(1-u)^2", func(u float64) float64 { return Chart(board.SlowingIn, u) },
			[11]float64{.1597, .3056, .4375, .5556, .6597, .75, .8264, .8889, .9375, .9722, .9931}},
		{"1-(1-u)^3", func(u float64) float64 { return 1 - Chart(board.Accelerating, 1-u) },
			[11]float64{.2297, .4213, .5781, .7037, .8015, .875, .9277, .9630, .9844, .9954, .9994}},
		{"3u^2-2u^3", func(u float64) float64 { return Chart(board.SlowingBoth, u) },
			[11]float64{.0197, .0741, .1563, .2593, .3762, .5, .6238, .7407, .8438, .9259, .9803}},
		{"(1-cos pi u)/2", func(u float64) float64 { return (1 - math.Cos(math.Pi*u)) / 2 },
			[11]float64{.0170, .0670, .1464, .25, .3706, .5, .6294, .75, .8536, .9330, .9830}},
	} {
		for i, want := range c.want {
			near(t, c.name, c.at(float64(i+1)/12), want, 0.000051)
		}
	}
	for _, m := range board.Manners {
		if Chart(m, -1) != 0 || Chart(m, 2) != 1 {
			t.Errorf("%q leaves its ends", m)
		}
	}
}

// 100 mm eased out and in over 6 steps: 0 7.41 25.93 50 74.07 92.59 100.
func TestASlideInSixSteps(t *testing.T) {
	m := board.ObjectMove{Manner: board.SlowingBoth, Keys: []board.Spot{{}, {X: 100}}}
	tab := Space(m, Every(board.FrameRate{Num: 24, Den: 1}, board.Span{Start: 10, End: 24}, 2), nil, Limits{})
	for i, want := range []float64{0, 7.41, 25.93, 50, 74.07, 92.59, 100} {
		near(t, "mm", tab.Rows[i].At.X, want, 0.0051)
	}
	if tab.Rows[3].Frame != 16 || len(tab.Rows) != 7 {
		t.Errorf("rows %+v", tab.Rows)
	}
}

// A swing goes along an arc: a 100 mm arm swung by 90 degrees passes 29.29 mm
// outside its chord.
func TestSwingsGoAlongArcs(t *testing.T) {
	r, fromUp := newRadius(board.Spot{}, board.Spot{X: 100 / math.Sqrt2, Height: -100 / math.Sqrt2})
	near(t, "from straight up", fromUp, 3*math.Pi/4, 1e-12)
	down, chord := r.at(math.Pi), -100/math.Sqrt2
	near(t, "outside the chord", chord-down.Height, 29.29, 0.0051)
}

// The part of a jump in its top half, 70.7 per cent, and the arc of a jump of
// 0.4 m fitted to 14 frames: 0 106.1 195.9 269.4 326.5 367.3 391.8 400 mm.
func TestArcOfAJump(t *testing.T) {
	m := board.ObjectMove{Manner: board.Jumping, Rise: 400, Keys: []board.Spot{{}, {X: 140}}}
	tab := Space(m, Every(board.FrameRate{Num: 24, Den: 1}, board.Span{End: 24}, 1), []Hit{{0, 0, "beat 1"}, {1, 14, "beat 2"}}, Limits{})
	for i, want := range []float64{0, 106.1, 195.9, 269.4, 326.5, 367.3, 391.8, 400} {
		near(t, "height", tab.Rows[i].At.Height, want, 0.051)
		near(t, "back", tab.Rows[14-i].At.Height, want, 0.051)
		near(t, "across", tab.Rows[i].At.X, float64(10*i), 1e-9)
	}
	if tab.Rows[14].Moment != "lands" || tab.Rows[14].Beat != "beat 2" || tab.Rows[0].Moment != "takes off" {
		t.Errorf("rows %+v", tab.Rows)
	}
	c, top := newCourse(m, 1.0/24), 0
	for i := range 10000 {
		if s, _ := c.phases[0].at((float64(i) + 0.5) / 10000); s.Height > 200 {
			top++
		}
	}
	near(t, "top half", float64(top)/10000, 0.707, 0.0005)
}
