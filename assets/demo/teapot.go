package demo

import (
	"stillbeat/assets/internal/ink"
	"stillbeat/assets/internal/stage"
)

// teapot is the heavy one. Its spout points along its x axis.
type teapot struct {
	pose    pose
	lidLift float64 // how far the lid has jumped, cm
	lidTilt float64 // degrees
}

func (t teapot) addTo(s *set) {
	body := stage.Turned(t.pose, [2]float64{5, 0}, [2]float64{5.2, 0.6}, [2]float64{5.2, 0.6},
		[2]float64{8.4, 2.8}, [2]float64{9.8, 6.8}, [2]float64{8.8, 10.8}, [2]float64{5.6, 13.4}, [2]float64{4.9, 13.8})
	spout := stage.Tube(t.pose.Path(stage.Curve([]vec{{X: 7.5, Y: 4.6}, {X: 12.2, Y: 6.2}, {X: 14.4, Y: 10.2}, {X: 17.6, Y: 13}}, 8)), 2.5, 2.1, 1.5, 1.1)
	handle := stage.Tube(t.pose.Path(stage.Curve([]vec{{X: -7.4, Y: 11.6}, {X: -11.6, Y: 13}, {X: -15.2, Y: 10.6}, {X: -14.4, Y: 6}, {X: -8.6, Y: 4}}, 8)), 1, 0.9, 0.95, 0.8)
	lid := t.lid()
	s.Add(t.pose.Apply(vec{Y: 7}), []stage.Loft{body.Loft(), spout, handle, lid.Loft(), knob(lid, 16.3).Loft()}, func() {
		s.Solid(teal, 3, handle)
		s.Solid(teal, 3, spout)
		s.drawSpoutMouth(t.pose)
		if t.lidLift > 0 {
			s.drawOpening(body, 4.4, 13.7)
		}
		s.Painted(teal, 3.4, func() { s.drawBand(body, tealPale, 7.6, 8.9) }, body.Loft())
		if t.lidLift > 0 {
			s.drawOpening(body, 4.3, 13.8)
		}
		s.drawGlint(body, 9.6, 11.6)
		s.drawLid(teal, lid, 16.3)
	})
}

func (t teapot) lid() stage.Lathe {
	p := t.pose.Lean(t.lidTilt, vec{Y: 14})
	lift := t.pose.Y.Scale(t.lidLift)
	return stage.Turned(p.Move(lift.X, lift.Y, lift.Z), [2]float64{4.6, 13.5}, [2]float64{5.3, 13.9}, [2]float64{5.3, 13.9}, [2]float64{4.4, 15},
		[2]float64{2.2, 16}, [2]float64{0, 16.3})
}

// spoutTip is the lip of the spout.
func (t teapot) spoutTip() vec { return t.pose.Apply(vec{X: 18.4, Y: 13.2}) }

// drawSpoutMouth darkens the end of the spout where it is seen from the front.
func (s *set) drawSpoutMouth(p pose) {
	tip := p.Apply(vec{X: 18.1, Y: 13.4})
	if s.Facing(tip, tip.Sub(p.Apply(vec{X: 16.6, Y: 12.2}))) > -0.1 {
		k := s.PixelsPerCM(tip)
		s.Canvas.Paint(s.Canvas.Mask(ink.Disc(s.Project(tip), 0.5*k, 0.4*k)), darker(teal, 0.6), 1)
	}
}

// drawOpening darkens the hole in the top of a body.
func (s *set) drawOpening(body stage.Lathe, r, h float64) {
	hole := s.Mask(body.Disc(r, h))
	s.Canvas.Paint(hole, darker(teal, 0.6), 1)
	s.Outline(hole, 2)
}
