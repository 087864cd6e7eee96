package board

import (
	"math"
	"slices"
	"testing"
)

func TestSetTempoFillsTheSong(t *testing.T) {
	b := do(t, New(), SetSong(&Song{Name: "s", Seconds: 10.3}, NewGrid([]float64{0.1, 0.7}, nil)))
	b.Grid.Onsets, b.Grid.Metre, b.Grid.Unsure = []Onset{{Time: 1}}, 3, []Stretch{{0, 1}}
	out := do(t, b, SetTempo(120, 3.2))
	g := out.Grid
	if g.Tempo != 120 || g.Confidence != 1 || len(g.Onsets) != 1 || g.Unsure != nil {
		t.Errorf("the grid is %+v", g)
	}
	var want []float64
	for k := -6; k <= 14; k++ { // 0.2, 0.7 ... 10.2
		want = append(want, 3.2+0.5*float64(k))
	}
	wantTimes(t, g, want...)
	if got := bars(g); !slices.Equal(got, []int{0, 3, 6, 9, 12, 15, 18}) {
		t.Errorf("bars start on %v: the beat named, 6, is to start one of three", got)
	}
	if slices.ContainsFunc(g.Beats, func(b Beat) bool { return !b.Hand }) {
		t.Error("a typed beat does not count as set by hand")
	}
	undoes(t, b, SetTempo(120, 3.2))

	short := do(t, New(), SetSong(&Song{Name: "s", Seconds: 0.5}, Grid{}))
	wantTimes(t, do(t, short, SetTempo(10, 0)).Grid, 0, 6)
	wantTimes(t, do(t, short, SetTempo(10, 20)).Grid, 2, 8)
	wantTimes(t, do(t, short, SetTempo(600, -0.05)).Grid, 0.05, 0.15, 0.25, 0.35, 0.45)
}

func TestPanelsFollowATypedTempo(t *testing.T) {
	song := withSong(t, frameRate24, 120, 40)
	b := onBeats(song, Anchor{Beat: 4, Of: 1}, Anchor{Beat: 5, Part: 1, Of: 2}, Anchor{Beat: 8, Of: 1, Offset: -2})
	for name, c := range map[string]struct {
		bpm, at float64
		want    []Anchor
	}{
		"a little faster":        {124, 0, []Anchor{{Beat: 4, Of: 1}, {Beat: 5, Part: 1, Of: 2}, {Beat: 8, Of: 1, Offset: -2}}},
		"the beat named is 4":    {120, 2.1, []Anchor{{Beat: 8 - 4, Of: 1}, {Beat: 5, Part: 1, Of: 2}, {Beat: 8, Of: 1, Offset: -2}}},
		"twice as fast":          {240, 0, []Anchor{{Beat: 8, Of: 1}, {Beat: 11, Of: 1}, {Beat: 16, Of: 1, Offset: -2}}},
		"half as fast from two":  {60, 1, []Anchor{{Beat: 2, Of: 1}, {Beat: 2, Part: 3, Of: 4}, {Beat: 4, Of: 1, Offset: -2}}},
		"three for two":          {180, 0, []Anchor{{Beat: 6, Of: 1}, {Beat: 8, Part: 1, Of: 4}, {Beat: 12, Of: 1, Offset: -2}}},
		"two for three":          {80, 0, []Anchor{{Beat: 2, Part: 2, Of: 3}, {Beat: 3, Part: 2, Of: 3}, {Beat: 5, Part: 1, Of: 3, Offset: -2}}},
		"otherwise: by the time": {50, 0, []Anchor{{Beat: 2, Of: 1}, {Beat: 2, Part: 1, Of: 2}, {Beat: 3, Of: 1, Offset: -2}}},
	} {
		t.Run(name, func(t *testing.T) {
			wantAnchors(t, do(t, b, SetTempo(c.bpm, c.at)), c.want...)
			undoes(t, b, SetTempo(c.bpm, c.at))
		})
	}
}

// Beats at 0 0.5 1 1.5 2 3 4 5 6: the tempo halves on the way.
var slowing = []float64{0, 0.5, 1, 1.5, 2, 3, 4, 5, 6}

func TestScaleTempoKeepsChangesOfTempo(t *testing.T) {
	for _, c := range []struct {
		name     string
		num, den int
		downs    []float64
		want     []float64
		bars     []int
	}{
		{"twice", 2, 1, []float64{0, 2, 6}, []float64{0, 0.25, 0.5, 0.75, 1, 1.25, 1.5, 1.75, 2, 2.5, 3, 3.5, 4, 4.5, 5, 5.5, 6}, []int{0, 4, 8, 12, 16}},
		{"half", 1, 2, []float64{0, 2, 6}, []float64{0, 1, 2, 4, 6}, []int{0, 4}},
		{"half, after an upbeat", 1, 2, []float64{0.5, 3}, []float64{0.5, 1.5, 3, 5}, []int{0}},
		{"half, bars of two", 1, 2, []float64{0, 1, 2, 4, 6}, []float64{0, 1, 2, 4, 6}, []int{0, 2, 4}},
		{"half, no bars", 1, 2, nil, []float64{0, 1, 2, 4, 6}, nil},
		{"three for two", 3, 2, []float64{0, 2, 6}, []float64{0, 1. / 3, 2. / 3, 1, 4. / 3, 5. / 3, 2, 2 + 2./3, 3 + 1./3, 4, 4 + 2./3, 5 + 1./3, 6}, []int{0, 4, 8, 12}},
		{"three for two, after an upbeat", 3, 2, []float64{0.5}, []float64{0.5 / 3, 0.5, 0.5 + 1./3, 0.5 + 2./3, 1.5, 1.5 + 1./3, 2 + 1./3, 3, 3 + 2./3, 4 + 1./3, 5, 5 + 2./3}, []int{1}},
		{"two for three", 2, 3, []float64{0, 1.5, 4}, []float64{0, 0.75, 1.5, 2.5, 4, 5.5}, []int{0, 3}},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := do(t, New(), SetSong(&Song{Name: "s", Seconds: 7}, NewGrid(slowing, c.downs)))
			b.Grid.Tempo = 90
			out := do(t, b, ScaleTempo(c.num, c.den))
			wantTimes(t, out.Grid, c.want...)
			if got := bars(out.Grid); !slices.Equal(got, c.bars) {
				t.Errorf("bars start on %v, want %v", got, c.bars)
			}
			if want := 90 * float64(c.num) / float64(c.den); out.Grid.Tempo != want {
				t.Errorf("the tempo is %g, want %g", out.Grid.Tempo, want)
			}
			undoes(t, b, ScaleTempo(c.num, c.den))
		})
	}
}

