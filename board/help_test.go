package board

import (
	"flag"
	"math"
	"reflect"
	"slices"
	"strings"
	"testing"
)

var update = flag.Bool("update", false, "rewrite golden files")

// frameRate24 is the rate most cases are written in.
var frameRate24 = FrameRate{24, 1}

// metronome returns n beats at a steady tempo, the first at second at.
func metronome(bpm float64, n int, at float64) []float64 {
	beats := make([]float64, n)
	for k := range beats {
		beats[k] = at + float64(k)*60/bpm
	}
	return beats
}

// withSong returns an empty board at rate r with a song of n steady beats
// from its first instant on, every fourth starting a bar.
func withSong(t testing.TB, r FrameRate, bpm float64, n int) Board {
	t.Helper()
	beats := metronome(bpm, n, 0)
	var bars []float64
	for k := 0; k < n; k += 4 {
		bars = append(bars, beats[k])
	}
	b := do(t, New(), SetRate(r))
	return do(t, b, SetSong(&Song{Name: "tune.wav", Media: "a1", Seconds: beats[n-1] + 1}, NewGrid(beats, bars)))
}

// atFrames returns a board at 24 fps with free panels that start at the given
// frames; the last is the end of the film.
func atFrames(starts ...Frame) Board {
	b := New()
	for i, f := range starts {
		s := Free(b.Rate.Seconds(f))
		if i == len(starts)-1 {
			b.End = s
			break
		}
		b.Panels = append(b.Panels, Panel{ID: b.NextID, Start: s})
		b.NextID++
	}
	return b
}

// do applies an edit that must succeed, leave its input alone and keep the
// rules of the model.
func do(t testing.TB, b Board, e Edit) Board {
	t.Helper()
	before := deepCopy(b)
	out, err := e.Apply(b)
	if err != nil {
		t.Fatalf("%s: %v", e.Name, err)
	}
	if !reflect.DeepEqual(b, before) {
		t.Fatalf("%s changed the board it was given", e.Name)
	}
	keepsRules(t, e.Name, out)
	return out
}

// refused applies an edit that must fail with a message holding want, and
// change nothing.
func refused(t testing.TB, b Board, e Edit, want string) {
	t.Helper()
	before := deepCopy(b)
	out, err := e.Apply(b)
	if err == nil || !strings.Contains(err.Error(), want) {
		t.Errorf("%s: error %v, want one that says %q", e.Name, err, want)
	}
	if !reflect.DeepEqual(b, before) {
		t.Errorf("%s failed but changed the board it was given", e.Name)
	}
	if !reflect.DeepEqual(out, before) {
		t.Errorf("%s failed but returned another board", e.Name)
	}
}

// keepsRules fails unless the board passes Check, its panels tile the film
// from frame 0 and their ids are all different.
func keepsRules(t testing.TB, what string, b Board) {
	t.Helper()
	if err := b.Check(); err != nil {
		t.Fatalf("%s: %v", what, err)
	}
	starts := b.Starts()
	if len(starts) != len(b.Panels)+1 || starts[0] != 0 {
		t.Fatalf("%s: %d panels have the starts %v", what, len(b.Panels), starts)
	}
	ids := map[PanelID]bool{}
	for i, p := range b.Panels {
		if starts[i+1] <= starts[i] {
			t.Fatalf("%s: panel %d holds from %d to %d", what, i+1, starts[i], starts[i+1])
		}
		if ids[p.ID] || p.ID >= b.NextID {
			t.Fatalf("%s: id %d of panel %d is used twice or not yet given out", what, p.ID, i+1)
		}
		ids[p.ID] = true
	}
}

