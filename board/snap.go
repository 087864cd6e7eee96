package board

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"sort"
)

// Target is what starts are snapped to.
type Target string

// Targets of snapping. Half, Third and Quarter divide each beat.
const (
	ToBeat    Target = "beat"
	ToBar     Target = "bar"
	ToHalf    Target = "half"
	ToThird   Target = "third"
	ToQuarter Target = "quarter"
	ToOnset   Target = "onset"
	ToMarker  Target = "marker"
)

// Targets lists all of them, for menus and help.
var Targets = []Target{ToBeat, ToBar, ToHalf, ToThird, ToQuarter, ToOnset, ToMarker}

// ParseTarget reads a target's name.
func ParseTarget(s string) (Target, error) {
	for _, t := range Targets {
		if string(t) == s {
			return t, nil
		}
	}
	return "", fmt.Errorf("%q is not something to snap to: use beat, bar, half, third, quarter, onset or marker", s)
}

func (t Target) parts() int {
	switch t {
	case ToBeat, ToBar:
		return 1
	case ToHalf:
		return 2
	case ToThird:
		return 3
	case ToQuarter:
		return 4
	}
	return 0
}

// Landing is a place a start can be snapped to.
type Landing struct {
	Frame Frame
	Start Start
}

// Landings returns every place of the given kind after frame 0, ascending: to
// the last beat of the grid, or to the end of the film and one beat more if that is
// later. The grid goes on at its last tempo past its last beat; bars and
// onsets do not. Of places on one frame the beat goes before its parts.
func (b Board) Landings(t Target) []Landing {
	var out []Landing
	add := func(s Start) {
		s.Time = b.Seconds(s)
		f, k := b.Frame(s), len(out)-1
		switch {
		case f <= 0:
		case k < 0 || f > out[k].Frame:
			out = append(out, Landing{f, s})
		case s.Anchor.Of < out[k].Start.Anchor.Of:
			out[k] = Landing{f, s}
		}
	}
	if t == ToOnset {
		for _, o := range b.Grid.Onsets {
			add(Free(b.SongOffset() + o.Time))
		}
		return out
	}
	if t == ToMarker {
		starts := make([]Start, len(b.Markers))
		for i, m := range b.Markers {
			starts[i] = m.Start
		}
		slices.SortFunc(starts, func(x, y Start) int { return cmp.Compare(b.Frame(x), b.Frame(y)) })
		for _, s := range starts {
			add(s)
		}
		return out
	}
	if !b.OnGrid() {
		return nil
	}
	length := b.Rate.Seconds(b.Frames())
	first := b.Grid.before(-b.SongOffset()) // nothing earlier lies after frame 0
	last := max(len(b.Grid.Beats)-1, b.Grid.before(length-b.SongOffset())+1)
	for beat := first; beat <= last; beat++ {
		if t == ToBar && (beat < 0 || beat >= len(b.Grid.Beats) || !b.Grid.Beats[beat].Bar) {
			continue
		}
		for part := range t.parts() {
			add(Start{Anchor: reduced(beat, part, t.parts())})
		}
	}
	return out
}

// NearestLanding returns the landing closest to frame f among ascending
// landings, and false if none lies within reach frames.
func NearestLanding(ls []Landing, f, reach Frame) (Landing, bool) {
	i := sort.Search(len(ls), func(i int) bool { return ls[i].Frame >= f })
	best, dist := -1, reach
	for _, k := range []int{i - 1, i} {
		if k >= 0 && k < len(ls) {
			if d := max(ls[k].Frame-f, f-ls[k].Frame); d < dist || (best < 0 && d == dist) {
				best, dist = k, d
			}
		}
	}
	if best < 0 {
		return Landing{}, false
	}
	return ls[best], true
}

// ShortestHold is the least hold snapping leaves when none is asked for: an
// eighth of a second, at least a frame.
func (r FrameRate) ShortestHold() Frame {
	return max(1, Frame(math.Ceil(r.Float()/8)))
}

// SnapOptions says what Snap moves, and where to.
type SnapOptions struct {
	To       Target
	Panels   []int // whose starts move; nil: all, and the end of the film
	Lead     Frame // frames by which the picture comes before the music; negative: after
	Shortest Frame // least hold left; 0: FrameRate.ShortestHold
}

