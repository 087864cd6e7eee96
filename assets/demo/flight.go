package demo

import (
	"image"

	"stillbeat/assets/internal/stage"
)

// flight is the third part: the launch, and where it ends (bars 10 to 13).
func flight() []Panel {
	return []Panel{
		{
			Title: "The teapot gathers itself", Shot: "medium, low", Beats: 2, Scene: "The flight", Rig: true,
			Action: "Up on its heel, and off the table: the heaviest thing in the room is in the air.",
			Sound:  "the tune holds its breath, rising",
			Draw:   drawGather,
		}, {
			Title: "Launch", Shot: "medium, low", Beats: 2, Same: true, Rig: true,
			Action: "Down on the handle. Two frames of contact. Lid up, lump away, everything jumps.",
			Sound:  "thud, and a rush of air",
			Draw:   drawLaunch,
		}, {
			Title: "Flight", Shot: "wide", Beats: 4, Rig: true, Way: flightWay(),
			Action: "Over the whole table. Fast, slow at the top, fast again: the drawings bunch up where it is slow.",
			Sound:  "bells, up and over",
			Draw:   drawFlight,
		}, {
			Title: "Past the cup", Shot: "overhead", Beats: 2, Rig: true,
			Action: "From the ceiling: the lump sails over the cup and does not come down.",
			Sound:  "the bells lose heart",
			Draw:   drawPast,
		}, {
			Title: "Not the cup", Shot: "close", Beats: 2,
			Action: "It lands on the lamp, on one corner. The shade dips and comes back.",
			Sound:  "one clear bell",
			Draw:   drawNotTheCup,
		}, {
			Title: "Nobody moves", Shot: "wide, square on", Beats: 4, Still: true,
			Action: "Hold. Not a thing moves, not even the steam.",
			Sound:  "silence",
			Draw:   drawHush,
		},
	}
}

func drawGather(dst *image.RGBA) {
	cam := stage.Camera{Eye: vec{X: -9, Y: 11, Z: 84}, Target: vec{X: -6, Y: 14.6, Z: 10}, Angle: 32}
	t := built(bowlDown)
	t.teapot = teapot{pose: stage.At(-5, 13.5, 16).Turn(-6).Lean(-13, vec{}), lidLift: 0.9, lidTilt: -4}
	shoot(dst, cam, func(s *set) {
		t.addTo(s)
		lump{pose: riding(t.spoonA)}.addTo(s)
	}, func(s *set) {
		s.tremble(t.spoonA.bowl().Add(vec{Y: 1.4}), 3.4, 3)
		s.arrow(vec{X: -26, Y: 11, Z: 14}, vec{X: -28.6, Y: 17.5, Z: 14}, vec{X: -27, Y: 24, Z: 14})
	})
}

func drawLaunch(dst *image.RGBA) {
	cam := stage.Camera{Eye: vec{X: -9, Y: 11, Z: 84}, Target: vec{X: -6, Y: 13, Z: 10}, Angle: 32, Roll: -4}
	t := fired()
	t.teapot.lidLift, t.teapot.lidTilt = 5, 14
	t.cup.hop, t.cup.lean, t.cup.waves = 1.6, 7, 2
	t.sugar.pose = t.sugar.pose.Move(0, 1.2, 0).Lean(-6, vec{})
	t.spoonB.pose = t.spoonB.pose.Move(0, 1.4, 0)
	from := t.spoonA.bowl()
	shoot(dst, cam, func(s *set) {
		t.addTo(s)
		lump{pose: stage.At(from.X+0.9, from.Y+13, from.Z).Lean(75, vec{})}.addTo(s)
	}, func(s *set) {
		s.burst(vec{X: -5, Y: 1, Z: 19}, 7.5, 12, 190, 214, 4)
		s.burst(vec{X: -5, Y: 1, Z: 19}, 7.5, 12, 326, 350, 4)
		s.streaks(from.Add(vec{X: -0.2, Y: 3}), from.Add(vec{X: 1.4, Y: 11}), 2.8, 3)
		s.streaks(t.teapot.lid().Top().Add(vec{X: -0.6, Y: -10.4}), t.teapot.lid().Top().Add(vec{X: -0.3, Y: -5.8}), 6, 4)
	})
}

