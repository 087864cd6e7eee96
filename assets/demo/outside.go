package demo

import (
	"image"
	"image/color"
	"math"

	"stillbeat/assets/internal/ink"
)

// drawSky paints what is behind the panes: a late afternoon, or dusk with a moon.
func (s *set) drawSky(opening *image.Alpha) {
	high, low := ink.RGB(0xaecaca), ink.RGB(0xf6e3b9)
	if s.evening {
		high, low = ink.RGB(0x39507a), ink.RGB(0xd9937a)
	}
	top := s.Project(vec{Y: window.y1, Z: wallZ}).Y
	bottom := s.Project(vec{Y: window.y0, Z: wallZ}).Y
	s.Canvas.PaintFunc(opening, 1, func(_, y int) color.RGBA {
		t := (float64(y) - top) / (bottom - top)
		return ink.Mix(high, low, min(max(t, 0), 1))
	})
	if s.evening {
		moon := ink.Within(s.outsideDisc(-36, 41, 2.6), opening)
		s.Canvas.Paint(ink.Without(moon, s.outsideDisc(-34.7, 41.7, 2.3)), ink.RGB(0xfff3cf), 1)
		return
	}
	sun := ink.Within(s.outsideDisc(-39, 40, 2.6), opening)
	s.Canvas.Paint(ink.Within(ink.Blur(s.outsideDisc(-39, 40, 4.6), int(12*s.Canvas.Unit)), opening), ink.RGB(0xfff0c4), 0.7)
	s.Canvas.Paint(sun, ink.RGB(0xfff6da), 1)
}

// outsideDisc is the mask of a disc seen through the window.
func (s *set) outsideDisc(x, y, r float64) *image.Alpha {
	c := s.Project(vec{X: x, Y: y, Z: wallZ})
	k := s.PixelsPerCM(vec{X: x, Y: y, Z: wallZ})
	return s.Canvas.Mask(ink.Disc(c, r*k, r*k))
}

// drawHills paints two hills and a row of trees behind the panes.
func (s *set) drawHills(opening *image.Alpha) {
	far, near := ink.RGB(0xa9b596), ink.RGB(0x8a9d78)
	if s.evening {
		far, near = ink.RGB(0x5d6580), ink.RGB(0x444d62)
	}
	s.hill(opening, far, func(x float64) float64 { return 24 + 3.2*math.Sin(x*0.11+1.5) })
	for _, x := range []float64{-15.5, -13, -11.2, -42, -40} {
		k := 1 + 0.3*ink.Noise(x, 9)
		crown := ink.Within(s.Mask(bush(x, 22.5, 1.5*k, 3.2*k)), opening)
		s.Canvas.Paint(crown, ink.Mix(far, near, 0.8), 1)
		s.Outline(crown, 1)
	}
	s.hill(opening, near, func(x float64) float64 { return 19.5 + 2.4*math.Sin(x*0.13+4.2) })
}

// bush is the crown of a tree: an egg standing on its end.
func bush(x, y, rx, ry float64) []vec {
	out := make([]vec, 24)
	for i := range out {
		sin, cos := math.Sincos(2 * math.Pi * float64(i) / 24)
		out[i] = vec{X: x + rx*cos*(1-0.25*sin), Y: y + ry*(1+sin), Z: wallZ - 1}
	}
	return out
}

func (s *set) hill(opening *image.Alpha, col color.RGBA, height func(x float64) float64) {
	shape := []vec{{X: window.x1, Y: window.y0, Z: wallZ - 1}, {X: window.x0, Y: window.y0, Z: wallZ - 1}}
	for x := window.x0; x <= window.x1; x++ {
		shape = append(shape, vec{X: x, Y: height(x), Z: wallZ - 1})
	}
	mask := ink.Within(s.Mask(shape), opening)
	s.Canvas.Paint(mask, col, 1)
	s.Outline(mask, 1.3)
}
