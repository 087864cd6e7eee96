package ui

import (
	"fmt"

	"stillbeat/board"
	"stillbeat/board/motion"
)

// Measures of what is painted of a move, in units.
const (
	dotSize    = 2.6  // radius of an exposure's dot
	dotNow     = 5.0  // of the one on screen
	hitSize    = 7.5  // half of the diamond on a beat
	momentSize = 4.6  // of the ring where something happens
	middleSize = 11.0 // arm of the cross in the middle of the set
)

// Paint draws the moves of the panel: the one shown as a way with a dot for each
// exposure, the one on screen large, and a handle on each key, the others as a
// way alone.
func (t *motionTool) Paint(m marks) {
	for _, table := range t.f.tables {
		if table.Move.ID != t.f.id {
			m.otherWay(table.Trail(sightOf(table)))
		}
	}
	table, ok := t.f.table()
	if !ok {
		return
	}
	s := sightOf(table)
	m.trail(table, table.Trail(s))
	if t.f.sighting.Checked {
		m.ruler(s)
		return
	}
	for k, spot := range table.Move.Keys {
		x, y := m.at(motion.Seen(s, spot))
		size := float64(handleSize)
		if k == t.f.key || k == t.key {
			size *= 1.4
		}
		m.knob(x, y, size)
		if k == t.f.key {
			m.fill(x-2, y-2, x+2, y+2, plateVeil)
		}
	}
	if r, within := table.At(t.f.w.at); within {
		x, y := m.at(motion.Seen(s, r.At))
		m.disc(x, y, dotNow+1.5, guideLine)
		m.disc(x, y, dotNow, red)
	}
}

// otherWay draws the way of another move of the panel.
func (m marks) otherWay(trail motion.Trail) {
	for i := 1; i < len(trail.Line); i++ {
		m.line(trail.Line[i-1], trail.Line[i], stroke(1.2), 4, guideLine)
	}
}

// trail draws a move: its way, the dots on it, and what happens where. A
// diamond is on a beat, a ring is not.
func (m marks) trail(t motion.Table, trail motion.Trail) {
	for i := 1; i < len(trail.Line); i++ {
		m.edge(trail.Line[i-1], trail.Line[i])
	}
	for i, d := range trail.Dots {
		x, y := m.at(d.At)
		switch {
		case t.Rows[i].Beat != "":
			m.diamond(x, y, hitSize+1.5, plateVeil)
			m.diamond(x, y, hitSize, green)
		case d.Moment:
			m.disc(x, y, momentSize+1, plateVeil)
			m.disc(x, y, momentSize, guideLine)
			m.disc(x, y, momentSize-1.8, plateVeil)
		default:
			m.disc(x, y, dotSize+1, plateVeil)
			m.disc(x, y, dotSize, guideLine)
		}
	}
	for i, d := range trail.Dots {
		if t.Rows[i].Beat != "" {
			x, y := m.at(d.At)
			m.label(x+hitSize+4, y-9, t.Rows[i].Moment+", "+t.Rows[i].Beat)
		}
	}
}

// diamond fills a square on its corner.
func (p pen) diamond(x, y, size float64, c tint) {
	p.shape(c, x, y-size, x+size, y, x, y+size, x-size, y)
}

// ruler draws where the middle of the set is seen, and a ruler to the
// right of it on the table.
func (m marks) ruler(s board.Sight) {
	a, z := rulerEnds(s)
	m.edge(a, z)
	x, y := m.at(a)
	arm := middleSize / m.high
	m.edge(board.Point{X: a.X - arm, Y: a.Y}, board.Point{X: a.X + arm, Y: a.Y})
	m.edge(board.Point{X: a.X, Y: a.Y - arm}, board.Point{X: a.X, Y: a.Y + arm})
	m.label(x+6, y+8, "middle of the set")
	x, y = m.at(z)
	m.knob(x, y, handleSize)
	m.label(x+6, y-26, fmt.Sprintf("%g mm", rulerLength(s)))
}
