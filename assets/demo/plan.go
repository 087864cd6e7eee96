package demo

import (
	"image"

	"stillbeat/assets/internal/stage"
)

// plan is the second part: the cup is too high, so a catapult is built (bars 6
// to 9).
func plan() []Panel {
	return []Panel{
		{
			Title: "Four hops", Shot: "medium", Beats: 4, Scene: "The catapult", Rig: true,
			Action: "The lump hops along the front of the table, one hop to a beat. Each hop: three frames of weight, then up.",
			Sound:  "four taps, each a little higher",
			Draw:   drawFourHops,
		}, {
			Title: "Too high", Shot: "low angle", Beats: 4,
			Action: "The lump rocks back on one edge and looks up. The cup is a tower.",
			Sound:  "the tune climbs and stops on a question",
			Draw:   drawTooHigh,
		}, {
			Title: "The salt has an idea", Shot: "medium", Beats: 2,
			Action: "The salt cellar tips, slowly at first, and falls flat: a fulcrum.",
			Sound:  "a soft knock",
			Draw:   drawSaltFalls,
		}, {
			Title: "The spoon sees it too", Shot: "medium", Beats: 2,
			Action: "The spoon swings over and drops across the salt cellar. It rocks once and settles.",
			Sound:  "a bright ting",
			Draw:   drawSpoonSettles,
		}, {
			Title: "All aboard", Shot: "close", Beats: 4,
			Action: "The lump jumps into the bowl of the spoon, which goes down under it. The handle goes up.",
			Sound:  "tap; the spring is set",
			Draw:   drawAboard,
		},
	}
}

func drawFourHops(dst *image.RGBA) {
	cam := stage.Camera{Eye: vec{X: -8, Y: 21, Z: 86}, Target: vec{X: -7, Y: 9, Z: 5}, Angle: 27}
	t := opened()
	t.salt.pose = t.salt.pose.Lean(7, vec{X: 2.7})
	t.spoonA.pose = t.spoonA.pose.Move(-4, 0, -9)
	stops := []vec{{X: -30, Y: 8, Z: 3}, {X: -22, Z: 24}, {X: -11, Z: 25}, {X: 0, Z: 24}, {X: 10, Z: 22}}
	shoot(dst, cam, func(s *set) {
		t.addTo(s)
		for i, p := range stops[1:] {
			at := stage.At(p.X, p.Y, p.Z).Turn(18)
			if i < 3 {
				lump{pose: at, ghost: 0.3 + 0.12*float64(i)}.addTo(s)
				continue
			}
			lump{pose: at.Move(-1.2, 2.6, 0.2).Lean(-14, vec{})}.addTo(s)
		}
	}, func(s *set) {
		for i := range stops[1:] {
			up := vec{Y: lumpSize + 0.8}
			path := arc(stops[i].Add(up), stops[i+1].Add(up), 5.5)
			if i == 3 {
				path = path[:24]
			}
			s.trail(path)
		}
	})
}

func drawTooHigh(dst *image.RGBA) {
	cam := stage.Camera{Eye: vec{X: 5, Y: 2.4, Z: 27}, Target: vec{X: 14.5, Y: 7, Z: 0}, Angle: 39}
	t := opened()
	t.cup.turn = -10
	t.spoonA.pose = stage.At(-16, 0, 10)
	shoot(dst, cam, func(s *set) {
		t.addTo(s)
		lump{pose: stage.At(7.5, 0, 9).Turn(14).Lean(-16, vec{X: -lumpSize / 2})}.addTo(s)
	}, func(s *set) {
		s.arrow(vec{X: 8.6, Y: 4.6, Z: 8}, vec{X: 10.2, Y: 8, Z: 6}, vec{X: 13.4, Y: 11.4, Z: 3})
	})
}

func drawSaltFalls(dst *image.RGBA) {
	cam := stage.Camera{Eye: vec{X: 10, Y: 17, Z: 58}, Target: vec{X: -14, Y: 5.4, Z: 12}, Angle: 26}
	t := opened()
	standing := stage.At(fulcrum.X, 0, fulcrum.Z-7)
	t.salt.pose = standing.Pitch(48, vec{Z: 2.9})
	t.spoonA.pose = stage.At(-33, 0, 18).Turn(20)
	shoot(dst, cam, func(s *set) {
		t.addTo(s)
		lump{pose: stage.At(-6, 0, 17).Turn(30).Lean(6, vec{})}.addTo(s)
	}, func(s *set) {
		s.arrow(standing.Apply(vec{Y: 13, Z: -1}), standing.Pitch(35, vec{Z: 2.9}).Apply(vec{Y: 13.6}), standing.Pitch(70, vec{Z: 2.9}).Apply(vec{Y: 13}))
	})
}

func drawSpoonSettles(dst *image.RGBA) {
	cam := stage.Camera{Eye: vec{X: -22, Y: 16, Z: 68}, Target: vec{X: -19, Y: 7.6, Z: 14}, Angle: 30}
	t := built(-11)
	t.spoonA.pose = t.spoonA.pose.Move(0, 4.6, 0)
	shoot(dst, cam, func(s *set) {
		t.addTo(s)
		lump{pose: stage.At(-3, 0, 18).Turn(24).Lean(-10, vec{X: -lumpSize / 2})}.addTo(s)
	}, func(s *set) {
		s.arrow(vec{X: -34, Y: 17.5, Z: 15}, vec{X: -26, Y: 19, Z: 15}, vec{X: -19.5, Y: 13.4, Z: 15})
	})
}

func drawAboard(dst *image.RGBA) {
	cam := stage.Camera{Eye: vec{X: -27, Y: 15, Z: 50}, Target: vec{X: -21, Y: 5, Z: 14}, Angle: 26}
	t := built(bowlDown)
	bowl := t.spoonA.bowl()
	shoot(dst, cam, func(s *set) {
		t.addTo(s)
		lump{pose: riding(t.spoonA)}.addTo(s)
	}, func(s *set) {
		s.trail(arc(vec{X: -36, Y: 3.4, Z: 17}, bowl.Add(vec{Y: 3.4}), 4))
		s.arrow(vec{X: -6.6, Y: 3.4, Z: 15}, vec{X: -6.4, Y: 6.2, Z: 15}, vec{X: -7.4, Y: 9, Z: 15})
	})
}

// riding is a lump's pose in the bowl of a spoon.
func riding(sp spoon) pose {
	p := sp.pose
	p.O = sp.bowl()
	return p.Turn(12)
}
