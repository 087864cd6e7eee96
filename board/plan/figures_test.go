package plan

import (
	"fmt"
	"math"
	"testing"

	"stillbeat/board"
)

// Trade 6.1, computed there from the formula.
func TestSwingOfLamps(t *testing.T) {
	for _, c := range []struct{ mains, shutter, want float64 }{
		{50, 1.0 / 60, 0.1654}, {50, 1.0 / 30, 0.0827}, {50, 1.0 / 125, 0.2339}, {50, 1.0 / 200, 0.6366},
		{60, 1.0 / 50, 0.1261}, {60, 1.0 / 125, 0.0416},
		{50, 0.25, 0}, {60, 0.25, 0}, {50, 0.5, 0}, {60, 0.5, 0},
		{50, 1.0 / 100, 0}, {50, 1.0 / 50, 0}, {50, 1.0 / 25, 0}, {60, 1.0 / 120, 0}, {60, 1.0 / 60, 0}, {60, 1.0 / 30, 0},
		{50, 0, 1}, {0, 1, 1}, {math.NaN(), 1, 1},
	} {
		if got := Swing(c.mains, c.shutter); math.Abs(got-c.want) > 0.00005 {
			t.Errorf("Swing(%g, %g) = %.4f, want %.4f", c.mains, c.shutter, got, c.want)
		}
	}
}

func TestEvenShutterTimes(t *testing.T) {
	for mains, want := range map[float64]string{
		50: "[1/100 1/50 1/25 1/20 1/10 1/5 1/4 1/2 1]",
		60: "[1/120 1/60 1/40 1/30 1/20 1/15 1/10 1/8 1/6 1/5 1/4 1/2 1]",
	} {
		if got := fmt.Sprint(Even(mains)); got != want {
			t.Errorf("at %g Hz %s, want %s", mains, got, want)
		}
	}
}

func TestPace(t *testing.T) {
	log := []board.Logged{{Shot: "1", Exposures: 30, Minutes: 60}, {Shot: "2", Exposures: 10, Minutes: 60}}
	for _, c := range []struct {
		name string
		p    board.Planning
		want Pace
	}{
		{"nothing known", board.Planning{}, Pace{Minutes: 2.5, From: Usual}},
		{"set", board.Planning{Pace: 4}, Pace{Minutes: 4, From: Set}},
		{"learnt: all minutes over all exposures", board.Planning{Log: log}, Pace{3, Learnt, 2, 40, 2, 6}},
		{"set beside a log", board.Planning{Pace: 4, Log: log}, Pace{4, Set, 2, 40, 2, 6}},
	} {
		if got := PaceOf(c.p); got != c.want {
			t.Errorf("%s: %+v, want %+v", c.name, got, c.want)
		}
	}
}

func TestHours(t *testing.T) {
	for minutes, want := range map[float64]string{0: "0 min", 45.4: "45 min", 59.6: "1 h", 180: "3 h", 125: "2 h 05 min", 4320: "72 h"} {
		if got := Hours(minutes); got != want {
			t.Errorf("%g minutes: %q, want %q", minutes, got, want)
		}
	}
}
