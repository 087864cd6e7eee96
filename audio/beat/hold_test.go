package beat

import (
	"context"
	"slices"
	"testing"
)

// every returns the frames from..to by step.
func every(from, to, step int) (at []int) {
	for ; from < to; from += step {
		at = append(at, from)
	}
	return at
}

// alike returns a tempogram in which everything repeats to the same degree.
func alike(seconds int, repetition float64) tempogram {
	tg := make(tempogram, seconds)
	for i := range tg {
		tg[i] = slices.Repeat([]float64{repetition}, intervals)
	}
	return tg
}

func TestMainIntervals(t *testing.T) {
	path := slices.Concat(every(5, 10000, 60), every(10025, 20000, 40))
	main := mainIntervals(alike(200, 0.5), path)
	for second, want := range map[int]int{0: 60, 30: 60, 90: 60, 110: 40, 199: 40} {
		if main[second] != want {
			t.Errorf("main interval at %d s = %d frames, want %d", second, main[second], want)
		}
	}
	if got := mainIntervals(alike(3, 0), []int{0, 50, 100}); !slices.Equal(got, []int{0, 0, 0}) {
		t.Errorf("main intervals where nothing repeats = %v, want none", got)
	}
}

func TestBeatsThatStrayAreHeld(t *testing.T) {
	const frames = 3000
	truth := every(5, frames, 50)
	f := pulses(frames, truth)
	ev, tg := newEvidence(f), newTempogram(f)
	slipped := slices.Concat(every(5, 2005, 50), every(2005, frames, 100))
	for name, path := range map[string][]int{"half the speed for a third": slipped, "none stray": truth} {
		got, err := hold(context.Background(), ev, tg, path)
		if err != nil {
			t.Fatal(err)
		}
		for i := 1; i < len(got); i++ {
			if step := got[i] - got[i-1]; step < 48 || step > 52 {
				t.Errorf("%s: interval of %d frames at %d, want 50", name, step, got[i])
			}
		}
		if len(got) < len(truth)-1 {
			t.Errorf("%s: %d beats, want %d", name, len(got), len(truth))
		}
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := hold(ctx, ev, tg, slipped); err == nil {
		t.Error("hold goes on when its context has ended")
	}
}

// Readings of a path may have intervals that the state space has not.
func TestSteadinessOfIntervalsOutsideTheRange(t *testing.T) {
	if got := steadiness(alike(10, 0.5), []int{0, 20, 40, 200, 360}); len(got) != 4 {
		t.Errorf("steadiness = %v, want one of each interval", got)
	}
}
