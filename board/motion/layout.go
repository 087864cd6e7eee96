package motion

import (
	"fmt"
	"math"
	"slices"
	"sort"

	"stillbeat/board"
)

// Hit says on which frame a moment of a move is to be seen.
type Hit struct {
	Moment int
	Frame  board.Frame
	Words  string // the place in the music, for people
}

// layout is a course on exposures.
type layout struct {
	course
	at    []float64      // the frame of each event, ascending
	beats map[int]string // what is said of events that are hits
	end   board.Frame    // the first after the exposures
	found []Finding
}

func (l *layout) find(k Kind, f float64, format string, args ...any) {
	l.found = append(l.found, Finding{Kind: k, Frame: board.Frame(math.Floor(f)), Panel: -1, Reason: fmt.Sprintf(format, args...)})
}

// laid puts each event of a course on its frame. Hits are pinned to the
// exposures nearest to them, of two the earlier; a spacing fills what is left between the ends of
// its panels; all else takes its own time, before the first pin backwards.
// Between two pins it is stretched to fit. What is to be seen then goes to the
// nearest exposure, each from its own time.
func laid(c course, x Exposures, hits []Hit) *layout {
	l := &layout{course: c, at: make([]float64, len(c.phases)+1), beats: map[int]string{}, end: x.End}
	if c.unfit != "" {
		l.find(Unfit, float64(x.Frames[0]), "%s", c.unfit)
	}
	pins := l.pinned(x, hits)
	for i, e := range pins {
		if i == 0 {
			for k := e - 1; k >= 0; k-- {
				l.at[k] = l.at[k+1] - c.phases[k].seconds*x.Rate.Float()
			}
		} else {
			l.stretch(pins[i-1], e, x)
		}
	}
	for k := pins[len(pins)-1] + 1; k < len(l.at); k++ {
		l.at[k] = l.at[k-1] + c.phases[k-1].seconds*x.Rate.Float()
	}
	between := func(k int) bool { // an event that may fall between exposures
		return !slices.Contains(pins, k) && (k == 0 && c.loose || k > 0 && !c.phases[k-1].shown)
	}
	for k := range l.at {
		if !between(k) {
			l.at[k] = x.nearest(l.at[k])
		}
	}
	for k := range l.at { // rounding brings none of the others past these
		if between(k) {
			l.at[k] = max(min(l.at[k], l.at[min(k+1, len(l.at)-1)]), l.at[max(k-1, 0)])
		}
	}
	l.fits(x)
	return l
}

// pinned puts the hits on their exposures, and the ends of a spacing on those
// of its panels where no hit does it. It returns the events that are pinned,
// at least one.
func (l *layout) pinned(x Exposures, hits []Hit) (pins []int) {
	hits = slices.Clone(hits)
	slices.SortFunc(hits, func(a, b Hit) int { return a.Moment - b.Moment })
	for _, h := range hits {
		f := float64(h.Frame)
		switch {
		case l.unfit != "" || h.Moment < 0:
			continue
		case h.Moment >= len(l.moments) || l.moments[h.Moment] >= len(l.at):
			l.find(OffBeat, f, "moment %d is to be on %s, but by then it is over", h.Moment, h.Words)
			continue
		}
		e, near := l.moments[h.Moment], x.leading(f)
		if n := len(pins); n > 0 && near <= l.at[pins[n-1]] {
			l.find(OffBeat, f, "%q is to be on frame %d, %s, before or with the moment ahead of it: it is passed over", l.event(e), h.Frame, h.Words)
			continue
		}
		if h.Frame < x.Frames[0] || h.Frame >= x.End {
			l.find(OffBeat, f, "%q is to be on frame %d, %s, outside its panels", l.event(e), h.Frame, h.Words)
		} else if near > f || (f-near)*1000/x.Rate.Float() > board.LeadUnnoticed {
			l.find(OffBeat, f, "%q is to be on frame %d, %s, and the nearest exposure is that of frame %d", l.event(e), h.Frame, h.Words, int64(near))
		}
		l.at[e], l.beats[e], pins = near, h.Words, append(pins, e)
	}
	shared := func(from, to int) bool {
		return slices.ContainsFunc(l.phases[from:to], func(p phase) bool { return p.share > 0 })
	}
	head, tail := x.steps()
	first := float64(x.Frames[0])
	if len(pins) == 0 {
		l.at[0], pins = first, []int{0}
	} else if shared(0, pins[0]) {
		l.at[0], pins = min(first, l.at[pins[0]]-head), slices.Insert(pins, 0, 0)
	}
	if last, before := len(l.phases), pins[len(pins)-1]; shared(before, last) {
		l.at[last], pins = float64(x.Frames[len(x.Frames)-1]), append(pins, last)
		if before > 0 || l.beats[0] != "" {
			l.at[last] = max(l.at[last], l.at[before]+tail)
		}
	}
	return pins
}

