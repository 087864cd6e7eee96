package board

import (
	"fmt"
	"image/color"
	"math"

	"stillbeat/board/figure"
)

// SketchUnit is how many units of a sketch go into the height of the frame.
// The origin is the middle of the frame, x runs to the right and y down.
const SketchUnit = 1 << 14

// Limits of a sketch.
const (
	MaxStrokes    = 20000
	MaxDots       = 1_000_000 // of all strokes
	MaxFigures    = 64
	maxSketchFar  = maxFar * SketchUnit
	maxSketchWide = 4 * SketchUnit
)

// Layer is where a stroke lies in a panel.
type Layer uint8

// The layers: under the photograph, on it, and over all that is on it.
const (
	Below Layer = iota
	Middle
	Above
)

// Layers lists all of them, from the bottom up.
var Layers = []Layer{Below, Middle, Above}

// Dot is a point of a stroke: where it is, in units of the sketch, and how
// much of the stroke's width it has, in parts of 255.
type Dot struct {
	X, Y int32
	Wide uint8
}

// Stroke is one stroke of a pen or brush, one shape, or one patch of colour.
type Stroke struct {
	Layer  Layer
	Smooth bool        // a curve through the dots; else straight from dot to dot
	Closed bool        // the last dot leads to the first
	Filled bool        // the inside is covered too (non-zero rule)
	Erases bool        // takes away what lies under it in its layer
	Ink    color.NRGBA // no ink for a stroke that erases
	Width  int32       // units; 0 draws no line
	Dots   []Dot
}

// Sketch is a drawing in strokes. It is stored in the film as a medium of its
// own and never changed: a new stroke makes a new sketch.
type Sketch struct {
	Paper   color.NRGBA // under everything where there is no photograph; alpha 0: the blank card
	Strokes []Stroke    // those of a layer from the bottom up
	Figures []Figure    // each under the strokes of its layer
}

// Figure is a jointed stick figure in a sketch, in units of the sketch. It is
// drawn as its strokes.
type Figure struct {
	Layer Layer
	Ink   color.NRGBA
	figure.Pose
}

func (s Sketch) check() error {
	if len(s.Strokes) > MaxStrokes {
		return fmt.Errorf("%d strokes: a sketch has at most %d", len(s.Strokes), MaxStrokes)
	}
	if s.Paper.A != 0 && s.Paper.A != 255 {
		return fmt.Errorf("the paper of a sketch is either there or not")
	}
	dots := 0
	for i, k := range s.Strokes {
		if dots += len(k.Dots); dots > MaxDots {
			return fmt.Errorf("more than %d points: a sketch has at most as many", MaxDots)
		}
		if err := k.check(); err != nil {
			return fmt.Errorf("stroke %d: %w", i+1, err)
		}
	}
	if len(s.Figures) > MaxFigures {
		return fmt.Errorf("%d figures: a sketch has at most %d", len(s.Figures), MaxFigures)
	}
	for i, f := range s.Figures {
		if f.Layer > Above {
			return fmt.Errorf("figure %d: there is no layer %d", i+1, f.Layer)
		}
		if err := f.Check(); err != nil {
			return fmt.Errorf("figure %d: %w", i+1, err)
		}
	}
	return nil
}

// Empty reports whether there is nothing in the sketch.
func (s Sketch) Empty() bool { return s.Paper.A == 0 && len(s.Strokes) == 0 && len(s.Figures) == 0 }

// On returns the strokes of a layer from the bottom up, those of its figures
// first.
func (s Sketch) On(layer Layer) []Stroke {
	var out []Stroke
	for _, f := range s.Figures {
		if f.Layer == layer {
			out = append(out, f.Strokes()...)
		}
	}
	for _, k := range s.Strokes {
		if k.Layer == layer {
			out = append(out, k)
		}
	}
	return out
}

// Strokes returns the strokes a figure is drawn as: lines between its joints,
// thinner on the far side, and a round head.
func (f Figure) Strokes() []Stroke {
	thick := max(24, f.Size/64)
	at := f.Joints()
	dot := func(p figure.Point) Dot {
		return Dot{inSketch(p.X), inSketch(p.Y), 255}
	}
	var out []Stroke
	for _, b := range figure.Bones {
		k := Stroke{Layer: f.Layer, Ink: f.Ink, Width: thick, Dots: []Dot{dot(at[b[0]]), dot(at[b[1]])}}
		if b[1].IsFar() {
			k.Width = thick * 2 / 3
		}
		if b[1] == figure.Head { // as far as its edge
			n, h, r := at[figure.Neck], at[figure.Head], f.HeadRadius()
			if long := math.Hypot(h.X-n.X, h.Y-n.Y); long > r {
				k.Dots[1] = dot(figure.Point{X: h.X - (h.X-n.X)*r/long, Y: h.Y - (h.Y-n.Y)*r/long})
			}
		}
		out = append(out, k)
	}
	head := Stroke{Layer: f.Layer, Smooth: true, Closed: true, Ink: f.Ink, Width: thick}
	for i := range 16 {
		s, c := math.Sincos(2 * math.Pi * float64(i) / 16)
		head.Dots = append(head.Dots, dot(figure.Point{X: at[figure.Head].X + s*f.HeadRadius(), Y: at[figure.Head].Y + c*f.HeadRadius()}))
	}
	return append(out, head)
}

// inSketch rounds a place to units, no further from the frame than a sketch goes.
func inSketch(v float64) int32 {
	return int32(math.Round(min(max(v, -maxSketchFar), maxSketchFar)))
}

func (k Stroke) check() error {
	switch {
	case k.Layer > Above:
		return fmt.Errorf("there is no layer %d", k.Layer)
	case k.Width < 0 || k.Width > maxSketchWide:
		return fmt.Errorf("a width of %d units: it takes 0 to %d", k.Width, maxSketchWide)
	case len(k.Dots) == 0:
		return fmt.Errorf("it has no points")
	case k.Erases && k.Ink != color.NRGBA{}:
		return fmt.Errorf("it erases and has an ink")
	}
	for _, d := range k.Dots {
		if d.X < -maxSketchFar || d.X > maxSketchFar || d.Y < -maxSketchFar || d.Y > maxSketchFar {
			return fmt.Errorf("it runs too far from the frame")
		}
	}
	return nil
}
