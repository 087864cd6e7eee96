package board

import (
	"errors"
	"fmt"
	"math"
	"slices"
)

// An Edit turns a board into another one. Apply must not change the board it
// is given; when it returns an error nothing has changed.
type Edit struct {
	Name  string // what undo calls it: "move panel 4"
	Merge string // edits in a row with one non-empty Merge undo as one step
	Apply func(Board) (Board, error)
}

// ErrNoPanel is returned when an edit names a panel that is not there.
var ErrNoPanel = errors.New("there is no such panel")

// SetTitle names the film.
func SetTitle(title string) Edit {
	return Edit{Name: "film title", Merge: "film title", Apply: func(b Board) (Board, error) {
		out := b
		out.Title = title
		return out.checked(b)
	}}
}

// SetRate changes the frame rate. Times stay: anchored starts follow the
// music and free ones keep their second, so going to another rate and back
// changes nothing.
func SetRate(r FrameRate) Edit {
	return Edit{Name: "frame rate " + r.String(), Apply: func(b Board) (Board, error) {
		out := b
		out.Rate = r
		return out.checked(b)
	}}
}

// SetStep puts the film on ones (1), twos (2) and so on.
func SetStep(step int) Edit {
	return Edit{Name: "frames per exposure", Apply: func(b Board) (Board, error) {
		out := b
		out.Step = step
		return out.checked(b)
	}}
}

// SetStart moves the start of panel i, which trades time with the panel
// before it; everything else stays. i = len(Panels) moves the end of the
// film. The first panel always starts at frame 0.
func SetStart(i int, s Start) Edit {
	name := fmt.Sprintf("start of panel %d", i+1)
	return Edit{Name: name, Apply: func(b Board) (Board, error) {
		room, err := b.Room(i)
		if err != nil {
			return b, err
		}
		if f := b.Frame(s); !room.Contains(f) {
			return b, fmt.Errorf("frame %d is outside the room the neighbours leave, %d to %d", f, room.Start, room.End-1)
		}
		s.Time = b.Seconds(s)
		return b.withStart(i, s).checked(b)
	}}
}

// Room returns the frames to which the start of panel i can move while its
// neighbours stay; i = len(Panels) is the end of the film.
func (b Board) Room(i int) (Span, error) {
	if i < 1 || i > len(b.Panels) {
		return Span{}, ErrNoPanel
	}
	starts := b.Starts()
	room := Span{starts[i-1] + 1, b.Rate.Nearest(MaxSeconds)}
	if i < len(b.Panels) {
		room.End = starts[i+1]
	}
	return room, nil
}

func (b Board) withStart(i int, s Start) Board {
	if i == len(b.Panels) {
		b.End = s
		return b
	}
	b.Panels = slices.Clone(b.Panels)
	b.Panels[i].Start = s
	return b
}

// Holds returns the hold of each panel in frames.
func (b Board) Holds() []Frame {
	starts := b.Starts()
	holds := make([]Frame, len(b.Panels))
	for i := range holds {
		holds[i] = starts[i+1] - starts[i]
	}
	return holds
}

// laid returns the board with these panels, one after the other, each with
// its hold. A start whose frame did not change stays what it was; one that
// moved is anchored again if it lands on the beat, else it is free. Beats fall
// between frames, so that the same hold elsewhere may miss its beat by a frame:
// a start that was anchored takes it all the same, unless the hold before it is
// one of those to be kept to the frame.
func (b Board) laid(panels []Panel, holds []Frame, exact ...int) (Board, error) {
	out := b
	out.Panels = slices.Clone(panels)
	starts := b.Starts()
	old := make(map[PanelID]Frame, len(b.Panels))
	for i, p := range b.Panels {
		old[p.ID] = starts[i]
	}
	var at, least Frame // least: the first frame the panel before leaves free
	for i := range out.Panels {
		p := &out.Panels[i]
		if !b.stays(p.Start, old[p.ID], at, least) {
			p.Start = b.landed(at, p.Start, reach(at, least, i-1, exact))
			at = max(least, b.Frame(p.Start))
		}
		if holds[i] > math.MaxInt32 {
			return b, fmt.Errorf("a hold of %d frames is longer than a film can be", holds[i])
		}
		at, least = at+holds[i], at+1
	}
	if !b.stays(b.End, starts[len(b.Panels)], at, least) {
		out.End = b.landed(at, b.End, reach(at, least, len(out.Panels)-1, exact))
	}
	out.Moves = out.hitsAlong(b)
	return out.checked(b)
}

// stays reports whether a start that was on frame old can be left as it is to
// be on frame at: it asks for that frame, or it asks for an earlier one and
// gives way as before to the panel ahead, which leaves it least at the earliest.
func (b Board) stays(s Start, old, at, least Frame) bool {
	f := b.Frame(s)
	return at > 0 && (f == at || old == at && f < at && least == at)
}

// reach returns where the start after panel i may go that should be on frame
// at, to find its beat: least is the earliest.
func reach(at, least Frame, i int, exact []int) Span {
	if slices.Contains(exact, i) {
		return Span{at, at + 1}
	}
	return Span{max(least, at-1), at + 2}
}

// landed returns a start at frame f: the beat (or the part of a beat was stood
// on) that falls on f, with the lead or lag was had if that fits; one that was
// anchored may find it elsewhere within reach; else a free one.
func (b Board) landed(f Frame, was Start, reach Span) Start {
	if b.OnGrid() && f > 0 {
		for _, offset := range []Frame{was.Anchor.Offset, 0} {
			t := b.Rate.Seconds(f-offset) - b.SongOffset()
			for _, of := range []int{1, max(1, was.Anchor.Of)} {
				s := Start{Anchor: b.Grid.Near(t, of)}
				s.Anchor.Offset = offset
				if b.Frame(s) == f {
					s.Time = b.Seconds(s)
					return s
				}
			}
		}
		if s := b.beside(f, was); was.Anchored() && reach.Contains(b.Frame(s)) {
			return s
		}
	}
	return Free(b.Rate.Seconds(f))
}

// beside returns the start nearest to frame f that sits in the music as was
// does: on the beat or the same part of one, as many frames ahead or behind.
func (b Board) beside(f Frame, was Start) Start {
	s := Start{Anchor: b.Grid.Near(b.Rate.Seconds(f-was.Anchor.Offset)-b.SongOffset(), max(1, was.Anchor.Of))}
	s.Anchor.Offset = was.Anchor.Offset
	s.Time = b.Seconds(s)
	return s
}
