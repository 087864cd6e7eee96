package board

import (
	"math"
	"math/rand/v2"
	"slices"
	"strings"
	"testing"
)

// A hand taps along to beats: late by a constant, with jitter, leaving some
// out, doubling some and straying now and then.
type hand struct {
	late, jitter, missed, doubled, stray float64
}

func (h hand) taps(rnd *rand.Rand, beats []float64) []float64 {
	var out []float64
	for i, t := range beats {
		if rnd.Float64() < h.missed {
			continue
		}
		at := t + h.late + h.jitter*rnd.NormFloat64()
		out = append(out, at)
		if rnd.Float64() < h.doubled {
			out = append(out, at+0.03+0.04*rnd.Float64())
		}
		if i+1 < len(beats) && rnd.Float64() < h.stray {
			out = append(out, t+(0.4+0.2*rnd.Float64())*(beats[i+1]-t))
		}
	}
	return out
}

// ramp returns n beats whose tempo goes evenly over the beats from one to
// another.
func ramp(from, to float64, n int) []float64 {
	beats := []float64{2}
	for k := 1; k < n; k++ {
		beats = append(beats, beats[k-1]+60/(from+(to-from)*float64(k)/float64(n)))
	}
	return beats
}

// furthest returns the largest and the mean distance of beats from those of
// truth nearest to them.
func furthest(beats, truth []float64) (worst, mean float64) {
	g := NewGrid(truth, nil)
	for _, t := range beats {
		d := math.Abs(truth[nearestBeat(g.Beats, t)] - t)
		worst = max(worst, d)
		mean += d / float64(len(beats))
	}
	return worst, mean
}

func TestFitTapsSteady(t *testing.T) {
	for _, c := range []struct {
		name string
		hand hand
		taps int
	}{
		{"exact", hand{}, 4},
		{"steady hand", hand{jitter: 0.02}, 32},
		{"a few taps", hand{jitter: 0.01}, 6},
		{"missed taps", hand{jitter: 0.02, missed: 0.2}, 40},
		{"double taps", hand{jitter: 0.02, doubled: 0.2}, 40},
		{"stray taps", hand{jitter: 0.02, stray: 0.15}, 40},
		{"all of it", hand{jitter: 0.025, missed: 0.15, doubled: 0.1, stray: 0.1}, 60},
	} {
		t.Run(c.name, func(t *testing.T) {
			for seed := range uint64(40) {
				rnd := rand.New(rand.NewPCG(seed, 1))
				bpm := 60 + 110*rnd.Float64()
				truth := metronome(bpm, c.taps, 3)
				fit, err := FitTaps(c.hand.taps(rnd, truth), TapOptions{})
				if err != nil {
					t.Fatalf("seed %d, %.1f BPM: %v", seed, bpm, err)
				}
				worst, _ := furthest(fit.Beats, truth)
				// The end of a line through n taps has a deviation of twice
				// theirs by the square root of n.
				limit := 4*2*c.hand.jitter/math.Sqrt(float64(fit.Used)) + 1e-9
				if worst > limit {
					t.Errorf("seed %d, %.1f BPM: a beat is %.1f ms off, tempo %.2f", seed, bpm, 1000*worst, fit.Tempo)
				}
				if n := len(fit.Beats); n < c.taps*3/4 || n > c.taps || fit.Late != 0 || fit.Matched != 0 {
					t.Errorf("seed %d: %d beats for %d taps, late %g", seed, n, c.taps, fit.Late)
				}
				if gap := fit.Beats[1] - fit.Beats[0]; math.Abs(fit.Tempo*gap-60) > 1e-6 {
					t.Errorf("seed %d: tempo %.3f with beats %.4f s apart", seed, fit.Tempo, gap)
				}
			}
		})
	}
}

func TestFitTapsCountsTheMissedBeat(t *testing.T) {
	fit, err := FitTaps([]float64{3, 1, 1.5, 2, 3.5, 4, 2.04}, TapOptions{}) // none at 2.5, two at 2
	if err != nil {
		t.Fatal(err)
	}
	wantTimes(t, NewGrid(fit.Beats, nil), 1, 1.5, 2, 2.5, 3, 3.5, 4)
	if fit.Used != 6 || math.Abs(fit.Tempo-120) > 1e-9 || fit.Spread > 1e-9 {
		t.Errorf("%d taps used, tempo %g, spread %g", fit.Used, fit.Tempo, fit.Spread)
	}
}