// stretch places the events between two that are pinned.
func (l *layout) stretch(from, to int, x Exposures) {
	room := max(0, l.at[to]-l.at[from])
	var own, share float64
	for _, p := range l.phases[from:to] {
		own, share = own+p.seconds*x.Rate.Float(), share+p.share
	}
	step, _ := x.steps()
	ownScale, shareScale := 1.0, 0.0
	switch {
	case share > 0 && room == 0:
		l.find(NoRoom, l.at[from], "a single exposure shows no move")
		ownScale = 0
	case share > 0 && (own == 0 || own+step <= room):
		shareScale = (room - own) / share
	case share > 0: // half of what there is for the one and half for the other
		l.find(NoRoom, l.at[from], "it has %s from %q to %q and would need %s more", frames(room), l.event(from), l.event(to), frames(own+step-room))
		ownScale, shareScale = room/2/own, room/2/share
	default:
		ownScale = room / own
		if math.Abs(ownScale-1) > 0.15 && math.Abs(room-own) >= step {
			l.find(OffWeight, l.at[from], "it has %s from %q to %q, and its weight takes %s", frames(room), l.event(from), l.event(to), frames(own))
		}
	}
	for k := from; k < to-1; k++ {
		p := l.phases[k]
		l.at[k+1] = l.at[k] + p.seconds*x.Rate.Float()*ownScale + p.share*shareScale
	}
}

// fits finds what lies outside the panels.
func (l *layout) fits(x Exposures) {
	if l.unfit != "" {
		return
	}
	if early := float64(x.Frames[0]) - l.at[0]; early > 0.5 {
		l.find(NoRoom, float64(x.Frames[0]), "it would have to begin %s before its panels", frames(early))
	}
	if late := l.at[l.done] - float64(x.Frames[len(x.Frames)-1]); late > 0.5 {
		l.find(NoRoom, float64(x.Frames[len(x.Frames)-1]), "%s comes %s after its last exposure", l.event(l.done), frames(late))
	}
}

// event names an event.
func (l *layout) event(e int) string {
	if e == 0 {
		return l.begins
	}
	return l.phases[e-1].ends
}

// place returns where it is at a time in frames, and its measure there.
func (l *layout) place(f float64) (board.Spot, float64) {
	if f < l.at[0] {
		return l.phases[0].at(0)
	}
	k := sort.Search(len(l.phases), func(k int) bool { return f < l.at[k+1] })
	if k == len(l.phases) {
		return l.phases[k-1].at(1)
	}
	return l.phases[k].at((f - l.at[k]) / (l.at[k+1] - l.at[k]))
}

// frames writes a number of frames.
func frames(n float64) string {
	switch n = math.Round(n*10) / 10; n {
	case 1:
		return "1 frame"
	case math.Trunc(n):
		return fmt.Sprintf("%.0f frames", n)
	}
	return fmt.Sprintf("%.1f frames", n)
}
