package board

import (
	"math"
	"math/rand/v2"
	"reflect"
	"slices"
	"testing"
)

// withOnsets returns a board at 24 fps whose panels start, and end, on the
// given frames, with onsets on other frames to snap to.
func withOnsets(starts, onsets []Frame) Board {
	b := atFrames(starts...)
	for _, f := range onsets {
		b.Grid.Onsets = append(b.Grid.Onsets, Onset{Time: b.Rate.Seconds(f), Strength: 1})
	}
	return b
}

// greedy takes the nearest landing start by start, as SnapAll must not.
func greedy(starts, landings []Frame) []Frame {
	out := []Frame{0}
	for _, s := range starts[1:] {
		best := landings[0]
		for _, l := range landings {
			if max(l-s, s-l) < max(best-s, s-best) {
				best = l
			}
		}
		out = append(out, best)
	}
	return out
}

func TestSnapAllWhereGreedyFails(t *testing.T) {
	for name, c := range map[string]struct {
		starts, landings []Frame
		shortest         Frame
		want             []Frame
	}{
		"two starts want one beat":         {[]Frame{0, 11, 13, 60}, []Frame{12, 24, 60}, 1, []Frame{0, 12, 24, 60}},
		"the first of two gives way":       {[]Frame{0, 19, 23, 60}, []Frame{12, 24, 60}, 1, []Frame{0, 12, 24, 60}},
		"a chain is pushed":                {[]Frame{0, 20, 25, 35, 47}, []Frame{24, 36, 48, 60}, 1, []Frame{0, 24, 36, 48, 60}},
		"a chain is pulled forward":        {[]Frame{0, 19, 25, 37, 49}, []Frame{12, 24, 36, 48}, 1, []Frame{0, 12, 24, 36, 48}},
		"the shortest hold skips a beat":   {[]Frame{0, 10, 14, 18, 40}, []Frame{10, 14, 18, 26, 34, 42}, 8, []Frame{0, 10, 18, 26, 42}},
		"nothing so near to the beginning": {[]Frame{0, 3, 30}, []Frame{2, 12, 30}, 6, []Frame{0, 12, 30}},
		"two ends on the last beat":        {[]Frame{0, 47, 49}, []Frame{24, 48}, 1, []Frame{0, 24, 48}},
	} {
		t.Run(name, func(t *testing.T) {
			if g := greedy(c.starts, c.landings); slices.Equal(g, c.want) {
				t.Errorf("greedy finds %v too: the case shows nothing", g)
			}
			wantStarts(t, do(t, withOnsets(c.starts, c.landings), Snap(SnapOptions{To: ToOnset, Shortest: c.shortest})), c.want...)
		})
	}
}

func TestSnapAllOfEqualSumsTakesTheEarlier(t *testing.T) {
	b := withOnsets([]Frame{0, 18, 30, 42}, []Frame{12, 24, 36, 48})
	wantStarts(t, do(t, b, Snap(SnapOptions{To: ToOnset, Shortest: 1})), 0, 12, 24, 36)
}

// bruteForce tries every way to put the starts, the end included, on landings
// in order and at least gap apart, and returns the least sum of moves with, of
// all ways that reach it, the earliest landing of each start.
func bruteForce(starts, landings []Frame, gap Frame) (Frame, []Frame) {
	least, earliest := Frame(math.MaxInt64), []Frame(nil)
	chosen := make([]Frame, len(starts))
	var try func(i, from int, moved Frame)
	try = func(i, from int, moved Frame) {
		if i == len(starts) {
			switch {
			case moved < least:
				least, earliest = moved, slices.Clone(chosen)
			case moved == least:
				for k, f := range chosen {
					earliest[k] = min(earliest[k], f)
				}
			}
			return
		}
		for j := from; j < len(landings); j++ {
			before := Frame(0)
			if i > 0 {
				before = chosen[i-1]
			}
			if landings[j]-before >= gap {
				chosen[i] = landings[j]
				try(i+1, j+1, moved+max(landings[j]-starts[i], starts[i]-landings[j]))
			}
		}
	}
	try(0, 0, 0)
	return least, earliest
}

