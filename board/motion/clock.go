package motion

import (
	"math"
	"sort"

	"stillbeat/board"
)

// Exposures are the photographs of a run of panels: the frame each begins on,
// ascending, and the first frame after the last. Ones, twos and mixed steps
// differ in the frames alone.
type Exposures struct {
	Rate   board.FrameRate
	Frames []board.Frame
	End    board.Frame
}

// Every returns the exposures of a span that begin every step frames.
func Every(rate board.FrameRate, span board.Span, step int) Exposures {
	x := Exposures{Rate: rate, End: span.End}
	for f := span.Start; f < span.End; f += board.Frame(max(1, step)) {
		x.Frames = append(x.Frames, f)
	}
	return x
}

// ExposuresOf returns those of a board from panel first to panel last, given
// its starts: each panel begins a new one.
func ExposuresOf(b board.Board, starts []board.Frame, first, last int) Exposures {
	x := Exposures{Rate: b.Rate, End: starts[last+1]}
	for i := first; i <= last; i++ {
		x.Frames = append(x.Frames, Every(b.Rate, board.Span{Start: starts[i], End: starts[i+1]}, b.StepOf(i)).Frames...)
	}
	return x
}

// steps returns the length in frames of the first exposure and of the last.
func (x Exposures) steps() (first, last float64) {
	n := len(x.Frames)
	if n == 1 {
		return float64(x.End - x.Frames[0]), float64(x.End - x.Frames[0])
	}
	return float64(x.Frames[1] - x.Frames[0]), float64(x.Frames[n-1] - x.Frames[n-2])
}

// nearest returns where the exposure nearest to a time in frames begins, of two
// the later. Outside the panels exposures go on as at their ends.
func (x Exposures) nearest(t float64) float64 {
	before, after := x.around(t)
	if t-before < after-t {
		return before
	}
	return after
}

// leading is nearest, but of two the earlier: a picture ahead of its sound reads
// better than one behind it (see board.LeadUnnoticed).
func (x Exposures) leading(t float64) float64 {
	before, after := x.around(t)
	if t-before <= after-t {
		return before
	}
	return after
}

// around returns where the last exposure begins that is not after a time, and
// the one after it.
func (x Exposures) around(t float64) (before, after float64) {
	n := len(x.Frames)
	head, tail := x.steps()
	switch first, last := float64(x.Frames[0]), float64(x.Frames[n-1]); {
	case t < first:
		before = first + math.Floor((t-first)/head)*head
		return before, before + head
	case t >= last:
		before = last + math.Floor((t-last)/tail)*tail
		return before, before + tail
	}
	i := sort.Search(n, func(i int) bool { return float64(x.Frames[i]) > t })
	return float64(x.Frames[i-1]), float64(x.Frames[i])
}
