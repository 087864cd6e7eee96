package demo

import (
	"stillbeat/assets/internal/ink"
	"stillbeat/assets/internal/stage"
)

// lumpSize is the edge of the sugar lump, cm: a generous lump, because it is
// the hero and must be seen from across the table.
const lumpSize = 2.6

// lump is the last lump of sugar.
type lump struct {
	pose  pose    // the middle of its underside
	ghost float64 // 0 solid; above: an earlier or later position, drawn in pencil and as lightly as this opacity
}

// corners returns the lump's corners: four below, four above.
func (l lump) corners() [8]vec {
	h := lumpSize / 2
	var out [8]vec
	for i, c := range [4]vec{{X: -h, Z: h}, {X: h, Z: h}, {X: h, Z: -h}, {X: -h, Z: -h}} {
		out[i] = l.pose.Apply(c)
		out[i+4] = l.pose.Apply(c.Add(vec{Y: lumpSize}))
	}
	return out
}

// loft is the lump as a solid, for its shadow.
func (l lump) loft() stage.Loft {
	c := l.corners()
	return stage.Loft{c[:4], c[4:]}
}

func (l lump) addTo(s *set) {
	var shadow []stage.Loft
	if l.ghost == 0 {
		shadow = []stage.Loft{l.loft()}
	}
	s.Add(l.pose.O, shadow, func() { l.draw(s) })
}

// draw draws the faces turned to the camera, each in the tone the light gives it.
func (l lump) draw(s *set) {
	c := l.corners()
	middle := l.loft().Centre()
	opacity, line := 1.0, ink.Pen{Width: 1.5}
	if l.ghost > 0 {
		opacity = l.ghost
		line = pencil(2)
		line.Alpha = min(0.35+l.ghost, 1)
	}
	var whole [][]vec
	for _, f := range [6][4]int{{0, 1, 5, 4}, {1, 2, 6, 5}, {2, 3, 7, 6}, {3, 0, 4, 7}, {4, 5, 6, 7}, {3, 2, 1, 0}} {
		face := []vec{c[f[0]], c[f[1]], c[f[2]], c[f[3]]}
		centre := face[0].To(face[2], 0.5)
		normal := centre.Sub(middle).Unit()
		if s.Facing(centre, normal) <= 0 {
			continue
		}
		lit := -normal.Dot(s.Light.Ray.Unit())
		mask := s.Mask(face)
		s.Canvas.Paint(mask, ink.Mix(creamDeep, sugarWhite, min(max(0.55+lit*0.6, 0), 1)), opacity)
		if l.ghost == 0 {
			s.speckle(face)
		}
		for i := range face {
			s.Line(span(face[i], face[(i+1)%4]), line)
		}
		whole = append(whole, face)
	}
	if l.ghost == 0 {
		s.Outline(s.Mask(whole...), 2.4)
	}
}

// speckle dots a face with grains of sugar.
func (s *set) speckle(face []vec) {
	if s.PixelsPerCM(face[0]) < 22*s.Canvas.Unit {
		return
	}
	for i := range 7 {
		u, v := 0.5+0.42*ink.Noise(float64(i)*3.3, 31), 0.5+0.42*ink.Noise(float64(i)*4.1, 32)
		p := face[0].To(face[1], u).To(face[3].To(face[2], u), v)
		r := 1.3 * s.Canvas.Unit
		s.Canvas.Paint(s.Canvas.Mask(ink.Disc(s.Project(p), r, r)), darker(creamDeep, 0.25), 1)
	}
}
