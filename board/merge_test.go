package board

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

func TestLocks(t *testing.T) {
	b := withSong(t, frameRate24, 120, 8)
	for _, c := range []struct {
		name  string
		edits []Edit
		want  []Stretch
	}{
		{"one", []Edit{LockBeats(1, 2)}, []Stretch{{1, 2}}},
		{"in order", []Edit{LockBeats(5, 6), LockBeats(1, 2), LockBeats(3, 4)}, []Stretch{{1, 2}, {3, 4}, {5, 6}}},
		{"touching", []Edit{LockBeats(1, 2), LockBeats(2, 3)}, []Stretch{{1, 3}}},
		{"over others", []Edit{LockBeats(1, 2), LockBeats(3, 4), LockBeats(1.5, 3.5)}, []Stretch{{1, 4}}},
		{"within another", []Edit{LockBeats(1, 4), LockBeats(2, 3)}, []Stretch{{1, 4}}},
		{"cut in two", []Edit{LockBeats(1, 4), UnlockBeats(2, 3)}, []Stretch{{1, 2}, {3, 4}}},
		{"cut short", []Edit{LockBeats(1, 4), UnlockBeats(3, 9)}, []Stretch{{1, 3}}},
		{"taken away", []Edit{LockBeats(1, 4), LockBeats(5, 6), UnlockBeats(0, 9)}, nil},
		{"not there", []Edit{UnlockBeats(0, 9)}, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			out := b
			for _, e := range c.edits {
				undoes(t, out, e)
				out = do(t, out, e)
			}
			if !slices.Equal(out.Grid.Locks, c.want) {
				t.Errorf("locked %v, want %v", out.Grid.Locks, c.want)
			}
		})
	}
	for at, want := range map[float64]bool{0.9: false, 1: true, 1.9: true, 2: false, 2.5: false, 3: true, 4: false} {
		if Within([]Stretch{{1, 2}, {3, 4}}, at) != want {
			t.Errorf("Within(%g) is %v", at, !want)
		}
	}
}

