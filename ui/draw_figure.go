package ui

import (
	"math"
	"slices"

	"fyne.io/fyne/v2/driver/desktop"

	"stillbeat/board"
	"stillbeat/board/figure"
	"stillbeat/board/picture"
	"stillbeat/board/sketch"
)

// drawFigure poses jointed figures.
type drawFigure struct {
	pad   *drawPad
	at    int // the figure whose joints are seen, -1 for none
	grip  figureGrip
	joint figure.Joint
	now   figure.Pose // while it is held
	from  board.Point
	moved bool
	wet   *picture.Wet
}

// figureGrip is where a figure is held.
type figureGrip int

const (
	gripNone figureGrip = iota
	gripJoint
	gripPlace // the whole figure
	gripSize
)

func inUnits(p board.Point) figure.Point {
	return figure.Point{X: p.X * board.SketchUnit, Y: p.Y * board.SketchUnit}
}

func inHeights(p figure.Point) board.Point {
	return board.Point{X: p.X / board.SketchUnit, Y: p.Y / board.SketchUnit}
}

// grips returns where a figure is held to be moved, and to be scaled.
func grips(p figure.Pose, reach float64) (place, size board.Point) {
	j := p.Joints()
	place = board.Point{X: float64(p.X) / board.SketchUnit, Y: float64(p.Ground)/board.SketchUnit + 1.8*reach}
	size = inHeights(j[figure.Head])
	size.Y -= p.HeadRadius()/board.SketchUnit + 1.8*reach
	return place, size
}

// held finds what of a figure is nearer to a point than reach.
func (f *drawFigure) held(p board.Point, reach float64) (at int, how figureGrip, j figure.Joint) {
	seen := f.pad.seen()
	order := []int{}
	if f.at >= 0 {
		order = append(order, f.at)
	}
	for i := len(f.pad.sketch.Figures) - 1; i >= 0; i-- {
		order = append(order, i)
	}
	for _, i := range order {
		g := f.pad.sketch.Figures[i]
		if !seen[g.Layer] {
			continue
		}
		if i == f.at {
			place, size := grips(g.Pose, reach)
			if math.Hypot(p.X-place.X, p.Y-place.Y) <= reach {
				return i, gripPlace, 0
			}
			if math.Hypot(p.X-size.X, p.Y-size.Y) <= reach {
				return i, gripSize, 0
			}
		}
		nearest, best := figure.Joint(0), reach
		for j, q := range g.Joints() {
			if q := inHeights(q); math.Hypot(p.X-q.X, p.Y-q.Y) <= best {
				nearest, best, how = figure.Joint(j), math.Hypot(p.X-q.X, p.Y-q.Y), gripJoint
			}
		}
		if how == gripJoint {
			return i, how, nearest
		}
		if sketch.Hit(g.Strokes(), p, reach/2, seen) >= 0 {
			return i, gripPlace, 0
		}
	}
	return -1, gripNone, 0
}

// Down takes hold of a joint or of a figure.
func (f *drawFigure) Down(p board.Point, g grip) {
	f.at, f.grip, f.joint = f.held(p, g.reach)
	f.from, f.moved = p, false
	f.pad.face.Present()
	if f.at < 0 {
		return
	}
	s := f.pad.sketch
	f.now = s.Figures[f.at].Pose
	without := s
	without.Figures = slices.Delete(slices.Clone(s.Figures), f.at, f.at+1)
	e := f.pad.easel
	e.Put(without)
	f.wet = picture.NewWet(e.layers[s.Figures[f.at].Layer], board.Stroke{})
	f.lay()
}

// lay draws the figure as it is held.
func (f *drawFigure) lay() {
	g := f.pad.sketch.Figures[f.at]
	g.Pose = f.now
	f.pad.easel.Compose(f.wet.Put(g.Strokes()))
}

// Drag poses, moves or scales it.
func (f *drawFigure) Drag(p board.Point, g grip) {
	if f.wet == nil {
		return
	}
	if !f.moved && math.Hypot(p.X-f.from.X, p.Y-f.from.Y) < g.reach/3 {
		return // a click that trembles
	}
	was := f.pad.sketch.Figures[f.at].Pose
	f.moved = true
	switch f.grip {
	case gripJoint:
		f.now = f.now.Drag(f.joint, inUnits(p))
	case gripPlace:
		f.now = was.Moved(int32((p.X-f.from.X)*board.SketchUnit), int32((p.Y-f.from.Y)*board.SketchUnit))
	case gripSize:
		ground := float64(was.Ground) / board.SketchUnit
		if d := ground - f.from.Y; math.Abs(d) > 1e-3 {
			f.now = was.Scaled((ground - p.Y) / d)
		}
	}
	f.lay()
}

