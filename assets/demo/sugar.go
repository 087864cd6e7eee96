package demo

import (
	"stillbeat/assets/internal/ink"
	"stillbeat/assets/internal/stage"
)

// sugarBowl has a lid, and one lump left.
type sugarBowl struct {
	pose    pose
	lid     pose // relative to nothing: where the lid is in the room
	open    bool
	holding bool // the last lump is still inside
}

// newSugarBowl returns a closed bowl.
func newSugarBowl(p pose) sugarBowl { return sugarBowl{pose: p, lid: p, holding: true} }

func (b sugarBowl) addTo(s *set) {
	body := stage.Turned(b.pose, [2]float64{3.4, 0}, [2]float64{3.6, 0.5}, [2]float64{3.6, 0.5},
		[2]float64{5.6, 2}, [2]float64{6.8, 4.6}, [2]float64{6.4, 7}, [2]float64{5.8, 8})
	lid := stage.Turned(b.lid, [2]float64{5.6, 7.8}, [2]float64{6.1, 8.2}, [2]float64{6.1, 8.2}, [2]float64{4.8, 9.4},
		[2]float64{2, 10.3}, [2]float64{0, 10.6})
	ears := [2]stage.Loft{b.ear(-1), b.ear(1)}
	s.Add(b.pose.Apply(vec{Y: 4}), []stage.Loft{body.Loft(), ears[0], ears[1]}, func() {
		s.Solid(rose, 2.8, ears[0])
		s.Solid(rose, 2.8, ears[1])
		s.Painted(rose, 3.2, func() { s.drawBand(body, cream, 3.4, 4.3) }, body.Loft())
		s.drawGlint(body, 5.4, 6.6)
		if b.open {
			s.drawSugarInside(body, b.holding)
		}
	})
	s.Add(b.lid.Apply(vec{Y: 9, Z: 0.1}), []stage.Loft{lid.Loft(), knob(lid, 10.6).Loft()}, func() {
		s.drawLid(rose, lid, 10.6)
	})
}

func (b sugarBowl) ear(side float64) stage.Loft {
	return stage.Tube(b.pose.Path(stage.Curve([]vec{{X: 6 * side, Y: 6.6}, {X: 8.2 * side, Y: 6.8}, {X: 8.4 * side, Y: 5}, {X: 6.2 * side, Y: 4}}, 8)), 0.6)
}

func (s *set) drawSugarInside(body stage.Lathe, holding bool) {
	rim := s.Mask(body.Disc(5.5, 8))
	s.Canvas.Paint(rim, darker(rose, 0.35), 1)
	s.Canvas.Paint(ink.Within(s.Mask(body.Disc(4.8, 1)), rim), darker(rose, 0.18), 1)
	if holding {
		s.Clipped(rim, func() { lump{pose: body.Pose().Move(0.4, 1, 0).Turn(25)}.draw(s) })
	}
	s.Line(loop(body.Disc(5.5, 8)), ink.Pen{Width: 2})
}
