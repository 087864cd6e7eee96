package picture

import (
	"errors"
	"fmt"
	"image"

	"stillbeat/board"
)

// ErrOutside is returned for a frame or a panel that the film does not have.
var ErrOutside = errors.New("the film does not have that frame")

// Film draws the frames of a board. It is made anew when the board changes,
// which costs little; what is drawn is kept by its cache. Viewer, thumbnails
// and every export ask it, from any goroutine.
type Film struct {
	pics     *Cache
	board    board.Board
	starts   []board.Frame
	passings []board.Span
	words    []string
}

// NewFilm returns the film of a board that keeps the rules of the model.
func NewFilm(pics *Cache, b board.Board) *Film {
	f := &Film{pics: pics, board: b, starts: b.Starts(), words: make([]string, len(b.Panels))}
	f.passings = b.Passings(f.starts)
	for i, p := range b.Panels {
		f.words[i] = wordsOf(p.Drawing().Lettering)
	}
	return f
}

// Frame returns frame n of the film in w x h pixels. Pixels of another shape
// than the film's have the surround beside it. The result is shared: do not
// draw on it.
func (f *Film) Frame(n board.Frame, w, h int) (*image.RGBA, error) {
	i := board.PanelAt(f.starts, n)
	if i < 0 {
		return nil, ErrOutside
	}
	img, err := f.pics.Draw(f.Shot(n), w, h)
	if err != nil {
		return nil, fmt.Errorf("panel %s: %w", f.board.Number(i), err)
	}
	return img, nil
}

// Panel returns panel i as it is at frame n of its hold, the first 0, without
// passages from and to its neighbours, in w x h pixels. The result is shared.
func (f *Film) Panel(i int, n board.Frame, w, h int) (*image.RGBA, error) {
	if i < 0 || i >= len(f.board.Panels) {
		return nil, ErrOutside
	}
	img, err := f.pics.Draw(f.PanelShot(i, n), w, h)
	if err != nil {
		return nil, fmt.Errorf("panel %s: %w", f.board.Number(i), err)
	}
	return img, nil
}

// Changes returns the frames, ascending, at which another picture comes up than
// the frame before: the first frame, cuts between panels that do not look the
// same, every exposure of a move and every frame of a passage.
func (f *Film) Changes() []board.Frame {
	var out []board.Frame
	var last Shot
	for n := range f.starts[len(f.starts)-1] {
		if s := f.Shot(n); n == 0 || s != last {
			out, last = append(out, n), s
		}
	}
	return out
}

// Shot returns what is on the screen at frame n: the panel that is up, as
// board.PanelAt says, with the camera where its move is by then, or two panels
// while one gives way to the other. Passages go on at each frame whatever the
// film's step, as they are made when it has been shot.
func (f *Film) Shot(n board.Frame) Shot {
	i := board.PanelAt(f.starts, n)
	if i < 0 {
		return Shot{}
	}
	for _, into := range []int{i, i + 1} {
		if into >= len(f.passings) || !f.passings[into].Contains(n) {
			continue
		}
		before := view{black: true}
		if into > 0 {
			before = f.view(into-1, n)
		}
		s := f.shot(before)
		s.next, s.passage, s.done = f.view(into, n), f.board.Panels[into].Into.Kind, f.done(into, n)
		if s.passage == board.Fade { // one of them is seen at a time
			if s.done < 0.5 {
				s.next = view{}
			} else {
				s.up = view{}
			}
		}
		return s
	}
	return f.shot(f.view(i, n))
}

// PanelShot returns panel i alone at frame n of its hold, the first 0.
func (f *Film) PanelShot(i int, n board.Frame) Shot {
	return f.shot(f.view(i, f.starts[i]+n))
}

// Whole returns panel i as it is before the camera frames any of it, to work on.
func (f *Film) Whole(i int) Shot {
	v := f.view(i, f.starts[i])
	v.framing, v.travels = board.Framing{}, false
	return f.shot(v)
}

// Sheet returns panel i as a sheet to paint on elsewhere: whole, and without
// lettering, which stays over it.
func (f *Film) Sheet(i int) Shot {
	s := f.Whole(i)
	s.up.words = ""
	return s
}

func (f *Film) shot(v view) Shot { return Shot{aspect: f.board.Aspect, up: v} }

// done returns how much of a passage into a panel has passed in the middle of
// frame n. The cut is in the middle of a fade even where the panels do not hold
// as long as half of it.
func (f *Film) done(into int, n board.Frame) float32 {
	p, cut := f.passings[into], f.starts[into]
	at := float32(n) + 0.5
	switch {
	case f.board.Panels[into].Into.Kind != board.Fade:
		return (at - float32(p.Start)) / float32(p.Len())
	case n < cut:
		return (at - float32(p.Start)) / float32(cut-p.Start) / 2
	}
	return 0.5 + (at-float32(cut))/float32(p.End-cut)/2
}

// view returns panel i as the camera sees it at frame n of the film. The move
// lasts as long as the panel is seen, passages into it and out of it included.
func (f *Film) view(i int, n board.Frame) view {
	p, d := f.board.Panels[i], f.board.Panels[i].Drawing()
	v := view{picture: p.Picture, sketch: d.Sketch, placed: d.Placed, words: f.words[i]}
	v.framing = d.Travel.From
	if !d.Travel.Holds() {
		seen := f.board.SeenIn(i, f.starts, f.passings)
		v.framing, v.travels = d.Travel.FramingAt(n-seen.Start, seen.Len(), f.board.StepOf(i)), true
	}
	return v
}
