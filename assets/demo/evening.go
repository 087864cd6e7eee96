package demo

import (
	"stillbeat/assets/internal/ink"
)

// nightfall darkens the whole picture but for the cone of light under the lamp
// and the pool it makes on the table.
func (s *set) nightfall(l lamp) {
	head := l.headPose()
	unit := s.Canvas.Unit
	mouth := head.Apply(vec{Y: -9})
	foot := vec{X: mouth.X + (head.O.X-mouth.X)*-2.2}
	pool := make([]vec, 48)
	rim := make([]vec, 48)
	for i := range pool {
		round := turned(pose{X: vec{X: 1}, Y: vec{Y: 1}, Z: vec{Z: 1}}, 1, 0, float64(i)*7.5)[0]
		pool[i] = vec{X: foot.X + 25*round.X, Z: foot.Z + 22*round.Z}
		rim[i] = head.Apply(vec{X: 7.8 * round.X, Y: -9, Z: 7.8 * round.Z})
	}
	cone := []vec{rim[24], rim[0], pool[0], pool[24]}
	lit := ink.Blur(s.Mask(cone, rim, pool), int(14*unit))
	glow := ink.Blur(s.Mask(pool), int(90*unit))
	dark := ink.Without(s.Canvas.Whole(), lit)
	s.Canvas.Glaze(dark, ink.RGB(0x9593b2), 1)
	s.Canvas.Glaze(ink.Without(dark, glow), ink.RGB(0xb3b0c8), 0.75)
	s.Canvas.Paint(lit, bulbWarm, 0.18)
}
