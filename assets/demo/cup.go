package demo

import (
	"image"
	"math"

	"stillbeat/assets/internal/ink"
	"stillbeat/assets/internal/stage"
)

// cup is a teacup on its saucer. Its handle points along its x axis.
type cup struct {
	pose  pose    // of the saucer
	lean  float64 // the cup on its saucer, degrees to the right
	turn  float64 // of the handle, degrees
	fill  float64 // 0 empty to 1 full
	waves int     // rings on the tea
	hop   float64 // how high the cup has jumped above its saucer, cm
}

// cupRim and cupFloor are heights above the cup's foot, cm.
const (
	cupRim   = 7.4
	cupFloor = 1.2
)

// cupPose is where the cup itself stands.
func (c cup) cupPose() pose {
	pivot := vec{X: math.Copysign(2.8, c.lean)}
	return c.pose.Move(0, 0.9+c.hop, 0).Lean(c.lean, pivot).Turn(c.turn)
}

func (c cup) body() stage.Lathe {
	return stage.Turned(c.cupPose(), [2]float64{2.7, 0}, [2]float64{2.9, 0.5}, [2]float64{2.9, 0.5},
		[2]float64{3.9, 1.6}, [2]float64{5, 3.8}, [2]float64{5.3, 5.6}, [2]float64{5.7, cupRim})
}

// mouth is the middle of the cup's rim.
func (c cup) mouth() vec { return c.cupPose().Apply(vec{Y: cupRim}) }

// teaLevel is the height of the tea above the cup's foot.
func (c cup) teaLevel() float64 { return cupFloor + (cupRim-1.3-cupFloor)*c.fill }

func (c cup) addTo(s *set) {
	saucer := stage.Turned(c.pose, [2]float64{4, 0}, [2]float64{5.6, 0.3}, [2]float64{8.6, 1.3}, [2]float64{8.8, 1.6})
	body := c.body()
	handle := stage.Tube(c.cupPose().Path(stage.Curve([]vec{{X: 4.7, Y: 6}, {X: 7.4, Y: 6.4}, {X: 8.6, Y: 4.6}, {X: 7.4, Y: 2.7}, {X: 4.4, Y: 2.6}}, 8)), 0.62)
	s.Add(c.pose.Apply(vec{Y: 3}), []stage.Loft{saucer.Loft(), body.Loft(), handle}, func() {
		s.drawSaucer(saucer)
		contact := ink.Blur(s.Mask(stage.Turned(c.pose, [2]float64{0, 0.6}, [2]float64{1, 0.6}).Disc(3.6, 0.6)), int(5*s.Canvas.Unit))
		s.Canvas.Glaze(contact, s.Light.Shadow, 0.8)
		behind := !s.Nearer(handle.Centre(), c.cupPose().O, 0)
		if behind {
			s.Solid(cream, 2.6, handle)
		}
		s.Painted(cream, 3.2, func() { s.drawBand(body, terracotta, 4.9, 5.8) }, body.Loft())
		s.drawInside(c, body)
		if !behind {
			s.Solid(cream, 2.6, handle)
		}
	})
}

func (s *set) drawSaucer(saucer stage.Lathe) {
	s.Solid(cream, 3, saucer.Loft())
	top := s.Mask(saucer.Disc(8.8, 1.6))
	s.Canvas.Paint(top, lighter(cream, 0.3), 1)
	ring := ink.Without(s.Mask(saucer.Disc(8.1, 1.35)), s.Mask(saucer.Disc(7.3, 1.1)))
	s.Canvas.Paint(ring, terracotta, 0.9)
	s.Canvas.Glaze(ink.Within(ink.Blur(s.Mask(saucer.Disc(5.2, 0.5)), int(4*s.Canvas.Unit)), top), s.Light.Shade, 0.5)
	s.Line(loop(saucer.Disc(5, 0.45)), ink.Pen{Width: 1.3, Alpha: 0.6})
	s.Line(loop(saucer.Disc(8.8, 1.6)), ink.Pen{Width: 1.9})
}

// loop joins a ring's end to its start, so that it can be drawn as a line.
func loop(ring []vec) []vec { return append(append([]vec{}, ring...), ring[0], ring[1]) }

// drawInside paints the inside of the cup down to the tea.
func (s *set) drawInside(c cup, body stage.Lathe) {
	rim := s.Mask(body.Disc(5.45, cupRim))
	s.Canvas.Paint(rim, lighter(cream, 0.2), 1)
	dark := s.Mask(shifted(body.Disc(5.45, cupRim), vec{X: 1.7, Y: 0, Z: 0.2}))
	s.Canvas.Glaze(ink.Within(ink.Blur(ink.Without(rim, dark), int(2*s.Canvas.Unit)), rim), s.Light.Shade, 1)
	if c.fill > 0 {
		s.drawTea(c, body, rim)
	} else {
		floor := ink.Within(s.Mask(body.Disc(3.4, cupFloor)), rim)
		s.Canvas.Glaze(floor, s.Light.Shade, 0.6)
		s.Outline(floor, 1.2)
	}
	s.Line(loop(body.Disc(5.45, cupRim)), ink.Pen{Width: 1.8})
}

// inside is the mask of everything that the front wall of the cup does not hide.
func (s *set) inside(c cup) *image.Alpha {
	body := c.body()
	lip := s.Away(c.mouth()).Scale(0.4) // opens the far lip, which hides nothing
	open := s.Mask(body.Disc(5.45, cupRim), shifted(body.Disc(5.85, cupRim), lip))
	wall := ink.Without(s.Silhouette(body.Loft()), open)
	return ink.Without(s.Canvas.Whole(), wall)
}

func (s *set) drawTea(c cup, body stage.Lathe, rim *image.Alpha) {
	h := c.teaLevel()
	r := body.Radius(h) - 0.3
	surface := ink.Within(s.Mask(body.Disc(r, h)), rim)
	s.Canvas.Paint(surface, tea, 1)
	light := ink.Within(s.Mask(shifted(body.Disc(r*0.86, h), vec{X: -1, Z: 0.6})), surface)
	s.Canvas.Paint(ink.Without(light, s.Mask(shifted(body.Disc(r*0.86, h), vec{X: 0.2, Z: 0}))), teaLight, 0.9)
	s.Outline(surface, 1.8)
	s.Clipped(surface, func() {
		for i := range c.waves {
			k := (float64(i) + 0.8) / (float64(c.waves) + 0.6)
			s.Line(loop(body.Disc(r*k, h)), ink.Pen{Width: 1.4, Colour: lighter(teaLight, 0.5), Seed: i})
		}
	})
}

func shifted(ring []vec, by vec) []vec {
	out := make([]vec, len(ring))
	for i, p := range ring {
		out[i] = p.Add(by)
	}
	return out
}
