package demo

import (
	"image"

	"stillbeat/assets/internal/stage"
)

// table says where everything stands. Shots start from it and change what has
// moved.
type table struct {
	sugar  sugarBowl
	teapot teapot
	cup    cup
	salt   saltCellar
	lamp   lamp
	spoonA spoon // the catapult
	spoonB spoon // the one that stirs
}

// laid is the table at the start of the film.
func laid() table {
	return table{
		sugar:  newSugarBowl(stage.At(-30, 0, -3)),
		teapot: teapot{pose: stage.At(-8, 0, -8).Turn(-8)},
		cup:    cup{pose: stage.At(20, 0, 0), turn: -40},
		salt:   saltCellar{stage.At(-17, 0, 13)},
		lamp:   standing(stage.At(44, 0, -2)),
		spoonA: spoon{pose: stage.At(-2, 0, 17).Turn(6)},
		spoonB: spoon{pose: stage.At(32, 0, 15).Turn(-14)},
	}
}

// poured is the table once the cup is full.
func poured() table {
	t := laid()
	t.cup.fill = 1
	return t
}

// opened is the table once the sugar bowl has given up its lump.
func opened() table {
	t := poured()
	t.sugar.open, t.sugar.holding = true, false
	t.sugar.lid = stage.At(-37, -7.8, 8)
	return t
}

// built is the table with the catapult, its spoon at deg degrees; negative is
// bowl down.
func built(deg float64) table {
	t := opened()
	t.salt = saltCellar{stage.At(fulcrum.X, 0, fulcrum.Z-7).Pitch(90, vec{Z: 2.9})}
	t.spoonA = spoon{pose: stage.At(fulcrum.X-1, fulcrum.Y, fulcrum.Z).Lean(deg, vec{X: 1})}
	return t
}

// fulcrum is where the spoon rests on the salt cellar.
var fulcrum = vec{X: -18, Y: 5.2, Z: 15}

// Angles of the catapult, degrees.
const (
	bowlDown = -25.0
	sprung   = 27.0
)

// fired is the table after the launch: the teapot sits where it fell.
func fired() table {
	t := built(sprung)
	t.teapot = teapot{pose: stage.At(-5, 0.9, 17).Turn(-8).Lean(3, vec{X: 5})}
	return t
}

// addTo puts everything into the picture.
func (t table) addTo(s *set) {
	t.sugar.addTo(s)
	t.teapot.addTo(s)
	t.cup.addTo(s)
	t.salt.addTo(s)
	t.lamp.addTo(s)
	t.spoonA.addTo(s)
	t.spoonB.addTo(s)
}

// wide is the camera of the establishing shot.
var wide = stage.Camera{Eye: vec{X: 5, Y: 34, Z: 122}, Target: vec{X: 5, Y: 15, Z: 0}, Angle: 27}

// shoot draws a picture: the room, whatever fill puts into it, then what marks
// draws on top, then the grain of the paper.
func shoot(dst *image.RGBA, cam stage.Camera, fill, marks func(s *set)) {
	s := newSet(dst, cam, false)
	fill(s)
	s.Finish()
	if marks != nil {
		marks(s)
	}
	s.Canvas.Paper()
}
