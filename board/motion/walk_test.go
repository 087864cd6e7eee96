package motion

import (
	"testing"

	"stillbeat/board"
)

// Steps a minute are 1440 by the frames of a step (Williams, The Animator's
// Survival Kit, from memory): a walk on the beat has them as its tempo.
func TestGaits(t *testing.T) {
	for _, c := range []struct {
		perMinute float64
		want      string
	}{
		{360, "very fast run"}, {240, "run or very fast walk"}, {180, "slow run, cartoon walk"}, {120, "brisk natural walk, march"},
		{90, "stroll"}, {72, "elderly or tired"}, {60, "slow step"}, {45, "very slow, drunk"}, {128, "brisk natural walk, march"}, {1, "very slow, drunk"},
	} {
		if got := GaitOf(60 / c.perMinute); got.Name != c.want {
			t.Errorf("%g steps a minute are a %s, want a %s", c.perMinute, got.Name, c.want)
		}
	}
}

// A figure that reads as 1.70 m is 283, 142 and 94 mm tall at 1:6, 1:12 and
// 1:18; a step of 12 frames is 9.72, 4.86 and 3.24 mm each frame, on twos double.
func TestAWalkAcrossTheSet(t *testing.T) {
	near(t, "step of a person", StrideOf(1700), 700, 4)
	for _, c := range []struct{ scale, tall, each float64 }{{1, 1700, 58.3}, {6, 283, 9.72}, {12, 142, 4.86}, {18, 94, 3.24}} {
		near(t, "tall", 1700/c.scale, c.tall, 0.5)
		step := 700 / c.scale
		for _, on := range []board.Frame{1, 2} {
			m := board.ObjectMove{Object: "figure", Keys: []board.Spot{{}, {X: step}}}
			tab := Space(m, Every(film24, board.Span{End: 12 + on}, int(on)), nil, Limits{})
			near(t, "each exposure", tab.Rows[1].Step, float64(on)*c.each, float64(on)*0.051)
		}
	}
}