// Snap moves starts onto the target: in order, none closer to its neighbours
// than the shortest hold, and moving them as little as possible in all. Starts
// not chosen stay, and so does the first panel at frame 0.
func Snap(o SnapOptions) Edit {
	name := "snap all to " + string(o.To) + "s"
	if o.Panels != nil {
		name = fmt.Sprintf("%s to %ss", named("snap", o.Panels), o.To)
	}
	return Edit{Name: name, Apply: func(b Board) (Board, error) {
		set, err := b.snapped(o)
		if err != nil {
			return b, err
		}
		if o.Shortest <= 0 {
			o.Shortest = b.Rate.ShortestHold()
		}
		o.Shortest = min(o.Shortest, math.MaxInt32) // longer than any film
		landings := b.led(b.Landings(o.To), o.Lead)
		if len(landings) == 0 {
			return b, fmt.Errorf("the film has no %ss to snap to", o.To)
		}
		out, starts := b, b.Starts()
		for len(set) > 0 {
			n := 1 // starts in a row, which give way to each other
			for n < len(set) && set[n] == set[n-1]+1 {
				n++
			}
			first, last, room := set[0], set[n-1], landings
			if last+1 < len(starts) {
				room = landings[:sort.Search(len(landings), func(i int) bool { return landings[i].Frame > starts[last+1]-o.Shortest })]
			}
			chosen, ok := assign(starts[first:last+1], room, starts[first-1], o.Shortest)
			if !ok {
				return b, fmt.Errorf("%s not fit on the %ss there: take a finer division or fewer panels", doPanels(n), o.To)
			}
			for k, j := range chosen {
				out = out.withStart(first+k, room[j].Start)
			}
			set = set[n:]
		}
		return out.checked(b)
	}}
}

func doPanels(n int) string {
	if n == 1 {
		return "one panel does"
	}
	return fmt.Sprintf("%d panels do", n)
}

// snapped returns the starts that are to be snapped, ascending, that of the
// first panel left out.
func (b Board) snapped(o SnapOptions) ([]int, error) {
	if o.Panels == nil {
		all := make([]int, len(b.Panels))
		for i := range all {
			all[i] = i + 1
		}
		if len(all) == 0 {
			return nil, fmt.Errorf("there are no panels to snap")
		}
		return all, nil
	}
	set, err := b.several(o.Panels)
	if err != nil {
		return nil, err
	}
	if set[0] == 0 {
		set = set[1:]
	}
	if len(set) == 0 {
		return nil, errFirst
	}
	return set, nil
}

// led returns the landings so many frames earlier, those after frame 0.
func (b Board) led(landings []Landing, lead Frame) []Landing {
	if lead == 0 {
		return landings
	}
	var out []Landing
	for _, l := range landings {
		if l.Start.Anchored() {
			l.Start.Anchor.Offset -= lead
		} else {
			l.Start.Time -= b.Rate.Seconds(lead)
		}
		if l.Frame = b.Frame(l.Start); l.Frame > 0 && (len(out) == 0 || l.Frame > out[len(out)-1].Frame) {
			out = append(out, l)
		}
	}
	return out
}

// assign chooses for each start, ascending, the index of a landing, so that
// the first lies at least gap frames after frame from, each at least gap frames
// after the one before, and the sum of the moves |landing - start| is least;
// of equal sums the earlier landings win, since a picture may lead its sound.
// It reports false if the landings are too few.
//
// Taking the nearest landing start by start (greedy) fails where two starts
// want one landing: the second is pushed off, and may push all that follow.
// So all are chosen at once by dynamic programming: best(i, j) is the least
// sum for starts 0..i with start i on landing j or an earlier one,
//
//	best(i, j) = min( best(i, j-1), |landing j - start i| + best(i-1, p(j)) )
//
// where p(j) is the last landing at least gap frames before landing j. One
// row needs only the row before it; one bit for each (i, j) remembers which
// side of the min won, and reading the bits backwards gives the choice.
// Time is starts x landings, memory an eighth of a byte for each pair.
func assign(starts []Frame, landings []Landing, from, gap Frame) ([]int, bool) {
	const never = math.MaxInt64 / 4
	n, m := len(starts), len(landings)
	prior := make([]int, m) // p(j); -1: none
	for j, k := 0, -1; j < m; j++ {
		for k+1 < j && landings[k+1].Frame <= landings[j].Frame-gap {
			k++
		}
		prior[j] = k
	}
	row, above := make([]int64, m), make([]int64, m)
	words := (m + 63) / 64
	took := make([]uint64, n*words)
	for i, s := range starts {
		row, above = above, row
		for j, l := range landings {
			cost := int64(max(l.Frame-s, s-l.Frame))
			switch {
			case i == 0 && l.Frame < from+gap:
				cost = never
			case i > 0 && prior[j] < 0:
				cost = never
			case i > 0:
				cost = min(never, cost+above[prior[j]])
			}
			row[j] = cost
			if j > 0 && row[j-1] <= cost {
				row[j] = row[j-1]
				continue
			}
			took[i*words+j/64] |= 1 << (j % 64)
		}
	}
	if n == 0 || m == 0 || row[m-1] >= never {
		return nil, false
	}
	out := make([]int, n)
	for i, j := n-1, m-1; i >= 0; i-- {
		for took[i*words+j/64]&(1<<(j%64)) == 0 {
			j--
		}
		out[i] = j
		j = prior[j]
	}
	return out, true
}
