package board

import (
	"errors"
	"fmt"
)

var errFirst = errors.New("the first panel always starts the film")

// Push moves the start of panel i and everything after it; i = len(Panels) is
// the end of the film. The panel before holds shorter or longer.
func Push(i int, s Start) Edit {
	return Edit{Name: fmt.Sprintf("start of panel %d and all after", i+1), Apply: func(b Board) (Board, error) {
		if i < 1 || i > len(b.Panels) {
			return b, ErrNoPanel
		}
		holds, f := b.Holds(), b.Frame(s)
		hold := holds[i-1] + f - b.Starts()[i]
		if hold < 1 {
			return b, fmt.Errorf("panel %d would hold for %d frames: a hold is at least one", i, hold)
		}
		holds[i-1] = hold
		out, err := b.laid(b.Panels, holds, i-1)
		if err != nil {
			return b, err
		}
		s.Time = b.Seconds(s)
		return out.withStart(i, s).checked(b)
	}}
}

// Nudge moves the starts of the chosen panels by so many frames; the panels on
// either side trade time. An anchored start stays anchored and leads or lags
// by so much more.
func Nudge(set []int, by Frame) Edit {
	return shiftStarts("nudge", set, func(b Board, s Start, f Frame) Start {
		if s.Anchored() && b.OnGrid() {
			s.Anchor.Offset += by
			return s
		}
		return Free(b.Rate.Seconds(f + by))
	})
}

// NudgeBeats moves the starts of the chosen panels by so many beats: an
// anchored one to the same place in another beat, a free one to that beat.
func NudgeBeats(set []int, by int) Edit {
	return shiftStarts("nudge by a beat", set, func(b Board, s Start, f Frame) Start {
		if !b.OnGrid() {
			return Free(b.Rate.Seconds(f) + float64(by))
		}
		if !s.Anchored() {
			s = Start{Anchor: b.beatBeside(f, by)}
		} else {
			s.Anchor.Beat += by
		}
		s.Time = b.Seconds(s)
		return s
	})
}

// beatBeside returns the by-th beat after frame f, before it if negative; one
// that falls on f does not count.
func (b Board) beatBeside(f Frame, by int) Anchor {
	a := b.Grid.Near(b.Rate.Seconds(f)-b.SongOffset(), 1)
	switch at := b.Frame(Start{Anchor: a}); {
	case by > 0 && at > f:
		by--
	case by < 0 && at < f:
		by++
	}
	a.Beat += by
	return a
}

// SetFree takes the chosen starts off the music; each keeps its frame.
func SetFree(set []int) Edit {
	return shiftStarts("set free", set, func(b Board, _ Start, f Frame) Start { return Free(b.Rate.Seconds(f)) })
}

// shiftStarts moves the chosen starts, that of the first panel left out. The
// order and a frame for each panel must remain.
func shiftStarts(verb string, set []int, to func(b Board, s Start, f Frame) Start) Edit {
	return onSeveral(named(verb, set), set, func(b Board, chosen []int) (Board, error) {
		if chosen[0] == 0 {
			chosen = chosen[1:]
		}
		if len(chosen) == 0 {
			return b, errFirst
		}
		starts, out := b.Starts(), b
		for _, i := range chosen {
			out = out.withStart(i, to(b, b.Panels[i].Start, starts[i]))
		}
		for k, f := range out.Starts() {
			asked := out.Frame(out.startOf(k))
			if k > 0 && f != asked && f != starts[k] {
				return b, fmt.Errorf("panel %d leaves no room there", k)
			}
		}
		return out.checked(b)
	})
}
