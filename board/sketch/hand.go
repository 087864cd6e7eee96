// Package sketch makes strokes of what a hand does: smoothed lines, shapes,
// fills, and strokes chosen and changed. It needs no window.
package sketch

import (
	"math"

	"stillbeat/board"
)

// Pen is what a hand draws with.
type Pen struct {
	Stroke board.Stroke // what the stroke is like; its dots are added here
	Brush  bool         // its width follows the speed of the hand
}

// Hand takes a line as it is drawn and steadies it with little delay: the 1€
// filter of Casiez, Roussel and Vogel (CHI 2012, doi 10.1145/2207676.2208639),
// a low pass whose cutoff rises with the speed of the hand.
type Hand struct {
	pen   Pen
	dots  []board.Dot
	x, y  lowPass
	dx    lowPass
	dy    lowPass
	wide  lowPass
	last  float64 // second of the last point
	begun bool
}

// What the filter is set to, tried by hand with a mouse: cutoff at rest, in Hz,
// how it rises with speed, in Hz for each height of the frame a second, and the
// cutoff for the speed itself.
const (
	restCutoff  = 4.0
	riseCutoff  = 14.0
	speedCutoff = 1.0
	widthCutoff = 5.0
)

// Speeds of a hand, in heights of the frame a second, at which a brush is at
// its widest and its thinnest.
const (
	slowHand, fastHand = 0.15, 2.5
	thinnest           = 0.28
)

// NewHand begins a line.
func NewHand(p Pen) *Hand {
	p.Stroke.Dots = nil
	return &Hand{pen: p}
}

// Add goes on to a point at a second and returns the dots so far; the last one
// is new. Time that does not pass is taken for a thousandth of a second.
func (h *Hand) Add(p board.Point, second float64) []board.Dot {
	dt := max(second-h.last, 0.001)
	h.last = second
	speed := 0.
	if !h.begun {
		h.begun, dt = true, 0
		h.x.v, h.y.v = p.X, p.Y
		h.wide.v = 0.6
	} else {
		vx := h.dx.add((p.X-h.x.v)/dt, speedCutoff, dt)
		vy := h.dy.add((p.Y-h.y.v)/dt, speedCutoff, dt)
		speed = math.Hypot(vx, vy)
		cutoff := restCutoff + riseCutoff*speed
		h.x.add(p.X, cutoff, dt)
		h.y.add(p.Y, cutoff, dt)
	}
	wide := 1.
	if h.pen.Brush {
		fast := min(max((speed-slowHand)/(fastHand-slowHand), 0), 1)
		wide = h.wide.add(1-(1-thinnest)*math.Sqrt(fast), widthCutoff, dt)
	}
	h.dots = append(h.dots, dotAt(board.Point{X: h.x.v, Y: h.y.v}, wide))
	return h.dots
}

// Stroke returns the line as a stroke of few dots with a curve through them. It
// ends where the hand was let go.
func (h *Hand) Stroke(end board.Point) board.Stroke {
	k := h.pen.Stroke
	k.Smooth = true
	dots := h.dots
	if n := len(dots); n > 1 {
		d := dotAt(end, 1)
		d.Wide = dots[n-1].Wide
		dots = append(dots[:n:n], d)
	}
	k.Dots = Simplify(dots, lineError)
	return k
}

// lineError is how far a line may stray from what was drawn: a fifth of a pixel
// at 1080 lines.
const lineError = board.SketchUnit / 1080 / 5. * 2

// lowPass is a low pass of the first order.
type lowPass struct{ v float64 }

func (f *lowPass) add(v, cutoff, dt float64) float64 {
	tau := 1 / (2 * math.Pi * cutoff)
	f.v += (v - f.v) * dt / (dt + tau)
	return f.v
}

// dotAt returns a dot at a point of the frame, kept within what a sketch takes.
func dotAt(p board.Point, wide float64) board.Dot {
	return board.Dot{X: units(p.X), Y: units(p.Y), Wide: uint8(math.Round(255 * min(max(wide, 0), 1)))}
}

// most is how far from the middle of the frame strokes are kept, in heights.
const most = 16

func units(v float64) int32 {
	return int32(math.Round(min(max(v, -most), most) * board.SketchUnit))
}

// At returns where a dot is in the frame.
func At(d board.Dot) board.Point {
	return board.Point{X: float64(d.X) / board.SketchUnit, Y: float64(d.Y) / board.SketchUnit}
}
