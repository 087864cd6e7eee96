package demo

import (
	"image/color"

	"stillbeat/assets/internal/ink"
	"stillbeat/assets/internal/stage"
)

// drawBand paints a glazed band round a body between two heights and rules its
// edges, as far as they are seen.
func (s *set) drawBand(body stage.Lathe, col color.RGBA, h0, h1 float64) {
	mask, edges := s.Belt(body, h0, h1)
	s.Canvas.Paint(mask, col, 0.95)
	for _, edge := range edges {
		s.Line(edge, ink.Pen{Width: 1.5, Taper: 12})
	}
}

// drawGlint leaves the window's reflection on a glazed body between two
// heights: two panes, left of the middle as the camera sees it.
func (s *set) drawGlint(body stage.Lathe, h0, h1 float64) {
	front := s.FrontAngle(body)
	a0, a1 := front+26, front+50
	mid, gap := (a0+a1)/2, (a1-a0)/14
	s.Canvas.Paint(s.Mask(body.Field(h0, h1, a0, mid-gap), body.Field(h0, h1, mid+gap, a1)), frameWhite, 0.85)
}

// knob is the knob of a lid whose top is at height top.
func knob(lid stage.Lathe, top float64) stage.Lathe {
	return stage.Turned(lid.Pose(), [2]float64{0.9, top - 0.3}, [2]float64{0.8, top + 0.4}, [2]float64{1.5, top + 1.4}, [2]float64{0.9, top + 2.3}, [2]float64{0, top + 2.5})
}

// drawLid draws a lid and its knob.
func (s *set) drawLid(col color.RGBA, lid stage.Lathe, top float64) {
	s.Solid(col, 3, lid.Loft())
	s.drawGlint(lid, top-1.6, top-0.8)
	s.Solid(col, 2.8, knob(lid, top).Loft())
}