func TestScaleTempoTakesPanelsAlong(t *testing.T) {
	b := do(t, New(), SetSong(&Song{Name: "s", Seconds: 7}, NewGrid(slowing, []float64{0})))
	b = onBeats(b, Anchor{Beat: 2, Of: 1}, Anchor{Beat: 3, Of: 1, Offset: -1}, Anchor{Beat: 5, Part: 1, Of: 3}, Anchor{Beat: 9, Of: 1})
	for _, c := range []struct {
		num, den int
		want     []Anchor
	}{
		{2, 1, []Anchor{{Beat: 4, Of: 1}, {Beat: 6, Of: 1, Offset: -1}, {Beat: 10, Part: 2, Of: 3}, {Beat: 18, Of: 1}}},
		{1, 2, []Anchor{{Beat: 1, Of: 1}, {Beat: 1, Part: 1, Of: 2, Offset: -1}, {Beat: 2, Part: 2, Of: 3}, {Beat: 4, Part: 1, Of: 2}}},
		{3, 2, []Anchor{{Beat: 3, Of: 1}, {Beat: 4, Part: 1, Of: 2, Offset: -1}, {Beat: 8, Of: 1}, {Beat: 13, Part: 1, Of: 2}}},
		{2, 3, []Anchor{{Beat: 1, Part: 1, Of: 3}, {Beat: 2, Of: 1, Offset: -1}, {Beat: 3, Part: 5, Of: 9}, {Beat: 6, Of: 1}}},
	} {
		out := do(t, b, ScaleTempo(c.num, c.den))
		wantAnchors(t, out, c.want...)
		if c.num > c.den && !slices.Equal(out.Starts()[:4], b.Starts()[:4]) {
			t.Errorf("times %d/%d the starts went from %v to %v", c.num, c.den, b.Starts(), out.Starts())
		}
	}
	back := do(t, do(t, b, ScaleTempo(2, 1)), ScaleTempo(1, 2))
	if !slices.Equal(beatTimes(back.Grid), beatTimes(b.Grid)) || !slices.Equal(bars(back.Grid), bars(b.Grid)) || !slices.Equal(back.Starts(), b.Starts()) {
		t.Errorf("twice and half gives beats %v and starts %v", back.Grid.Beats, back.Starts())
	}
	// 1/96 of a beat is no part: the panel keeps its frame and becomes free.
	fine := onBeats(b, Anchor{Beat: 2, Part: 1, Of: 48}, Anchor{Beat: 4, Of: 1})
	free := do(t, fine, ScaleTempo(1, 2))
	wantAnchors(t, free, Anchor{}, Anchor{Beat: 2, Of: 1})
	wantStarts(t, free, fine.Starts()...)
	refused(t, do(t, New(), SetSong(&Song{}, NewGrid([]float64{0, 0.5}, nil))), ScaleTempo(1, 2), "too few")
	refused(t, do(t, New(), SetSong(&Song{}, NewGrid([]float64{0, 0.03}, nil))), ScaleTempo(2, 1), "apart")
}

func TestScaleTempoKeepsTheBarsAHandSet(t *testing.T) {
	b := do(t, withSong(t, frameRate24, 120, 24), SetBars(8, 3))
	b = do(t, b, MoveBeat(3, 1.55))
	twice := do(t, b, ScaleTempo(2, 1))
	if got := bars(twice.Grid); twice.Grid.Beats[16].Metre != 3 || !slices.Equal(got[:7], []int{0, 4, 8, 12, 16, 19, 22}) {
		t.Errorf("bars start on %v, beat 16 is %+v", got, twice.Grid.Beats[16])
	}
	half := do(t, do(t, b, SetBars(13, 2)), ScaleTempo(1, 2)) // beat 13 falls between: the bars count from 7
	if got := bars(half.Grid); !slices.Equal(got, []int{0, 4, 7, 9, 11}) || half.Grid.Beats[7].Metre != 2 {
		t.Errorf("bars start on %v", got)
	}
}

func TestASingleBarIsCountedByTheMetre(t *testing.T) {
	g := NewGrid(metronome(120, 13, 0), []float64{1})
	g.Metre = 3
	b := do(t, New(), SetSong(&Song{Name: "s", Seconds: 9}, g))
	if got := bars(do(t, b, ScaleTempo(2, 1)).Grid); !slices.Equal(got, []int{4, 7, 10, 13, 16, 19, 22}) {
		t.Errorf("bars start on %v", got)
	}
}

func TestMedianTempo(t *testing.T) {
	if got := NewGrid([]float64{0, 0.5, 1, 3, 3.5}, nil).tempo(); math.Abs(got-120) > 1e-9 {
		t.Errorf("the tempo is %g, want 120", got)
	}
}
