package ui

import (
	"image/color"
	"math"

	"stillbeat/board"
)

// Measures of what is painted on the picture, in units.
const (
	handleSize = 9
	dashLength = 8
)

// line draws a line w wide; with a dash, in dashes of that length.
func (m marks) line(a, b board.Point, w, dash float64, c color.Color) {
	x0, y0 := m.at(a)
	x1, y1 := m.at(b)
	m.stroke(x0, y0, x1, y1, w, dash, c)
}

// edge draws a thin line, light on dark so that it is seen on any picture.
func (m marks) edge(a, b board.Point) {
	m.line(a, b, stroke(3.4), 0, guideEdge)
	m.line(a, b, stroke(1.5), 0, guideLine)
}

// stroke draws a line in units, in pieces: a slanting one would else be looked
// for in all of the picture.
func (p pen) stroke(x0, y0, x1, y1, w, dash float64, c color.Color) {
	long := math.Hypot(x1-x0, y1-y0)
	if long < 1e-6 || long > 1e5 {
		return
	}
	piece, gap := 60., 0.
	if dash > 0 {
		piece, gap = dash, dash*0.7
	}
	ux, uy := (x1-x0)/long, (y1-y0)/long
	nx, ny := -uy*w/2, ux*w/2
	for at := 0.; at < long; at += piece + gap {
		z := min(at+piece, long)
		ax, ay, bx, by := x0+ux*at, y0+uy*at, x0+ux*z, y0+uy*z
		p.shape(c, ax+nx, ay+ny, bx+nx, by+ny, bx-nx, by-ny, ax-nx, ay-ny)
	}
}

// outline draws the sides of a box, light on dark so that they are seen on any
// picture.
func (m marks) outline(b box, dash float64) {
	c := b.corners()
	for _, s := range []struct {
		w float64
		c color.Color
	}{{stroke(3.4), guideEdge}, {stroke(1.5), guideLine}} {
		for k := range c {
			m.line(c[k], c[(k+1)%4], s.w, dash, s.c)
		}
	}
}

// handles draws what a box is taken hold of by at its corners.
func (m marks) handles(b box) {
	for _, c := range b.grips(m.view, gripReach/m.high) {
		x, y := m.at(c)
		m.knob(x, y, handleSize)
	}
}

func (m marks) knob(x, y, size float64) {
	m.fill(x-size/2-1, y-size/2-1, x+size/2+1, y+size/2+1, plateVeil)
	m.fill(x-size/2, y-size/2, x+size/2, y+size/2, guideLine)
}

// turner draws the handle that turns a box, with its stalk.
func (m marks) turner(b box) {
	at := b.handle(m.view, gripReach/m.high)
	x, y := m.at(at)
	way := b.way(0, -b.h/2)
	side := board.Point{X: b.mid.X + way.X, Y: b.mid.Y + way.Y}
	m.edge(side, at)
	m.disc(x, y, handleSize*0.75+1, plateVeil)
	m.disc(x, y, handleSize*0.75, guideLine)
}

// label writes a word on a plate of its own, its corner at a place.
func (m marks) label(x, y float64, words string) {
	size := float64(textUnits(12))
	w := m.width(size, false, words)
	m.fill(x, y, x+w+size, y+1.5*size, plateVeil)
	m.text(x+size/2, y+1.1*size, size, false, onPlate, words)
}

// arrow draws an arrow from one place to another.
func (m marks) arrow(from, to board.Point) {
	x0, y0 := m.at(from)
	x1, y1 := m.at(to)
	long := math.Hypot(x1-x0, y1-y0)
	if long < 2*handleSize {
		return
	}
	ux, uy := (x1-x0)/long, (y1-y0)/long
	head := func(size float64, c color.Color) {
		bx, by := x1-ux*size, y1-uy*size
		m.shape(c, x1, y1, bx-uy*size/2, by+ux*size/2, bx+uy*size/2, by-ux*size/2)
	}
	m.stroke(x0, y0, x1-ux*8, y1-uy*8, stroke(3.6), 0, guideEdge)
	head(16, guideEdge)
	m.stroke(x0, y0, x1-ux*8, y1-uy*8, stroke(1.8), 0, guideLine)
	head(12, guideLine)
}

// hintLines draws the lines on which something came to lie, over the frame.
func (m marks) hintLines(h hintLines, wide float64) {
	if !math.IsNaN(h.x) {
		m.line(board.Point{X: h.x, Y: -0.5}, board.Point{X: h.x, Y: 0.5}, stroke(1.5), 0, red)
	}
	if !math.IsNaN(h.y) {
		m.line(board.Point{X: -wide / 2, Y: h.y}, board.Point{X: wide / 2, Y: h.y}, stroke(1.5), 0, red)
	}
}
