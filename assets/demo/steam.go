package demo

import (
	"math"

	"stillbeat/assets/internal/ink"
)

// steam draws curls rising from at, height centimetres high: a breath of
// white and a thin line that loses itself.
func (s *set) steam(at vec, height float64, curls int) {
	for c := range curls {
		off := (float64(c) - float64(curls-1)/2) * 2.4
		tall := height * (1 - 0.22*math.Abs(off)/2.4)
		line := make([]vec, 49)
		for i := range line {
			t := float64(i) / 48
			sway := (0.5 + 1.7*t) * math.Sin(t*7.4+float64(c)*1.9)
			line[i] = at.Add(vec{X: off*(1-0.3*t) + sway, Y: t * tall, Z: 0.6 * off})
		}
		s.breath(line)
		pen := ink.Pen{Width: 2.3, Taper: 90, Alpha: 0.55, Colour: inkBrown}
		if s.evening {
			pen.Colour, pen.Alpha = frameWhite, 0.8
		}
		s.Line(line, pen)
	}
}

// breath lays soft white along a line.
func (s *set) breath(line []vec) {
	k := s.PixelsPerCM(line[0])
	var puffs [][]ink.Pt
	for i, p := range line {
		t := float64(i) / float64(len(line)-1)
		r := k * (0.35 + 0.9*math.Sin(math.Pi*min(t*1.1, 1)))
		puffs = append(puffs, ink.Disc(s.Project(p), r, r))
	}
	s.Canvas.Paint(ink.Blur(s.Canvas.Mask(puffs...), int(0.55*k)+1), frameWhite, 0.42)
}