func TestMergeGrid(t *testing.T) {
	b := withSong(t, frameRate24, 120, 9) // 0 0.5 ... 4, bars on 0 4 8
	heard := NewGrid(metronome(120, 9, 0.05), []float64{0.55, 2.55})
	heard.Tempo, heard.Confidence, heard.Onsets, heard.Unsure = 121, 0.5, []Onset{{Time: 2}}, []Stretch{{0, 2}, {3, 3.5}}
	for _, c := range []struct {
		name  string
		edits []Edit
		want  []float64
		bars  []int
	}{
		{"nothing set", nil, metronome(120, 9, 0.05), []int{1, 5}},
		{"a beat moved", []Edit{MoveBeat(5, 2.65)}, []float64{0.05, 0.55, 1.05, 1.55, 2.05, 2.65, 3.05, 3.55, 4.05}, []int{1, 5}},
		{"a beat moved far", []Edit{MoveBeat(5, 2.74)}, []float64{0.05, 0.55, 1.05, 1.55, 2.05, 2.74, 3.05, 3.55, 4.05}, []int{1, 5}},
		{"a beat added between", []Edit{AddBeat(2.3)}, []float64{0.05, 0.55, 1.05, 1.55, 2.05, 2.3, 2.55, 3.05, 3.55, 4.05}, []int{1, 6}},
		{"bars counted by hand", []Edit{SetBars(2, 3)}, []float64{0.05, 0.55, 1, 1.55, 2.05, 2.55, 3.05, 3.55, 4.05}, []int{1, 2, 5, 8}},
		{"a lock", []Edit{LockBeats(1, 2.2)}, []float64{0.05, 0.55, 1, 1.5, 2, 2.55, 3.05, 3.55, 4.05}, []int{1, 4, 5}},
		{"a lock around a gap", []Edit{RemoveBeat(3), LockBeats(1, 2.2)}, []float64{0.05, 0.55, 1, 2, 2.55, 3.05, 3.55, 4.05}, []int{1, 3, 4}},
		{"bars by hand go on around a lock", []Edit{SetBars(1, 4), LockBeats(1.9, 3.6), SetBars(1, 3)},
			[]float64{0.05, 0.5, 1.05, 1.55, 2, 2.5, 3, 3.5, 4.05}, []int{1, 4, 7}},
	} {
		t.Run(c.name, func(t *testing.T) {
			set := b
			for _, e := range c.edits {
				set = do(t, set, e)
			}
			out := do(t, set, MergeGrid(heard))
			wantTimes(t, out.Grid, c.want...)
			if got := bars(out.Grid); !slices.Equal(got, c.bars) {
				t.Errorf("bars start on %v, want %v", got, c.bars)
			}
			if g := out.Grid; g.Tempo != 121 || g.Confidence != 0.5 || len(g.Onsets) != 1 || !slices.Equal(g.Locks, set.Grid.Locks) {
				t.Errorf("the grid is %+v", g)
			}
			undoes(t, set, MergeGrid(heard))
			if again := do(t, out, MergeGrid(heard)); !slices.Equal(again.Grid.Beats, out.Grid.Beats) {
				t.Errorf("a second time the beats are %v", again.Grid.Beats)
			}
		})
	}
	locked := do(t, do(t, b, LockBeats(1, 3.2)), MergeGrid(heard))
	if want := []Stretch{{0, 1}, {3.2, 3.5}}; !slices.Equal(locked.Grid.Unsure, want) {
		t.Errorf("unsure over %v, want %v", locked.Grid.Unsure, want)
	}
	typed := do(t, b, SetTempo(90, 0)) // nothing has room: only the onsets are new
	out := do(t, typed, MergeGrid(heard))
	if !slices.Equal(out.Grid.Beats, typed.Grid.Beats) || out.Grid.Tempo != 90 || len(out.Grid.Onsets) != 1 {
		t.Errorf("over a typed tempo the grid is %+v", out.Grid)
	}
	none := do(t, do(t, b, MoveBeat(2, 1.1)), MergeGrid(Grid{}))
	wantTimes(t, none.Grid, 1.1)
	wantTimes(t, do(t, do(t, New(), AddBeat(30)), MergeGrid(heard)).Grid, append(beatTimes(heard), 30)...)
	far := do(t, do(t, New(), AddBeat(-10)), AddBeat(30)) // no beat lasts forty seconds
	wantTimes(t, do(t, far, MergeGrid(heard)).Grid, append(append([]float64{-10}, beatTimes(heard)...), 30)...)
}

func TestPanelsFollowANewAnalysis(t *testing.T) {
	b := onBeats(withSong(t, frameRate24, 120, 9), Anchor{Beat: 2, Of: 1}, Anchor{Beat: 5, Part: 1, Of: 2}, Anchor{Beat: 6, Of: 1})
	b = do(t, b, LockBeats(0.9, 1.1))
	heard := NewGrid(metronome(120, 18, -1+0.125), nil) // three frames late, and begun two beats earlier
	out := do(t, b, MergeGrid(heard))
	wantAnchors(t, out, Anchor{Beat: 4, Of: 1}, Anchor{Beat: 7, Part: 1, Of: 2}, Anchor{Beat: 8, Of: 1})
	wantStarts(t, out, 0, 24, 69, 75)
}

