package ui

import "math"

// handleHalf is half the side of a handle, in units.
const handleHalf = 6

// handle draws a handle: a light disc with a dark rim, seen on any picture.
func (m marks) handle(x, y float64) {
	m.disc(x, y, handleHalf+1.5, guideEdge)
	m.disc(x, y, handleHalf, ink)
	m.disc(x, y, handleHalf-1.5, paperLight)
}

// guide draws a thin line with an edge, seen on any picture.
func (m marks) guide(x0, y0, x1, y1 float64) {
	m.line(x0, y0, x1, y1, 3, guideEdge)
	m.line(x0, y0, x1, y1, 1.2, guideLine)
}

// line draws a straight line of a width.
func (m marks) line(x0, y0, x1, y1, width float64, c tint) {
	long := math.Hypot(x1-x0, y1-y0)
	if long == 0 {
		return
	}
	dx, dy := (x1-x0)/long*width/2, (y1-y0)/long*width/2
	m.shape(c, x0-dy, y0+dx, x1-dy, y1+dx, x1+dy, y1-dx, x0+dy, y0-dx)
}
