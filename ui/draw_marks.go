package ui

import "stillbeat/board"

// loop draws thin lines from point to point and back.
func (m marks) loop(p []board.Point) {
	for i := range p {
		m.edge(p[i], p[(i+1)%len(p)])
	}
}

// hold draws a handle in a colour: a square, or a round one.
func (m marks) hold(p board.Point, round bool, c tint) {
	x, y := m.at(p)
	if round {
		m.disc(x, y, 5.5, guideEdge)
		m.disc(x, y, 4, c)
		return
	}
	m.fill(x-5, y-5, x+5, y+5, guideEdge)
	m.fill(x-3.6, y-3.6, x+3.6, y+3.6, c)
}