// Whatever was set and heard, what was set is there afterwards and no two
// beats are closer than a quarter of the interval about them. At the edge of a
// lock that ends between beats at most one beat is missed.
func TestSeamsOfAMerge(t *testing.T) {
	rnd := rand.New(rand.NewPCG(7, 1))
	for range 500 {
		steady := 0.3 + 0.5*rnd.Float64()
		played := func() []float64 {
			beats := []float64{rnd.Float64()}
			for range 30 {
				beats = append(beats, beats[len(beats)-1]+steady*(0.95+0.1*rnd.Float64()))
			}
			return beats
		}
		b := do(t, New(), SetSong(&Song{Name: "s", Seconds: 30}, NewGrid(played(), nil)))
		for range rnd.IntN(4) {
			i := 1 + rnd.IntN(29)
			g := b.Grid
			at := g.Beats[i].Time + (rnd.Float64()-0.5)*0.4*steady
			if room, _ := g.BeatRoom(i); at > room.From && at < room.To {
				b = do(t, b, MoveBeat(i, at))
			}
			from := 10 * rnd.Float64()
			b = do(t, b, LockBeats(from, from+5*rnd.Float64()+0.1))
		}
		out := do(t, b, MergeGrid(NewGrid(played(), nil)))
		stays := func(x Beat) bool { return x.Hand || Within(b.Grid.Locks, x.Time) }
		for _, x := range b.Grid.Beats {
			if stays(x) && !slices.ContainsFunc(out.Grid.Beats, func(y Beat) bool { return y.Time == x.Time && y.Hand == x.Hand }) {
				t.Fatalf("the beat at %g is gone", x.Time)
			}
		}
		for i, x := range out.Grid.Beats {
			if i == 0 || stays(x) && stays(out.Grid.Beats[i-1]) {
				continue
			}
			if gap := x.Time - out.Grid.Beats[i-1].Time; gap < steady/4 || gap > 2.2*steady {
				t.Fatalf("beats at %g and %g where a beat lasts %g", out.Grid.Beats[i-1].Time, x.Time, steady)
			}
		}
	}
}

func TestStretchesAreCutAndMoved(t *testing.T) {
	list := []Stretch{{0, 1}, {2, 3}}
	if got := shifted(list, 0.5); !slices.Equal(got, []Stretch{{0.5, 1.5}, {2.5, 3.5}}) {
		t.Errorf("shifted to %v", got)
	}
	for _, cut := range []Stretch{{1, 2}, {-2, -1}, {4, 5}} {
		if got := without(list, cut); !slices.Equal(got, list) {
			t.Errorf("%v without %v is %v", list, cut, got)
		}
	}
	if tidy([]Stretch{{math.Inf(-1), 1}}) || tidy([]Stretch{{0, MaxSeconds + 1}}) || !tidy(nil) {
		t.Error("stretches beyond the film pass, or none do not")
	}
}

// What a hand did to the beats is there after another analysis that hears
// them as before.
func TestANewAnalysisKeepsWhatAHandDid(t *testing.T) {
	b := withSong(t, frameRate24, 120, 16)
	heard := b.Grid
	for _, c := range []struct {
		name string
		edit Edit
	}{
		{"slid", SlideGrid(0.03)},
		{"slid by a quarter of a beat", SlideGrid(-0.125)},
		{"half as many", ScaleTempo(1, 2)},
		{"twice as many", ScaleTempo(2, 1)},
		{"one taken out", RemoveBeat(5)},
		{"a downbeat taken out", RemoveBeat(8)},
		{"the first taken out", RemoveBeat(0)},
		{"the last taken out", RemoveBeat(15)},
		{"one put between", AddBeat(1.25)},
		{"one moved", MoveBeat(3, 1.6)},
	} {
		t.Run(c.name, func(t *testing.T) {
			want := do(t, b, c.edit)
			got := do(t, want, MergeGrid(heard))
			if !slices.Equal(beatTimes(got.Grid), beatTimes(want.Grid)) {
				t.Errorf("beats at %v, want %v", beatTimes(got.Grid), beatTimes(want.Grid))
			}
		})
	}
	gone := b
	for range heard.Beats {
		gone = do(t, gone, RemoveBeat(0))
	}
	if got := do(t, gone, MergeGrid(heard)).Grid.Beats; len(got) > 0 {
		t.Errorf("all beats taken out, a new analysis brings back %v", got)
	}
}
