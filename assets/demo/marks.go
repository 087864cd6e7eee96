package demo

import (
	"math"

	"stillbeat/assets/internal/ink"
	"stillbeat/assets/internal/stage"
)

// pencil is the blue pencil of motion marks: not part of the scene, and told
// from it at a glance.
func pencil(width float64) ink.Pen { return ink.Pen{Width: width, Colour: pencilBlue, Seed: 3} }

// arrow draws a motion arrow along a path in the room, swelling to its head.
func (s *set) arrow(points ...vec) {
	path := stage.Curve(points, 12)
	tip, back := s.Project(path[len(path)-1]), s.Project(path[max(0, len(path)-5)])
	angle := math.Atan2(tip.Y-back.Y, tip.X-back.X)
	size := 27 * s.Canvas.Unit
	off := func(turn, r float64) ink.Pt {
		return ink.Pt{X: tip.X - r*size*math.Cos(angle+turn), Y: tip.Y - r*size*math.Sin(angle+turn)}
	}
	var shaft []ink.Pt
	for _, p := range path {
		if q := s.Project(p); math.Hypot(q.X-tip.X, q.Y-tip.Y) > 0.7*size {
			shaft = append(shaft, q)
		}
	}
	pen := pencil(6)
	pen.Taper = 40
	s.Canvas.Stroke(append(shaft, off(0, 0.5)), pen)
	s.Canvas.Paint(s.Canvas.Mask([]ink.Pt{tip, off(0.42, 1), off(0, 0.68), off(-0.42, 1)}), pencilBlue, 1)
}

// trail draws a dashed path in the room.
func (s *set) trail(path []vec) {
	flat := make([]ink.Pt, len(path))
	for i, p := range path {
		flat[i] = s.Project(p)
	}
	s.Canvas.Strokes(s.Canvas.Dashes(flat, 12, 12), pencil(3))
}

// arc is the way of something thrown from a to b, rising height above the
// straight line at its middle.
func arc(a, b vec, height float64) []vec {
	out := make([]vec, 33)
	for i := range out {
		out[i] = arcAt(a, b, height, float64(i)/32)
	}
	return out
}

// arcAt is where on the arc the thing is at time t, 0..1: even steps of t are
// even steps of time, so the drawings bunch up where it is slow.
func arcAt(a, b vec, height, t float64) vec {
	return a.To(b, t).Add(vec{Y: 4 * height * t * (1 - t)})
}

// streaks draws n lines of speed side by side from a to b, width cm apart in all.
func (s *set) streaks(a, b vec, width float64, n int) {
	side := b.Sub(a).Cross(vec{Z: 1}).Unit()
	for i := range n {
		off := side.Scale(width * (float64(i)/float64(n-1) - 0.5))
		late := 0.12 * float64((i+1)%2)
		pen := pencil(4)
		pen.Taper = 60
		s.Line(span(a.To(b, late).Add(off), a.To(b, 1-late).Add(off)), pen)
	}
}

// burst draws short strokes round a point: something has struck. Angles in
// degrees, 0 to the right, 90 up; radii in centimetres.
func (s *set) burst(at vec, inner, outer, from, to float64, n int) {
	c := s.Project(at)
	k := s.PixelsPerCM(at)
	for i := range n {
		sin, cos := math.Sincos((from + (to-from)*float64(i)/float64(n-1)) * math.Pi / 180)
		r := outer * (1 - 0.25*float64(i%2))
		pen := pencil(4.5)
		pen.Taper = 30
		s.Canvas.Stroke([]ink.Pt{{X: c.X + inner*k*cos, Y: c.Y - inner*k*sin}, {X: c.X + r*k*cos, Y: c.Y - r*k*sin}}, pen)
	}
}

// tremble draws little waves on both sides of a thing that shivers.
func (s *set) tremble(at vec, reach, height float64) {
	for _, side := range []float64{-1, 1} {
		for k := range 2 {
			wave := make([]vec, 25)
			for i := range wave {
				t := float64(i)/24 - 0.5
				wave[i] = at.Add(vec{X: side * (reach + height*(0.2*float64(k)+0.055*math.Sin(t*15))), Y: t * height * (1 - 0.3*float64(k))})
			}
			pen := pencil(3.6)
			pen.Taper = 18
			s.Line(wave, pen)
		}
	}
}
