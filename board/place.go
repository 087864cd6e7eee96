package board

import (
	"fmt"
	"slices"
)

// Point is a place in the frame, in heights of the frame: the middle is the
// origin, x runs to the right and y down. In a film of 16:9 the right edge is
// at x = 8/9, the lower edge at y = 1/2.
type Point struct {
	X float64 `json:"x"`
	Y float64 `json:"y"`
}

// maxFar is how far from the middle of the frame anything may be, in heights
// of the frame.
const maxFar = 20

func (p Point) check() error {
	if !finite(p.X, maxFar) || !finite(p.Y, maxFar) {
		return fmt.Errorf("the place %g, %g is too far from the frame", p.X, p.Y)
	}
	return nil
}

// Fitting says how a picture is brought to the size of the frame.
type Fitting string

// The ways. By hand starts from the size of a picture fitted.
const (
	Fitted Fitting = ""     // whole, with bars where the shapes differ
	Filled Fitting = "fill" // without bars, cut where the shapes differ
	ByHand Fitting = "hand"
)

// Fittings lists all of them, for menus.
var Fittings = []Fitting{Fitted, Filled, ByHand}

// Placement says how a panel's picture sits in the frame. The zero value is
// the whole picture, upright, in the middle.
type Placement struct {
	Fit   Fitting `json:"fit,omitempty"`
	At    Point   `json:"at,omitzero"`     // the middle of the picture, by hand
	Scale float64 `json:"scale,omitempty"` // times the size fitted, by hand; 0 is 1
	Turn  float64 `json:"turn,omitempty"`  // degrees clockwise, by hand
	Flip  bool    `json:"flip,omitempty"`  // left and right changed over, before it is turned
}

// Limits of a scale.
const (
	MinScale = 0.01
	MaxScale = 100
)

// Times returns the scale, 1 where none is set.
func (p Placement) Times() float64 {
	if p.Scale == 0 {
		return 1
	}
	return p.Scale
}

func (p Placement) check() error {
	switch {
	case !slices.Contains(Fittings, p.Fit):
		return fmt.Errorf("%.40q is no way to fit a picture into the frame", string(p.Fit))
	case p.Fit != ByHand && (p.At != Point{} || p.Scale != 0 || p.Turn != 0):
		return fmt.Errorf("a picture is moved, scaled and turned by hand alone")
	case p.Scale != 0 && !(p.Scale >= MinScale && p.Scale <= MaxScale):
		return fmt.Errorf("a picture %g times its size: it takes %g to %g", p.Scale, MinScale, float64(MaxScale))
	case !finite(p.Turn, 360):
		return fmt.Errorf("a turn of %g degrees: it takes -360 to 360", p.Turn)
	}
	return p.At.check()
}

// Place says how the pictures of the chosen panels sit in the frame.
func Place(set []int, p Placement) Edit {
	return merging(onDrawings("place the picture", set, func(d *Drawn) { d.Placed = p }))
}

// SetSketch gives the chosen panels a sketch, or none with the empty id.
func SetSketch(set []int, m MediaID) Edit {
	return onDrawings("sketch", set, func(d *Drawn) { d.Sketch = m })
}

// DrawOn gives panel i a sketch that was changed; what names the change for
// undo.
func DrawOn(i int, what string, m MediaID) Edit {
	return onDrawings(what, []int{i}, func(d *Drawn) { d.Sketch = m })
}

// PaintOver gives panel i a picture that its sketch is painted into: the picture
// takes the place of the sketch.
func PaintOver(i int, m MediaID) Edit {
	return onPanels("picture", []int{i}, func(p *Panel) {
		p.Picture = m
		p.draw(func(d *Drawn) { d.Sketch, d.Placed = "", Placement{} })
	})
}

// Media returns the pictures, sketches and the song that the board shows or
// plays, each once, in the order of the panels.
func (b Board) Media() []MediaID {
	var out []MediaID
	seen := map[MediaID]bool{"": true}
	add := func(id MediaID) {
		if !seen[id] {
			seen[id], out = true, append(out, id)
		}
	}
	for _, p := range b.Panels {
		add(p.Picture)
		add(p.Drawing().Sketch)
	}
	if b.Song != nil {
		add(b.Song.Media)
	}
	return out
}
