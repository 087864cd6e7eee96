package demo

import (
	"image"

	"stillbeat/assets/internal/stage"
)

// opening is the first part: tea without sugar (bars 1 to 5).
func opening() []Panel {
	return []Panel{
		{
			Title: "Four o'clock", Shot: "wide", Beats: 8, Scene: "Tea without sugar", Still: true,
			Action: "The tea table by the window. Nothing moves. Low sun from the left.",
			Sound:  "the tune begins, light and unhurried",
			Draw:   drawFourOClock,
		}, {
			Title: "An empty cup", Shot: "close", Beats: 4,
			Action: "The cup swings its handle aside and leans towards the teapot: it is waiting.",
			Sound:  "china turning on china",
			Draw:   drawEmptyCup,
		}, {
			Title: "Pour", Shot: "medium", Beats: 4,
			Action: "The teapot leans in, slow and heavy. Tea on the first beat, full on the fourth.",
			Sound:  "pouring, rising in pitch",
			Draw:   drawPour,
		}, {
			Title: "Bitter", Shot: "close", Beats: 2,
			Action: "Steam. The cup shudders: no sugar.",
			Sound:  "a rattle of china",
			Draw:   drawBitter,
		}, {
			Title: "One left", Shot: "close, from above", Beats: 2,
			Action: "The sugar bowl tips its lid. At the bottom lies the last lump.",
			Sound:  "lid",
			Draw:   drawOneLeft,
		},
	}
}

func drawFourOClock(dst *image.RGBA) {
	shoot(dst, wide, func(s *set) { laid().addTo(s) }, nil)
}

func drawEmptyCup(dst *image.RGBA) {
	cam := stage.Camera{Eye: vec{X: 13, Y: 19, Z: 48}, Target: vec{X: 18.5, Y: 5.6, Z: 0}, Angle: 27}
	t := laid()
	t.cup.lean, t.cup.turn = -9, -58
	shoot(dst, cam, func(s *set) { t.addTo(s) }, func(s *set) {
		s.arrow(turned(t.cup.pose, 12, 1, 8, 34, 60)...)
	})
}

// turned returns points round an object's axis at radius r and height h.
func turned(p pose, r, h float64, degrees ...float64) []vec {
	out := make([]vec, len(degrees))
	for i, d := range degrees {
		out[i] = p.Turn(-d).Apply(vec{X: r, Y: h})
	}
	return out
}

func drawPour(dst *image.RGBA) {
	cam := stage.Camera{Eye: vec{X: 4, Y: 21, Z: 74}, Target: vec{X: 7, Y: 11.5, Z: 0}, Angle: 29}
	t := laid()
	t.cup.fill, t.cup.waves = 0.7, 2
	t.teapot.pose = stage.At(0, 0, 0).Lean(36, vec{})
	tip := t.teapot.spoutTip()
	t.teapot.pose = t.teapot.pose.Move(16.6-tip.X, 14-tip.Y, 0.5-tip.Z)
	shoot(dst, cam, func(s *set) {
		t.addTo(s)
		s.Add(vec{X: 19, Z: 1}, nil, func() {
			s.pour(t.teapot.spoutTip(), t.cup)
		})
	}, func(s *set) {
		s.arrow(vec{X: 8.5, Y: 27.5, Z: 2}, vec{X: 13, Y: 23, Z: 2}, vec{X: 14.8, Y: 17.6, Z: 2})
		s.steam(vec{X: 21.5, Y: 9.6}, 9, 2)
	})
}

func drawBitter(dst *image.RGBA) {
	cam := stage.Camera{Eye: vec{X: 21, Y: 29, Z: 42}, Target: vec{X: 20, Y: 8, Z: 0}, Angle: 27}
	t := poured()
	t.cup.lean, t.cup.waves = 5, 3
	shoot(dst, cam, func(s *set) { t.addTo(s) }, func(s *set) {
		s.steam(t.cup.mouth().Add(vec{Y: 0.4}), 11, 3)
		s.tremble(vec{X: 20, Y: 5}, 10, 6)
	})
}

func drawOneLeft(dst *image.RGBA) {
	cam := stage.Camera{Eye: vec{X: -34, Y: 38, Z: 30}, Target: vec{X: -27.5, Y: 7, Z: -3}, Angle: 30}
	t := poured()
	t.sugar.open = true
	t.sugar.lid = t.sugar.pose.Lean(34, vec{Y: 8}).Move(12, 4, -1)
	shoot(dst, cam, func(s *set) { t.addTo(s) }, func(s *set) {
		s.arrow(vec{X: -31, Y: 10, Z: -9}, vec{X: -28.5, Y: 14, Z: -10}, vec{X: -24.5, Y: 15.5, Z: -10})
	})
}