func TestSnapAllIsLeastByBruteForce(t *testing.T) {
	rnd := rand.New(rand.NewPCG(4, 4))
	ascending := func(n, span int) []Frame {
		picked := rnd.Perm(span)[:n]
		slices.Sort(picked)
		out := make([]Frame, n)
		for i, p := range picked {
			out[i] = Frame(p + 1)
		}
		return out
	}
	solved, impossible := 0, 0
	for range 4000 {
		starts := ascending(1+rnd.IntN(6), 40)
		landings := ascending(1+rnd.IntN(10), 40)
		gap := Frame(1 + rnd.IntN(6))
		b := withOnsets(append([]Frame{0}, starts...), landings)
		least, want := bruteForce(starts, landings, gap)
		if want == nil {
			impossible++
			refused(t, b, Snap(SnapOptions{To: ToOnset, Shortest: gap}), "not fit on the onsets")
			continue
		}
		solved++
		got := do(t, b, Snap(SnapOptions{To: ToOnset, Shortest: gap})).Starts()[1:]
		var moved Frame
		for i := range got {
			moved += max(got[i]-starts[i], starts[i]-got[i])
		}
		if moved != least || !slices.Equal(got, want) {
			t.Fatalf("%v on %v, gap %d: got %v, moved %d; least is %d, earliest %v", starts, landings, gap, got, moved, least, want)
		}
	}
	if solved < 1000 || impossible < 100 {
		t.Errorf("%d cases with and %d without an answer: too few to tell", solved, impossible)
	}
}

func TestSnapTargets(t *testing.T) {
	// 120 BPM: a beat is 12 frames; bars every fourth, frames 0, 48, 96.
	b := do(t, withSong(t, frameRate24, 120, 9), Insert(0, make([]Panel, 3), 1))
	b = do(t, b, SetStart(3, Free(65.0/24)))
	b = do(t, b, SetStart(2, Free(40.0/24)))
	b = do(t, b, SetStart(1, Free(20.0/24)))
	wantStarts(t, b, 0, 20, 40, 65)
	b.Grid.Onsets = []Onset{{Time: 0.9, Strength: 1}, {Time: 1.7, Strength: 1}, {Time: 2.75, Strength: 0.5}}
	for target, want := range map[Target][]Frame{
		ToBeat:    {0, 24, 36, 60},
		ToHalf:    {0, 18, 42, 66},
		ToThird:   {0, 20, 40, 64},
		ToQuarter: {0, 21, 39, 66},
		ToOnset:   {0, 22, 41, 66},
	} {
		out := do(t, b, Snap(SnapOptions{To: target}))
		wantStarts(t, out, want...)
		if got := anchors(out); got != map[bool]string{true: "---", false: "aaa"}[target == ToOnset] {
			t.Errorf("snapped to %ss the starts are %s", target, got)
		}
		again := do(t, out, Snap(SnapOptions{To: target}))
		if !reflect.DeepEqual(again, out) {
			t.Errorf("snapping to %ss a second time changes the board", target)
		}
		undoes(t, b, Snap(SnapOptions{To: target}))
	}
	refused(t, b, Snap(SnapOptions{To: ToBar}), "3 panels do not fit on the bars")
	two := do(t, b, Delete(upTo(1, 2)))
	wantStarts(t, do(t, two, Snap(SnapOptions{To: ToBar})), 0, 48, 96)
	free := do(t, b, SetSong(b.Song, NewGrid(metronome(120, 9, 0), nil)))
	refused(t, free, Snap(SnapOptions{To: ToBar}), "no bars to snap to")
}

func TestSnapKeepsTheShortestHold(t *testing.T) {
	// An eighth of a second, rounded up: 24/8, 23.976/8, 25/8, 8/8, 12/8.
	for name, want := range map[string]Frame{"24": 3, "23.976": 3, "25": 4, "8": 1, "12": 2, "30": 4, "1": 1} {
		r, err := ParseRate(name)
		if err != nil {
			t.Fatal(err)
		}
		if got := r.ShortestHold(); got != want {
			t.Errorf("%s fps: shortest hold %d, want %d", name, got, want)
		}
	}
	b := withOnsets([]Frame{0, 10, 12, 30}, []Frame{10, 12, 14, 30})
	wantStarts(t, do(t, b, Snap(SnapOptions{To: ToOnset})), 0, 10, 14, 30)
	wantStarts(t, do(t, b, Snap(SnapOptions{To: ToOnset, Shortest: 2})), 0, 10, 12, 30)
	refused(t, b, Snap(SnapOptions{To: ToOnset, Shortest: 15}), "do not fit")
	refused(t, b, Snap(SnapOptions{To: ToOnset, Shortest: math.MaxInt64}), "do not fit")
	many := do(t, withSong(t, frameRate24, 60, 4), Insert(0, make([]Panel, 40), 1))
	for i := 1; i < 40; i++ { // squeezed into two seconds
		many.Panels[i].Start = Free(float64(i) / 24)
	}
	many.End = Free(2)
	refused(t, many, Snap(SnapOptions{To: ToBeat}), "40 panels do not fit on the beats")
}

