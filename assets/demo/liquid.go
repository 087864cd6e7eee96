package demo

import (
	"math"

	"stillbeat/assets/internal/ink"
	"stillbeat/assets/internal/stage"
)

// pour draws a stream of tea from a spout into a cup.
func (s *set) pour(from vec, c cup) {
	to := c.cupPose().Apply(vec{X: -0.5, Y: c.teaLevel()})
	path := make([]vec, 25)
	for i := range path {
		t := float64(i) / 24
		p := from.To(to, t)
		p.Y = from.Y + (to.Y-from.Y)*(0.25*t+0.75*t*t)
		path[i] = p
	}
	s.Clipped(s.inside(c), func() {
		s.Solid(tea, 2, stage.Tube(path, 0.75, 0.55, 0.5))
		s.Line(shifted(path[2:22], vec{X: -0.2, Z: 0.5}), ink.Pen{Width: 2, Colour: teaLight, Taper: 40})
	})
}

// splash draws the crown that stands up when something drops into the cup: a
// thin wall that rises from the tea, opens, and breaks into points and drops.
func (s *set) splash(c cup) {
	middle := c.cupPose().Apply(vec{Y: c.teaLevel()})
	wall := stage.Turned(stage.At(middle.X, middle.Y, middle.Z), [2]float64{2.4, -0.6}, [2]float64{2.6, 0.8}, [2]float64{3, 2.2}, [2]float64{3.6, 3.4})
	var back, front []stage.Loft
	const points = 13
	for i := range points {
		sin, cos := math.Sincos((float64(i) + 0.3) / points * 2 * math.Pi)
		tall := 5.6 + 1.5*ink.Noise(float64(i)*2.3, 5)
		at := func(r, h float64) vec { return middle.Add(vec{X: r * cos, Y: h, Z: r * sin}) }
		point := stage.Tube(stage.Curve([]vec{at(3.1, 2.9), at(3.6, 4), at(4.5, tall)}, 6), 0.7, 0.38, 0.22)
		size := 0.34 + 0.16*ink.Noise(float64(i)*4.7, 6)
		drop := stage.Tube([]vec{at(5.3, tall+1.5), at(5.32, tall+1.6)}, size)
		if sin < 0 {
			back = append(back, point, drop)
		} else {
			front = append(front, point, drop)
		}
	}
	s.Clipped(s.inside(c), func() {
		s.Solid(tea, 2.2, append(back, wall.Loft())...)
		s.Canvas.Paint(s.Mask(wall.Disc(3.1, 3.1)), darker(tea, 0.3), 1)
		column := stage.Curve([]vec{middle.Add(vec{Y: 1}), middle.Add(vec{Y: 4}), middle.Add(vec{Y: 8.2})}, 6)
		s.Solid(teaLight, 2.2, stage.Tube(column, 1, 0.5, 0.65), stage.Tube([]vec{middle.Add(vec{Y: 10.4}), middle.Add(vec{Y: 10.6})}, 0.6))
		s.Solid(teaLight, 2.2, append(front, wall.Half())...)
	})
}