func drawFlight(dst *image.RGBA) {
	t := fired()
	t.teapot.pose = t.teapot.pose.Lean(4, vec{X: 5})
	t.cup.lean = 8
	from, to := flightEnds(t)
	const n = 11
	shoot(dst, flightCam, func(s *set) {
		t.addTo(s)
		for i := 1; i < n; i++ {
			u := float64(i) / n
			at := arcAt(from, to, flightHigh, u)
			l := lump{pose: stage.At(at.X, at.Y, at.Z).Lean(u*300, vec{Y: lumpSize / 2}), ghost: 0.25 + 0.5*u}
			if i == 7 {
				l.ghost = 0
			}
			if i <= 7 {
				l.addTo(s)
			}
		}
	}, func(s *set) {
		path := arc(from.Add(vec{Y: 1.3}), to.Add(vec{Y: 1.3}), flightHigh)
		s.trail(path[23:30])
	})
}

func drawPast(dst *image.RGBA) {
	cam := stage.Camera{Eye: vec{X: 5, Y: 92, Z: 8}, Target: vec{X: 12, Y: 0, Z: 5}, Angle: 31}
	t := fired()
	at := vec{X: 19, Y: 46, Z: 7}
	shoot(dst, cam, func(s *set) {
		t.addTo(s)
		lump{pose: stage.At(at.X, at.Y, at.Z).Lean(30, vec{}).Turn(25)}.addTo(s)
	}, func(s *set) {
		s.trail([]vec{{X: -16, Y: 30, Z: 14}, {X: -2, Y: 42, Z: 11}, {X: 10, Y: 46, Z: 8.4}, at.Add(vec{X: -2.6, Z: 0.4})})
		s.arrow(at.Add(vec{X: 3, Y: 1, Z: -0.6}), at.Add(vec{X: 6, Y: 0, Z: -1.3}), at.Add(vec{X: 9, Y: -2, Z: -2}))
	})
}

func drawNotTheCup(dst *image.RGBA) {
	cam := stage.Camera{Eye: vec{X: 22, Y: 43, Z: 56}, Target: vec{X: 32.5, Y: 30.6, Z: -2}, Angle: 22}
	t := fired()
	t.lamp.shoulder, t.lamp.elbow, t.lamp.head = 11, -74, -5
	shoot(dst, cam, func(s *set) {
		t.addTo(s)
		s.Add(t.lamp.pose.O.Add(vec{Z: 1}), nil, func() {
			lump{pose: t.lamp.crown().Move(0.3, 0.2, 0).Turn(20).Lean(24, vec{X: lumpSize / 2})}.draw(s)
		})
	}, func(s *set) {
		s.burst(t.lamp.crown().O.Add(vec{Y: 1}), 3.4, 6.4, 15, 165, 7)
		s.arrow(t.lamp.headPose().Apply(vec{X: -7.6, Y: 0.5}), t.lamp.headPose().Apply(vec{X: -8.8, Y: -2.5}), t.lamp.headPose().Apply(vec{X: -9.8, Y: -5.5}))
	})
}

// onCrown is the lump sitting on the lamp's crown, a hair off the middle.
func onCrown(l lamp) lump { return lump{pose: l.crown().Move(-0.7, 0, 0).Turn(28)} }

func drawHush(dst *image.RGBA) {
	cam := stage.Camera{Eye: vec{X: 16, Y: 18, Z: 118}, Target: vec{X: 14, Y: 17.5, Z: 0}, Angle: 24}
	t := fired()
	t.teapot.pose = t.teapot.pose.Lean(5, vec{X: 5})
	t.cup.lean = 3
	shoot(dst, cam, func(s *set) {
		t.addTo(s)
		s.Add(t.lamp.pose.O.Add(vec{Z: 1}), nil, func() { onCrown(t.lamp).draw(s) })
	}, func(s *set) {
		s.steam(t.cup.mouth(), 9, 1)
	})
}
