package demo

import (
	"math"

	"stillbeat/assets/internal/ink"
	"stillbeat/assets/internal/stage"
)

// saltCellar is the small helpful one. On its side it makes a good fulcrum.
type saltCellar struct{ pose pose }

// saltRadius is how high its middle lies when it is on its side, cm.
const saltRadius = 2.9

func (c saltCellar) addTo(s *set) {
	body := stage.Turned(c.pose, [2]float64{2.7, 0}, [2]float64{2.9, 0.4}, [2]float64{2.9, 2.4}, [2]float64{2.5, 5.2}, [2]float64{2.3, 7})
	head := stage.Turned(c.pose, [2]float64{2.6, 6.8}, [2]float64{2.6, 6.8}, [2]float64{2.6, 7.8}, [2]float64{2.6, 7.8}, [2]float64{2.2, 9}, [2]float64{1.2, 9.7}, [2]float64{0, 9.8})
	s.Add(c.pose.Apply(vec{Y: 4}), []stage.Loft{body.Loft(), head.Loft()}, func() {
		draw := []func(){
			func() { s.Painted(mustard, 2.8, func() { s.drawSaltLabel(body) }, body.Loft()) },
			func() { s.Solid(steel, 2.8, head.Loft()); s.drawHoles(c.pose) },
		}
		if s.Nearer(c.pose.O, c.pose.Apply(vec{Y: 8}), 0) {
			draw[0], draw[1] = draw[1], draw[0]
		}
		draw[0]()
		draw[1]()
	})
}

// drawSaltLabel paints one dot on the belly, so that one sees how it has turned.
func (s *set) drawSaltLabel(body stage.Lathe) {
	dot := make([]vec, 24)
	for i := range dot {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / 24)
		dot[i] = body.Rib(95+22*cos, 3.3+1.1*sin, 3.3+1.1*sin)[0]
	}
	facing := body.Pose()
	if s.Facing(dot[0], facing.Z) > 0.15 {
		mask := s.Mask(dot)
		s.Canvas.Paint(mask, cream, 0.95)
		s.Outline(mask, 1.2)
	}
}

// drawHoles dots the holes in the cap.
func (s *set) drawHoles(p pose) {
	for _, h := range []vec{{Y: 9.75}, {X: -1, Y: 9.5, Z: 0.5}, {X: 1, Y: 9.5, Z: 0.5}, {Y: 9.45, Z: 1.15}, {Y: 9.5, Z: -1}} {
		at := p.Apply(h)
		if s.Facing(at, at.Sub(p.Apply(vec{Y: 7.5}))) < 0.1 {
			continue
		}
		r := 0.17 * s.PixelsPerCM(at)
		s.Canvas.Paint(s.Canvas.Mask(ink.Disc(s.Project(at), r, r*0.7)), inkBrown, 0.9)
	}
}