// deepCopy returns a board that shares no memory with b.
func deepCopy(b Board) Board {
	b.Panels = slices.Clone(b.Panels)
	for i := range b.Panels {
		if n := b.Panels[i].FrameNotes; n != nil {
			copied := slices.Clone(*n)
			b.Panels[i].FrameNotes = &copied
		}
		if d := b.Panels[i].Drawn; d != nil {
			copied := *d
			copied.Lettering = slices.Clone(d.Lettering)
			b.Panels[i].Drawn = &copied
		}
	}
	if p := b.Plan; p != nil {
		copied := *p
		copied.Log = slices.Clone(p.Log)
		b.Plan = &copied
	}
	b.Markers = slices.Clone(b.Markers)
	b.Remarks = slices.Clone(b.Remarks)
	b.Moves = slices.Clone(b.Moves)
	for i, m := range b.Moves {
		b.Moves[i].Keys, b.Moves[i].Hits = slices.Clone(m.Keys), slices.Clone(m.Hits)
	}
	b.Dismissed = slices.Clone(b.Dismissed)
	b.Grid.Beats = slices.Clone(b.Grid.Beats)
	b.Grid.Onsets = slices.Clone(b.Grid.Onsets)
	b.Grid.Unsure = slices.Clone(b.Grid.Unsure)
	b.Grid.Locks = slices.Clone(b.Grid.Locks)
	if b.Song != nil {
		s := *b.Song
		b.Song = &s
	}
	return b
}

// wantStarts fails unless the board's starts, the end included, are as given.
func wantStarts(t testing.TB, b Board, want ...Frame) {
	t.Helper()
	if got := b.Starts(); !slices.Equal(got, want) {
		t.Errorf("starts %v, want %v", got, want)
	}
}

// anchors returns which starts after the first, the end included, follow the
// music: "a" anchored, "-" free.
func anchors(b Board) string {
	var out strings.Builder
	for i := 1; i <= len(b.Panels); i++ {
		s := b.End
		if i < len(b.Panels) {
			s = b.Panels[i].Start
		}
		if s.Anchored() {
			out.WriteByte('a')
		} else {
			out.WriteByte('-')
		}
	}
	return out.String()
}

// beatTimes returns the seconds of a grid's beats.
func beatTimes(g Grid) []float64 {
	out := make([]float64, len(g.Beats))
	for i, b := range g.Beats {
		out[i] = b.Time
	}
	return out
}

// bars returns the indexes of the beats that start bars.
func bars(g Grid) []int {
	var out []int
	for i, b := range g.Beats {
		if b.Bar {
			out = append(out, i)
		}
	}
	return out
}

// wantTimes fails unless the beats are at the given seconds.
func wantTimes(t testing.TB, g Grid, want ...float64) {
	t.Helper()
	got := beatTimes(g)
	if !slices.EqualFunc(got, want, func(a, b float64) bool { return math.Abs(a-b) < 1e-9 }) {
		t.Errorf("beats at %v, want %v", got, want)
	}
}

// onBeats returns the board with free panels taken away and one panel for each
// anchor, in order of time, the last anchor being the end.
func onBeats(b Board, at ...Anchor) Board {
	b.Panels = []Panel{{ID: 1}}
	b.NextID = 2
	for i, a := range at {
		s := Start{Anchor: a}
		s.Time = b.Seconds(s)
		if i == len(at)-1 {
			b.End = s
			break
		}
		b.Panels = append(b.Panels, Panel{ID: b.NextID, Start: s})
		b.NextID++
	}
	return b
}

// wantAnchors fails unless the starts after the first, the end included, are
// anchored like this; a zero anchor stands for a free start.
func wantAnchors(t testing.TB, b Board, want ...Anchor) {
	t.Helper()
	var got []Anchor
	for i := 1; i <= len(b.Panels); i++ {
		got = append(got, b.startOf(i).Anchor)
	}
	if !slices.Equal(got, want) {
		t.Errorf("anchors %v, want %v", got, want)
	}
}

// one chooses panel i.
func one(i int) []int { return []int{i} }

// upTo chooses panels i to j-1.
func upTo(i, j int) []int {
	var out []int
	for ; i < j; i++ {
		out = append(out, i)
	}
	return out
}

// moveTo moves panel i to where panel to is.
func moveTo(i, to int) Edit {
	if to > i {
		to++
	}
	return Move(one(i), to)
}

// setWords writes on panel i.
func setWords(i int, w Words) Edit {
	return Write(one(i), "words", func(old *Words) { *old = w })
}