func TestFitTapsFollowsARamp(t *testing.T) {
	for seed := range uint64(30) {
		rnd := rand.New(rand.NewPCG(seed, 2))
		truth := ramp(90, 150, 64)
		taps := hand{jitter: 0.015, missed: 0.1, doubled: 0.05, stray: 0.05}.taps(rnd, truth)
		fit, err := FitTaps(taps, TapOptions{Follow: true})
		if err != nil {
			t.Fatalf("seed %d: %v", seed, err)
		}
		if worst, mean := furthest(fit.Beats, truth); worst > 0.04 || mean > 0.01 || !fit.Follow {
			t.Errorf("seed %d: beats are %.1f ms off on average, %.1f at most", seed, 1000*mean, 1000*worst)
		}
		if n := len(fit.Beats); n < 60 || n > 64 {
			t.Errorf("seed %d: %d beats of 64", seed, n)
		}
		if steady, err := FitTaps(taps, TapOptions{}); err == nil {
			if worst, _ := furthest(steady.Beats, truth); worst < 0.1 {
				t.Errorf("seed %d: a steady tempo fits the ramp to %.1f ms: the case shows nothing", seed, 1000*worst)
			}
		}
	}
	exact, err := FitTaps(metronome(100, 20, 1), TapOptions{Follow: true})
	if err != nil {
		t.Fatal(err)
	}
	wantTimes(t, NewGrid(exact.Beats, nil), metronome(100, 20, 1)...)
}

func TestLatenessIsTakenOff(t *testing.T) {
	truth := metronome(112, 48, 3)
	var onsets, sparse []float64 // eighths; and four in seven of them, with some between
	rnd := rand.New(rand.NewPCG(5, 5))
	for i, at := range truth {
		onsets = append(onsets, at, at+30/112.0)
		if i%7 < 4 {
			sparse = append(sparse, at)
		}
		sparse = append(sparse, at+0.1+0.3*rnd.Float64())
	}
	slices.Sort(sparse)
	for name, reference := range map[string][]float64{"beats": truth, "onsets on the eighths": onsets, "onsets here and there": sparse} {
		for _, late := range []float64{-0.05, 0, 0.08, 0.13} {
			for _, follow := range []bool{false, true} {
				taps := hand{late: late, jitter: 0.015, missed: 0.1}.taps(rand.New(rand.NewPCG(8, 8)), truth)
				fit, err := FitTaps(taps, TapOptions{Reference: reference, Follow: follow})
				if err != nil {
					t.Fatal(err)
				}
				if math.Abs(fit.Late-late) > 0.008 || fit.Matched < 24 {
					t.Errorf("%s, late by %g, following %v: measured %.4f on %d beats", name, late, follow, fit.Late, fit.Matched)
				}
				if worst, _ := furthest(fit.Beats, truth); worst > 0.03 {
					t.Errorf("%s, late by %g, following %v: a beat is %.1f ms off", name, late, follow, 1000*worst)
				}
			}
		}
	}
	fit, err := FitTaps(truth, TapOptions{Reference: []float64{1, 2, 3}})
	if err != nil || fit.Late != 0 || fit.Matched != 0 {
		t.Errorf("against three onsets the taps are late by %g on %d beats, %v", fit.Late, fit.Matched, err)
	}
}

func TestFitTapsRefuses(t *testing.T) {
	for name, c := range map[string]struct {
		taps []float64
		want string
	}{
		"none":           {nil, "0 taps are too few"},
		"three":          {[]float64{1, 2, 3}, "3 taps are too few"},
		"three, doubled": {[]float64{1, 1.05, 2, 2.03, 3, 3.01}, "3 taps are too few"},
		"not a number":   {[]float64{1, 2, math.NaN(), 4}, "outside the film"},
		"outside":        {[]float64{1, 2, 3, 1e6}, "outside the film"},
		"too many":       {make([]float64, MaxTaps+1), "20001 taps"},
		"no count":       {[]float64{0, 0.1, 0.31, 1.7, 1.93, 4.4, 4.52, 8.1, 8.65, 15}, "no steady count"},
	} {
		for _, follow := range []bool{false, true} {
			before := slices.Clone(c.taps)
			_, err := FitTaps(c.taps, TapOptions{Follow: follow})
			if err == nil || !strings.Contains(err.Error(), c.want) {
				t.Errorf("%s: error %v, want one that says %q", name, err, c.want)
			}
			if !slices.EqualFunc(before, c.taps, func(a, b float64) bool { return a == b || a != a && b != b }) {
				t.Errorf("%s: the caller's taps were changed", name)
			}
		}
	}
}

