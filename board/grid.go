package board

import (
	"errors"
	"fmt"
	"math"
	"sort"
)

// Beat is one beat of the music.
type Beat struct {
	Time  float64 `json:"time"`            // seconds from the start of the song; of the film if it has none
	Bar   bool    `json:"bar,omitempty"`   // it starts a bar
	Hand  bool    `json:"hand,omitempty"`  // set by a person: a new analysis leaves it alone
	Metre int     `json:"metre,omitempty"` // beats per bar from here to the next beat that says so, as set by a person; 0: it does not
}

// Onset is a moment at which a sound begins.
type Onset struct {
	Time     float64 `json:"time"`     // seconds from the start of the song
	Strength float64 `json:"strength"` // 0..1
}

// Grid holds the beats and onsets of the song, both ascending, in seconds of
// the song. In a film without a song the beats are a click in seconds of the
// film. Grids are never changed in place: boards share them.
type Grid struct {
	Tempo      float64 `json:"tempo,omitempty"`      // beats per minute, 0 if unknown
	Confidence float64 `json:"confidence,omitempty"` // 0..1
	Metre      int     `json:"metre,omitempty"`      // beats per bar, 0 if unknown
	Beats      []Beat  `json:"beats,omitempty"`
	Onsets     []Onset `json:"onsets,omitempty"`

	Unsure []Stretch `json:"unsure,omitempty"` // where the beat is unsure
	Locks  []Stretch `json:"locks,omitempty"`  // where a new analysis leaves the beats alone
}

// NewGrid makes a grid of beats in seconds, ascending; downbeats are those
// that start bars and are matched to the nearest beat within 1 ms.
func NewGrid(beats, downbeats []float64) Grid {
	g := Grid{Beats: make([]Beat, len(beats))}
	d := 0
	for i, t := range beats {
		for d < len(downbeats) && downbeats[d] < t-0.001 {
			d++
		}
		g.Beats[i] = Beat{Time: t, Bar: d < len(downbeats) && downbeats[d] <= t+0.001}
	}
	return g
}

// Empty reports whether there are too few beats to lay anything on.
func (g Grid) Empty() bool { return len(g.Beats) < 2 }

// Time returns the song time of part part of of equal parts after beat
// beat: Time(3, 1, 2) is halfway from beat 3 to beat 4. Before the first and
// after the last beat the grid goes on at its first and last interval. It
// panics on an empty grid.
func (g Grid) Time(beat, part, of int) float64 {
	n := len(g.Beats)
	at := func(i int) float64 {
		switch {
		case i < 0:
			return g.Beats[0].Time + float64(i)*(g.Beats[1].Time-g.Beats[0].Time)
		case i >= n:
			return g.Beats[n-1].Time + float64(i-n+1)*(g.Beats[n-1].Time-g.Beats[n-2].Time)
		}
		return g.Beats[i].Time
	}
	t := at(beat)
	if part == 0 {
		return t
	}
	return t + (at(beat+1)-t)*float64(part)/float64(of)
}

// Near returns the anchor without offset whose time is closest to t seconds
// of song, with each beat cut into of parts. It panics on an empty grid.
func (g Grid) Near(t float64, of int) Anchor {
	b := g.before(t)
	best, dist := Anchor{}, math.Inf(1)
	for beat := b - 1; beat <= b+1; beat++ {
		for part := range of {
			if d := math.Abs(g.Time(beat, part, of) - t); d < dist {
				best, dist = reduced(beat, part, of), d
			}
		}
	}
	return best
}

// before returns the index of the last beat at or before t, counting on
// past both ends of the grid.
func (g Grid) before(t float64) int {
	n := len(g.Beats)
	if first := g.Beats[0].Time; t < first {
		return int(math.Floor((t - first) / (g.Beats[1].Time - first)))
	}
	if last := g.Beats[n-1].Time; t >= last {
		return n - 1 + int((t-last)/(last-g.Beats[n-2].Time))
	}
	return sort.Search(n, func(i int) bool { return g.Beats[i].Time > t }) - 1
}

// reduced returns the anchor in its simplest form: 2/4 becomes 1/2, 0/4 0/1.
func reduced(beat, part, of int) Anchor {
	a, b := of, part
	for b != 0 {
		a, b = b, a%b
	}
	return Anchor{Beat: beat, Part: part / a, Of: of / a}
}

// MinBeat is the least distance between two beats in seconds. It is far
// below any music and bounds how many beats the grid has past its ends.
const MinBeat = 0.02

// MaxBeats is the most beats a grid holds.
const MaxBeats = 500000

// check returns an error unless all figures are finite, beats and onsets
// ascend, and beats keep their distance.
func (g Grid) check() error {
	if !finite(g.Tempo, math.MaxFloat64) || !finite(g.Confidence, math.MaxFloat64) {
		return errors.New("the tempo is not a number")
	}
	if len(g.Beats) > MaxBeats {
		return fmt.Errorf("%d beats: a film has at most %d", len(g.Beats), MaxBeats)
	}
	last := math.Inf(-1)
	for i, b := range g.Beats {
		if b.Metre != 0 && !barLength(b.Metre) {
			return fmt.Errorf("bars of %d beats from beat %d on: a bar has %d to %d", b.Metre, i+1, MinBar, MaxBar)
		}
		if !finite(b.Time, MaxSeconds) || b.Time <= last {
			return errors.New("the beats are not in ascending order")
		}
		if b.Time-last < MinBeat {
			return fmt.Errorf("the beats at %.3f and %.3f seconds are less than %g seconds apart", last, b.Time, MinBeat)
		}
		last = b.Time
	}
	last = math.Inf(-1)
	for _, o := range g.Onsets {
		if !finite(o.Time, MaxSeconds) || o.Time < last || !finite(o.Strength, math.MaxFloat64) {
			return errors.New("the onsets are not in ascending order")
		}
		last = o.Time
	}
	if !tidy(g.Unsure) || !tidy(g.Locks) {
		return errors.New("the unsure or the locked stretches of the beats are not in order")
	}
	return nil
}
