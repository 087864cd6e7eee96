package board

import (
	"fmt"
	"slices"
)

// MaxEvery is the most beats one panel is laid on.
const MaxEvery = 1000

// Insert puts new panels before panel at (len(Panels) appends). With beats on
// the board each holds every beats; without, each holds a second. What comes
// after moves along. Ids are given out here; starts in the panels are
// ignored.
func Insert(at int, panels []Panel, every int) Edit {
	return Edit{Name: counted("add", len(panels)), Apply: func(b Board) (Board, error) {
		if at < 0 || at > len(b.Panels) {
			return b, ErrNoPanel
		}
		if every < 1 || every > MaxEvery {
			return b, fmt.Errorf("panels are laid on every 1st, 2nd, 3rd ... %dth beat, not on every %d", MaxEvery, every)
		}
		return b.inserted(at, panels, b.beatHolds(at, len(panels), every))
	}}
}

// beatHolds returns the holds of n panels laid from the start of panel at on
// every so many beats. On an empty board the first panel is up from frame 0
// and the beats are counted from the first one.
func (b Board) beatHolds(at, n, every int) []Frame {
	holds := make([]Frame, n)
	if !b.OnGrid() {
		for i := range holds {
			holds[i] = max(1, b.Rate.Nearest(float64(i+1))-b.Rate.Nearest(float64(i)))
		}
		return holds
	}
	from, first := b.Starts()[at], 0
	if from > 0 || b.SongOffset() < 0 {
		first = b.Grid.Near(b.Rate.Seconds(from)-b.SongOffset(), 1).Beat
	}
	for i := range holds {
		end := b.Frame(Start{Anchor: Anchor{Beat: first + (i+1)*every, Of: 1}})
		holds[i] = max(1, end-from)
		from += holds[i]
	}
	return holds
}

func (b Board) startOf(i int) Start {
	if i == len(b.Panels) {
		return b.End
	}
	return b.Panels[i].Start
}

// Split cuts panel i in two at frame f; both parts show its picture
// and a move of the camera goes on from one to the other.
func Split(i int, f Frame) Edit {
	return Edit{Name: fmt.Sprintf("split panel %d", i+1), Apply: func(b Board) (Board, error) {
		if i < 0 || i >= len(b.Panels) {
			return b, ErrNoPanel
		}
		span := b.Span(i)
		if f <= span.Start || f >= span.End {
			return b, fmt.Errorf("panel %d can be split on frames %d to %d", i+1, span.Start+1, span.End-1)
		}
		p := b.Panels[i]
		p.takeOpening()
		p.ID, p.Start, p.Fixed, p.Into = b.NextID, b.landed(f, Start{}, Span{f, f + 1}), Numbers{}, Transition{}
		first, second := p.Drawing().Travel.cut(float64(f-span.Start) / float64(span.Len()))
		p.draw(func(d *Drawn) { d.Travel = second })
		before, after := b.cutNotes(i, f, b.Starts())
		p.FrameNotes = after
		out := b
		out.NextID++
		out.Panels = slices.Insert(slices.Clone(b.Panels), i+1, p)
		out.Panels[i].draw(func(d *Drawn) { d.Travel = first })
		out.Moves = b.movesSplit(b.Panels[i].ID, p.ID)
		out.Remarks = b.remarksSplit(i, f, p.ID, b.Starts())
		out.Panels[i].FrameNotes = before
		return out.checked(b)
	}}
}
