package board

import (
	"errors"
	"fmt"
	"slices"
	"sort"
)

var errShortHold = errors.New("a hold is at least one frame")

// SetHold gives each of the chosen panels a hold in frames; everything after
// moves along.
func SetHold(set []int, hold Frame) Edit {
	return onSeveral(holdName(set), set, func(b Board, chosen []int) (Board, error) {
		if hold < 1 {
			return b, errShortHold
		}
		holds := b.Holds()
		for _, i := range chosen {
			holds[i] = hold
		}
		return b.laid(b.Panels, holds, chosen...)
	})
}

func holdName(set []int) string {
	if len(set) == 1 {
		return fmt.Sprintf("hold of panel %d", set[0]+1)
	}
	return fmt.Sprintf("holds of %d panels", len(set))
}

// HoldBeats gives each of the chosen panels so many beats from where it comes
// to start: ToBar bars, ToHalf halves of a beat and so on. It ends on the nth
// of them after the one it starts nearest to; everything after moves along.
func HoldBeats(set []int, n int, unit Target) Edit {
	return onSeveral(holdName(set), set, func(b Board, chosen []int) (Board, error) {
		switch {
		case !b.OnGrid():
			return b, errNoBeats
		case unit.parts() == 0:
			return b, fmt.Errorf("holds are counted in bars, beats and parts of them, not in %ss", unit)
		case n < 1 || n > MaxEvery:
			return b, fmt.Errorf("a hold of %d: it is 1 to %d", n, MaxEvery)
		}
		holds, bars := b.Holds(), b.Grid.barLines()
		var at Frame
		for i := range holds {
			if _, found := slices.BinarySearch(chosen, i); found {
				holds[i] = max(1, b.Frame(Start{Anchor: b.counted(at, n, unit, bars)})-at)
			}
			at += holds[i]
		}
		return b.laid(b.Panels, holds)
	})
}

// counted returns the place n units on from the one nearest to frame f. On an
// empty start of the film, before the first beat, it counts from that beat.
func (b Board) counted(f Frame, n int, unit Target, bars barLines) Anchor {
	t := b.Rate.Seconds(f) - b.SongOffset()
	if f == 0 {
		t = max(t, b.Grid.Beats[0].Time)
	}
	if unit == ToBar {
		return Anchor{Beat: bars.beat(bars.nearest(b.Grid, t) + n), Of: 1}
	}
	of := unit.parts()
	near := b.Grid.Near(t, of)
	at := near.Beat*of + near.Part*of/near.Of + n
	return reduced(floorDiv(at, of), at-floorDiv(at, of)*of, of)
}

// barLines are the beats that begin bars. After the last they go on at the
// length of a bar.
type barLines struct {
	beats []int
	metre int
}

// barLines returns the bars of the grid; one without any counts in fours from
// its first beat.
func (g Grid) barLines() barLines {
	lines := barLines{metre: g.Metre}
	for i, b := range g.Beats {
		if b.Bar {
			lines.beats = append(lines.beats, i)
		}
		if b.Metre > 0 {
			lines.metre = b.Metre
		}
	}
	if !barLength(lines.metre) {
		lines.metre = 4
	}
	if len(lines.beats) == 0 {
		lines.beats = []int{0}
	}
	return lines
}

// beat returns the beat on which bar k begins.
func (l barLines) beat(k int) int {
	if last := len(l.beats) - 1; k > last {
		return l.beats[last] + (k-last)*l.metre
	}
	return l.beats[k]
}

// nearest returns the bar that begins nearest to second t of the song.
func (l barLines) nearest(g Grid, t float64) int {
	begins := func(k int) float64 { return g.Time(l.beat(k), 0, 1) }
	k := sort.Search(len(l.beats), func(k int) bool { return begins(k) > t }) // the first after t
	for begins(k) <= t {                                                      // past the last known
		k++
	}
	if k > 0 && t-begins(k-1) <= begins(k)-t {
		return k - 1
	}
	return k
}

// Spread gives the run from the first chosen panel to the last even holds; its
// length stays.
func Spread(set []int) Edit {
	return onSeveral("even holds", set, func(b Board, chosen []int) (Board, error) {
		from, to := chosen[0], chosen[len(chosen)-1]+1
		holds := b.Holds()
		length, n := sum(holds[from:to]), Frame(to-from)
		for i := range n {
			holds[Frame(from)+i] = (i+1)*length/n - i*length/n
		}
		return b.laid(b.Panels, holds, indices(from, to)...)
	})
}

// ScaleHolds makes the run from the first chosen panel to the last so many frames
// long, each hold in proportion; everything after moves along.
func ScaleHolds(set []int, length Frame) Edit {
	return onSeveral(fmt.Sprintf("fit into %d frames", length), set, func(b Board, chosen []int) (Board, error) {
		from, to := chosen[0], chosen[len(chosen)-1]+1
		if length < Frame(to-from) || length > b.Rate.Nearest(MaxSeconds) {
			return b, fmt.Errorf("%d panels do not fit into %d frames", to-from, length)
		}
		holds := b.Holds()
		scaleTo(holds[from:to], length)
		return b.laid(b.Panels, holds, indices(from, to)...)
	})
}

// scaleTo brings holds to a sum of length, each end rounded on its own and no
// hold below a frame.
func scaleTo(holds []Frame, length Frame) {
	total, n := sum(holds), Frame(len(holds))
	var before, end Frame
	for i, h := range holds {
		before += h
		left := n - Frame(i) - 1 // panels still to come, a frame each at least
		next := min(max((before*length+total/2)/total, end+1), length-left)
		holds[i] = next - end
		end = next
	}
}

func sum(holds []Frame) Frame {
	var s Frame
	for _, h := range holds {
		s += h
	}
	return s
}

// indices lists the indices from one to before another.
func indices(from, to int) []int {
	out := make([]int, 0, to-from)
	for i := from; i < to; i++ {
		out = append(out, i)
	}
	return out
}