func TestLayTaps(t *testing.T) {
	b := onBeats(withSong(t, frameRate24, 120, 32), Anchor{Beat: 4, Of: 1}, Anchor{Beat: 12, Of: 1}, Anchor{Beat: 28, Of: 1}) // 2 6 14
	fit, err := FitTaps(metronome(125, 9, 2.05), TapOptions{})
	if err != nil {
		t.Fatal(err)
	}
	steady := do(t, b, LayTaps(fit))
	if g := steady.Grid; math.Abs(g.Tempo-125) > 1e-6 || g.Beats[0].Time > 0.48 || g.Beats[len(g.Beats)-1].Time < 16 {
		t.Errorf("tapped steadily the grid has tempo %g, from %g", g.Tempo, g.Beats[0].Time)
	}
	undoes(t, b, LayTaps(fit))

	fit, err = FitTaps([]float64{4.05, 4.6, 5.2, 5.85, 6.55, 7.3}, TapOptions{Follow: true})
	if err != nil {
		t.Fatal(err)
	}
	b = do(t, do(t, b, SetBars(8, 3)), LockBeats(3, 5))
	b.Grid.Unsure = []Stretch{{1, 7}}
	out := do(t, b, LayTaps(fit))
	undoes(t, b, LayTaps(fit))
	var hands []float64
	for i, beat := range out.Grid.Beats {
		if i > 0 && beat.Time-out.Grid.Beats[i-1].Time < 0.2 {
			t.Errorf("beats at %g and %g", out.Grid.Beats[i-1].Time, beat.Time)
		}
		if beat.Hand {
			hands = append(hands, beat.Time)
		}
	}
	if !slices.Equal(hands, fit.Beats) {
		t.Errorf("set by hand %v, want those tapped %v", hands, fit.Beats)
	}
	if beats := out.Grid.Beats; beats[7].Time != 3.5 || beats[8].Time != fit.Beats[0] || beats[8].Metre != 3 || !beats[11].Bar || beats[14].Time != 8 {
		t.Errorf("around the taps the beats are %+v", beats[6:16])
	}
	if !slices.Equal(out.Grid.Locks, b.Grid.Locks) || len(out.Grid.Unsure) != 1 || out.Grid.Unsure[0].To != fit.Beats[0] {
		t.Errorf("locked %v, unsure %v", out.Grid.Locks, out.Grid.Unsure)
	}
	if a := out.Panels[1].Start.Anchor; a != (Anchor{Beat: 4, Of: 1}) {
		t.Errorf("before the taps the panel on beat 4 is at %+v", a)
	}
}

func FuzzFitTaps(f *testing.F) {
	f.Add(uint64(1), 8, 0.5, false)
	f.Add(uint64(2), 40, 0.02, true)
	f.Fuzz(func(t *testing.T, seed uint64, n int, spread float64, follow bool) {
		if n < 0 || n > 300 || !finite(spread, 100) {
			return
		}
		rnd := rand.New(rand.NewPCG(seed, 0))
		taps := make([]float64, n)
		for i := range taps {
			taps[i] = spread * (float64(rnd.IntN(2*n)) + rnd.NormFloat64()/8)
		}
		fit, err := FitTaps(taps, TapOptions{Follow: follow, Reference: []float64{0, spread, 9}})
		if err != nil {
			return
		}
		if fit.Used < MinTaps || fit.Used > n || !finite(fit.Tempo, 60/MinBeat) || fit.Tempo <= 0 || !finite(fit.Spread, MaxSeconds) {
			t.Fatalf("the fit is %d taps, tempo %g, spread %g", fit.Used, fit.Tempo, fit.Spread)
		}
		for i := 1; i < len(fit.Beats); i++ {
			if !(fit.Beats[i]-fit.Beats[i-1] >= MinBeat) {
				t.Fatalf("beats at %g and %g", fit.Beats[i-1], fit.Beats[i])
			}
		}
	})
}