// Up keeps the pose; a click on a foot pins it or sets it free.
func (f *drawFigure) Up() {
	pose, held, moved := f.now, f.grip, f.moved
	if !f.Lay() {
		return
	}
	if !moved {
		if side := slices.Index([]figure.Joint{figure.NearFoot, figure.FarFoot}, f.joint); held == gripJoint && side >= 0 {
			pose.Pinned[side] = !pose.Pinned[side]
			f.set("pin a foot", pose)
		}
		return
	}
	f.set(map[figureGrip]string{gripJoint: "pose", gripPlace: "move figure", gripSize: "scale figure"}[held], pose)
}

// set keeps a pose of the figure at hand.
func (f *drawFigure) set(what string, p figure.Pose) {
	f.change(what, func(g *board.Figure) { g.Pose = p })
}

// change changes the figure at hand.
func (f *drawFigure) change(what string, do func(*board.Figure)) {
	s := f.pad.sketch
	if f.at < 0 || f.at >= len(s.Figures) {
		return
	}
	s.Figures = slices.Clone(s.Figures)
	do(&s.Figures[f.at])
	f.pad.keep(what, s)
	f.pad.refresh()
}

// Lay puts a figure that is held back on its layer.
func (f *drawFigure) Lay() bool {
	if f.wet == nil {
		return false
	}
	wet := f.wet
	f.wet, f.grip = nil, gripNone
	f.pad.easel.Compose(wet.Wash())
	f.pad.easel.Put(f.pad.sketch)
	return true
}

// Drop lets go of the figure.
func (f *drawFigure) Drop() bool {
	if f.Lay() {
		return true
	}
	had := f.at >= 0
	f.at = -1
	return had
}

// keep lets go of a figure that is not there any more.
func (f *drawFigure) keep() {
	if f.at >= len(f.pad.sketch.Figures) {
		f.at = -1
	}
}

// Hover shows what would be taken hold of.
func (f *drawFigure) Hover(p board.Point, g grip) desktop.StandardCursor {
	if i, _, _ := f.held(p, g.reach); i >= 0 {
		return desktop.PointerCursor
	}
	return desktop.DefaultCursor
}

// Paint shows the joints of the figure at hand, its ground, and how it is moved
// and scaled. Feet that are pinned are square and green.
func (f *drawFigure) Paint(m marks) {
	if f.at < 0 || f.at >= len(f.pad.sketch.Figures) {
		return
	}
	p := f.pad.sketch.Figures[f.at].Pose
	if f.wet != nil {
		p = f.now
	}
	half := 0.7 * float64(p.Size) / board.SketchUnit
	x, y := float64(p.X)/board.SketchUnit, float64(p.Ground)/board.SketchUnit
	m.edge(board.Point{X: x - half, Y: y}, board.Point{X: x + half, Y: y})
	place, size := grips(p, gripReach/max(1, m.high))
	m.hold(place, false, onPlate)
	m.hold(size, false, onPlate)
	for j, q := range p.Joints() {
		side := slices.Index([]figure.Joint{figure.NearFoot, figure.FarFoot}, figure.Joint(j))
		if side >= 0 && p.Pinned[side] {
			m.hold(inHeights(q), false, green)
			continue
		}
		m.hold(inHeights(q), true, straw)
	}
}

// Add puts a figure into the middle of the frame.
func (f *drawFigure) Add() {
	s := f.pad.sketch
	const ground = board.SketchUnit * 36 / 100
	x := int32(len(s.Figures)%5-2) * board.SketchUnit / 4
	if len(s.Figures) == 0 {
		x = 0
	}
	g := board.Figure{Layer: f.pad.layer, Ink: sketch.Inks[f.pad.ink].Colour, Pose: figure.New(x, ground, board.SketchUnit*7/10)}
	s.Figures = append(slices.Clone(s.Figures), g)
	if f.pad.keep("figure", s) {
		f.at = len(s.Figures) - 1
	}
	f.pad.refresh()
}