func TestLandings(t *testing.T) {
	frames := func(ls []Landing) []Frame {
		out := []Frame{}
		for _, l := range ls {
			out = append(out, l.Frame)
		}
		return out
	}
	song := withSong(t, frameRate24, 120, 4)                                        // beats on 0 12 24 36
	film := do(t, do(t, song, Insert(0, make([]Panel, 1), 1)), SetHold(one(0), 64)) // beyond them
	for name, c := range map[string]struct {
		board Board
		to    Target
		want  []Frame
	}{
		"all beats of the song":         {song, ToBeat, []Frame{12, 24, 36}},
		"past the last beat":            {film, ToBeat, []Frame{12, 24, 36, 48, 60, 72}},
		"halves":                        {song, ToHalf, []Frame{6, 12, 18, 24, 30, 36, 42}},
		"bars do not go on":             {film, ToBar, []Frame{}},
		"before the first beat":         {do(t, song, SlideSong(1.25)), ToBeat, []Frame{6, 18, 30, 42, 54, 66}},
		"bars of a song that is late":   {do(t, song, SlideSong(1)), ToBar, []Frame{24}},
		"beats cut off the beginning":   {do(t, song, SlideSong(-0.75)), ToBeat, []Frame{6, 18}},
		"no onsets":                     {song, ToOnset, []Frame{}},
		"no song":                       {atFrames(0, 9), ToBeat, []Frame{}},
		"no such target":                {song, "noon", []Frame{}},
		"several parts fall on a frame": {do(t, song, SetRate(FrameRate{2, 1})), ToQuarter, []Frame{1, 2, 3, 4}},
	} {
		ls := c.board.Landings(c.to)
		if got := frames(ls); !slices.Equal(got, c.want) {
			t.Errorf("%s: landings %v, want %v", name, got, c.want)
		}
		for _, l := range ls {
			if got := c.board.Frame(l.Start); got != l.Frame || l.Start.Time != c.board.Seconds(l.Start) {
				t.Errorf("%s: landing %d has a start on frame %d at %g s", name, l.Frame, got, l.Start.Time)
			}
		}
	}
	for _, l := range do(t, song, SetRate(FrameRate{2, 1})).Landings(ToQuarter)[:3] {
		if l.Start.Anchor.Of != 1 {
			t.Errorf("frame %d is part %d/%d of a beat, want the beat itself", l.Frame, l.Start.Anchor.Part, l.Start.Anchor.Of)
		}
	}
}

func TestNearestLanding(t *testing.T) {
	ls := []Landing{{Frame: 10}, {Frame: 20}, {Frame: 40}}
	for _, c := range []struct {
		at, reach, want Frame
	}{
		{10, 0, 10}, {11, 0, -1}, {12, 2, 10}, {8, 2, 10}, {7, 2, -1}, {15, 9, 10}, // halfway: the earlier
		{16, 9, 20}, {31, 99, 40}, {30, 99, 20}, {45, 5, 40}, {46, 5, -1}, {-100, math.MaxInt64, 10}, {10, -1, -1},
	} {
		l, ok := NearestLanding(ls, c.at, c.reach)
		if !ok {
			l.Frame = -1
		}
		if l.Frame != c.want {
			t.Errorf("nearest to %d within %d is %d, want %d", c.at, c.reach, l.Frame, c.want)
		}
	}
	if _, ok := NearestLanding(nil, 0, 9); ok {
		t.Error("there is a landing where there are none")
	}
}

func TestParseTarget(t *testing.T) {
	for _, target := range Targets {
		if got, err := ParseTarget(string(target)); err != nil || got != target {
			t.Errorf("ParseTarget(%q) = %q, %v", target, got, err)
		}
	}
	for _, s := range []string{"", "Beat", "beats", "noon"} {
		if _, err := ParseTarget(s); err == nil {
			t.Errorf("ParseTarget(%q) finds something", s)
		}
	}
}
