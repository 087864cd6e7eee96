package board

import (
	"fmt"
	"slices"
)

// Least and greatest number of beats in a bar.
const (
	MinBar = 2
	MaxBar = 12
)

func barLength(beats int) bool { return beats >= MinBar && beats <= MaxBar }

// SetBars says that beat i starts a bar and that bars have so many beats from
// there to the next beat that says so, or to the end. With 0 beats it takes
// that word back: the count before goes on over it.
func SetBars(i, beats int) Edit {
	return Edit{Name: fmt.Sprintf("bars from beat %d", i+1), Apply: func(b Board) (Board, error) {
		if i < 0 || i >= len(b.Grid.Beats) {
			return b, errNoBeat
		}
		if beats != 0 && !barLength(beats) {
			return b, fmt.Errorf("a bar of %d beats: it has %d to %d", beats, MinBar, MaxBar)
		}
		out := b
		out.Grid.Beats = slices.Clone(b.Grid.Beats)
		at := &out.Grid.Beats[i]
		at.Metre = beats
		if beats > 0 {
			at.Hand = true
			if !slices.ContainsFunc(b.Grid.Beats[:i], func(b Beat) bool { return b.Bar }) {
				out.Grid.Metre = beats
			}
		}
		recount(out.Grid.Beats, nil)
		return out.checked(b)
	}}
}

// recount marks the bars from each beat that says how many beats they have.
// Where given reports true the marks stay and the count goes on from them.
func recount(beats []Beat, given func(Beat) bool) {
	metre, place := 0, 0
	for i := range beats {
		b := &beats[i]
		switch {
		case b.Metre > 0:
			metre, place, b.Bar = b.Metre, 0, true
		case metre == 0:
		case given != nil && given(*b):
			if b.Bar {
				place = 0
			}
		default:
			b.Bar = place%metre == 0
		}
		place++
	}
}

// A run is a number of bars of equal length, one after the other.
type run struct {
	first int  // beat on which it begins
	beats int  // in a bar
	hand  bool // said by a person
}

// runs returns the bars of the grid, those said by a person up to the next
// word of theirs. The last bar may be cut short by the end of the grid and
// counts as one like those before it.
func (g Grid) runs() []run {
	var bars []int
	for i, b := range g.Beats {
		if b.Bar {
			bars = append(bars, i)
		}
	}
	var out []run
	for i, at := range bars {
		said, last := g.Beats[at].Metre, len(out)-1
		beats := MaxBeats // a single bar of unknown length
		switch {
		case said > 0:
			out = append(out, run{at, said, true})
			continue
		case last >= 0 && out[last].hand:
			continue
		case i+1 < len(bars):
			beats = bars[i+1] - at
		case last >= 0:
			beats = out[last].beats
		case barLength(g.Metre):
			beats = g.Metre
		}
		if last < 0 || out[last].beats != beats {
			out = append(out, run{at, beats, false})
		}
	}
	return out
}
