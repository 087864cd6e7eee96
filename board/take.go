package board

import (
	"errors"
	"fmt"
	"slices"
)

var errNoCues = errors.New("there are no pictures in the list")

// TakeTiming lays the timing of a list on the film: see Take.
func TakeTiming(t Timing) Edit {
	return Edit{Name: "timing from a list", Apply: func(b Board) (Board, error) {
		out, _, err := b.Take(t)
		return out, err
	}}
}

// Take returns the board with its panels in the order and at the times of a
// list, each at the nearest frame of the film's rate, with what the list says
// of words, marks, passages and markers. A start whose frame did not change
// stays what it was; one that moved is anchored again if it lands on a beat.
//
// A panel is known by its id, else by its number. If none is known so, the
// pictures of the list that are no gaps are the panels in order. A picture
// that comes again is a copy of the panel. For one that is not known there
// is a blank panel. Panels the list does not have come after its end with
// their holds. Notes tell of both, in a sentence each.
func (b Board) Take(t Timing) (out Board, notes []string, err error) {
	if len(t.Cues) == 0 {
		return b, nil, errNoCues
	}
	out = b
	out.Panels = make([]Panel, 0, len(t.Cues))
	starts, numbers := b.Starts(), b.Numbers()
	found := b.known(t.Cues, numbers)
	taken := make([]bool, len(b.Panels))
	order := make([]int, len(b.Panels)) // where each panel comes to be
	var unknown, copied []string
	next := Frame(0) // the first frame the panels so far leave free
	for k, c := range t.Cues {
		p, own, old := c.panel(), Start{}, Frame(-1)
		fresh := true
		switch i := found[k]; {
		case i < 0:
			if !c.Gap {
				unknown = append(unknown, c.called(b.Rate))
			}
		case taken[i]:
			copied = append(copied, numbers[i])
			p = b.Panels[i]
			p.takeOpening()
			p.Fixed, p.Into = Numbers{}, Transition{}
		default:
			p, own, old, fresh = b.Panels[i], b.Panels[i].Start, starts[i], false
			taken[i], order[i] = true, k
		}
		if fresh {
			p.ID = out.NextID
			out.NextID++
		}
		c.write(&p)
		f := max(next, b.Rate.Nearest(c.At))
		if k == 0 {
			f = 0
		}
		p.Start = b.settled(f, next, own, old, c.Was)
		out.Panels, next = append(out.Panels, p), f+1
	}
	end := max(next, b.Rate.Nearest(t.End.At))
	var left []string
	for i, p := range b.Panels {
		if !taken[i] {
			left, order[i] = append(left, numbers[i]), len(out.Panels)
			p.Start = b.settled(end, end, p.Start, -1, nil)
			out.Panels, end, next = append(out.Panels, p), end+starts[i+1]-starts[i], end+1
		}
	}
	out.End = b.settled(end, next, b.End, starts[len(b.Panels)], t.End.Was)
	b.handOn(out.Panels, order)
	out.Markers = b.taken(t.Markers)
	if out, err = out.checked(b); err != nil || len(b.Panels) == 0 {
		return out, nil, err
	}
	note := func(names []string, one, many string) {
		if len(names) == 1 {
			notes = append(notes, fmt.Sprintf(one, names[0]))
		} else if len(names) > 1 {
			notes = append(notes, fmt.Sprintf(many, len(names), some(names)))
		}
	}
	note(unknown, "the film has no panel for %s: a blank one stands for it", "the film has no panels for %d pictures of the list: blank ones stand for them (%s)")
	note(copied, "panel %s comes again in the list: its picture is there twice", "%d pictures come again in the list: they are copies of the panels (%s)")
	note(left, "panel %s is not in the list: it comes after the end of it", "%d panels are not in the list: they come after the end of it (%s)")
	return out, notes, nil
}

// handOn settles what opens where the board's panels come to be in another
// order among others: a shot begins with the first of its panels, and the film
// with the first shot.
func (b Board) handOn(panels []Panel, order []int) {
	if len(b.Panels) == 0 {
		return
	}
	begins := -1 // where what begins the film comes to be
	for shots := b.Shots(); len(shots) > 1; shots = shots[1:] {
		first := slices.Min(order[shots[0]:shots[1]])
		opened := panels[order[shots[0]]].takeOpening()
		opened.opens = b.Opening(shots[0])
		panels[first].setOpening(opened)
		if shots[0] == 0 {
			begins = first
		}
	}
	if panels[0].Opens == GoesOn {
		k := slices.IndexFunc(panels, func(p Panel) bool { return p.Opens != GoesOn })
		panels[0].setOpening(panels[k].takeOpening())
		if k == begins {
			begins = 0
		}
	}
	if begins == 0 {
		panels[0].Opens = b.Panels[0].Opens // the first panel need not say so
	}
}

// NewFromTiming returns a new board of blank panels with what a list says.
func NewFromTiming(t Timing) (Board, error) {
	b := New()
	b.Title, b.Grid = t.Title, t.Grid
	if t.Rate != (FrameRate{}) {
		b.Rate = t.Rate
	}
	if t.Step > 0 {
		b.Step = t.Step
	}
	if err := b.Check(); err != nil {
		return New(), err
	}
	out, _, err := b.Take(t)
	if err != nil {
		return New(), err
	}
	return out, nil
}

// settled returns the start of a panel that is to be up from frame f: its own
// or the one that a list has kept if they lead there, the first panel of the
// film any. least is the first frame that is free; old is where the own start
// was.
func (b Board) settled(f, least Frame, own Start, old Frame, was *Start) Start {
	switch {
	case b.stays(own, old, f, least) || f == 0 && old == 0:
		return own
	case was != nil && was.Anchored() && !b.OnGrid():
	case was != nil && (b.stays(*was, f, f, least) || f == 0):
		return *was
	}
	if f == 0 {
		return Start{}
	}
	return b.landed(f, own, Span{f, f + 1})
}
