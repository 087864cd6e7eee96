package demo

import (
	"image"

	"stillbeat/assets/internal/stage"
)

// landing is the last part: the lamp gives the lump to the cup, and the
// evening (bars 14 to 18).
func landing() []Panel {
	return []Panel{
		{
			Title: "The lamp bows", Shot: "medium", Beats: 2, Scene: "Into the cup", Rig: true,
			Action: "A joint gives way. The lamp bends its head; the lump slides, slowly, then falls.",
			Sound:  "a long creak",
			Draw:   drawBow,
		}, {
			Title: "Plop", Shot: "close", Beats: 2,
			Action: "In. The crown stands for two frames and falls back.",
			Sound:  "plop",
			Draw:   drawPlop,
		}, {
			Title: "Round and round", Shot: "close, from above", Beats: 8,
			Action: "The second spoon stirs, one turn to two beats.",
			Sound:  "the first tune again, and a spoon in a cup",
			Draw:   drawStir,
		}, {
			Title: "Evening", Shot: "wide", Beats: 8, Scene: "Evening", Melt: true,
			Action: "Everything is back in its place. The lamp is lit. Only the steam moves, and then nothing.",
			Sound:  "the last chord rings out",
			Draw:   drawEvening,
		},
	}
}

func drawBow(dst *image.RGBA) {
	cam := stage.Camera{Eye: vec{X: 16, Y: 24, Z: 86}, Target: vec{X: 26, Y: 19, Z: 0}, Angle: 27}
	t := fired()
	before := t.lamp.headPose()
	t.lamp.shoulder, t.lamp.elbow, t.lamp.head = 7, -80, -42
	from := t.lamp.crown().Apply(vec{X: -3.4, Y: -0.6})
	shoot(dst, cam, func(s *set) {
		t.addTo(s)
		for i, u := range []float64{0, 0.35, 0.62, 0.85} {
			fall := u * u * 17
			l := lump{pose: stage.At(from.X-0.8*u, from.Y-fall, 0).Lean(-40-60*u, vec{Y: lumpSize / 2}), ghost: 0.25 + 0.15*float64(i)}
			if i == 3 {
				l.ghost = 0
			}
			s.Add(t.lamp.pose.O.Add(vec{Z: 3}), nil, func() { l.draw(s) })
		}
	}, func(s *set) {
		s.arrow(before.Apply(vec{X: 4, Y: 5}), before.Apply(vec{X: 0, Y: 6.4}), before.Apply(vec{X: -5, Y: 4.6}))
		s.steam(t.cup.mouth(), 5, 1)
	})
}

func drawPlop(dst *image.RGBA) {
	cam := stage.Camera{Eye: vec{X: 18, Y: 20, Z: 46}, Target: vec{X: 20, Y: 8.6, Z: 0}, Angle: 28}
	t := fired()
	t.cup.lean, t.cup.hop, t.cup.waves = -4, 0.7, 3
	t.lamp.shoulder, t.lamp.elbow, t.lamp.head = 7, -80, -42
	shoot(dst, cam, func(s *set) { t.addTo(s) }, func(s *set) { s.splash(t.cup) })
}

func drawStir(dst *image.RGBA) {
	cam := stage.Camera{Eye: vec{X: 25, Y: 31, Z: 43}, Target: vec{X: 21.5, Y: 9.4, Z: 0}, Angle: 29}
	t := fired()
	t.cup.waves = 2
	t.lamp.shoulder, t.lamp.elbow = 24, -48
	t.spoonB = spoon{pose: stage.At(23.4, 13.2, -0.6).Lean(-62, vec{}), dip: 4}
	shoot(dst, cam, func(s *set) { t.addTo(s) }, func(s *set) {
		s.steam(t.cup.mouth().Add(vec{X: -3}), 9, 2)
		p := t.cup.pose
		s.arrow(turned(p, 8.2, 11.4, 205, 160, 110, 65, 35)...)
	})
}

func drawEvening(dst *image.RGBA) {
	cam := stage.Camera{Eye: vec{X: 6, Y: 31, Z: 116}, Target: vec{X: 6, Y: 15.5, Z: 0}, Angle: 27}
	t := opened()
	t.sugar = newSugarBowl(stage.At(-27, 0, -3))
	t.salt.pose = stage.At(2, 0, 12)
	t.teapot.pose = stage.At(-7, 0, -6).Turn(-8)
	t.spoonA.pose = stage.At(-19, 0, 15).Turn(10)
	t.spoonB.pose = stage.At(26, 0.9, 9).Turn(24)
	t.lamp.shoulder, t.lamp.elbow, t.lamp.head = 8, -66, 10
	t.lamp.lit = true
	s := newSet(dst, cam, true)
	t.addTo(s)
	s.Finish()
	s.nightfall(t.lamp)
	s.steam(t.cup.mouth(), 13, 2)
	s.Canvas.Paper()
}
