package ui

import (
	"math"

	"stillbeat/board"
	"stillbeat/board/picture"
)

// letterPart is what lettering is held by.
type letterPart int

const (
	noLetterPart letterPart = iota
	letterBody
	letterTo    // the tip of an arrow or a tail, what a label names
	letterFrom  // the start of an arrow
	letterBend  // the middle of an arrow
	letterWidth // the right edge of words
)

// letterGrip is a handle and where it is.
type letterGrip struct {
	part letterPart
	at   board.Point
}

// letterGrips returns the handles of lettering, those that lie over others last.
func letterGrips(l board.Letter, a board.Aspect) []letterGrip {
	e := picture.ExtentOf(l, a)
	to := board.Point{X: l.At.X + l.To.X, Y: l.At.Y + l.To.Y}
	if l.Kind == board.Arrow {
		return []letterGrip{{letterBend, e.Path[len(e.Path)/2]}, {letterFrom, l.At}, {letterTo, to}}
	}
	grips := []letterGrip{{letterWidth, board.Point{X: e.At.X + e.Half.X, Y: e.At.Y}}}
	if l.Kind == board.Speech || l.Kind == board.Label {
		if l.To == (board.Point{}) { // none yet: it is drawn out of the lower edge
			to = board.Point{X: l.At.X, Y: e.At.Y + e.Half.Y}
		}
		grips = append(grips, letterGrip{letterTo, to})
	}
	return grips
}

// letterUnder returns the uppermost lettering at a point, -1 for none.
func letterUnder(list []board.Letter, a board.Aspect, p board.Point, reach float64) int {
	for k := len(list) - 1; k >= 0; k-- {
		if picture.ExtentOf(list[k], a).Covers(p, reach) {
			return k
		}
	}
	return -1
}

// letterPartUnder returns what a point holds lettering by.
func letterPartUnder(l board.Letter, a board.Aspect, p board.Point, reach float64) letterPart {
	grips := letterGrips(l, a)
	for k := len(grips) - 1; k >= 0; k-- {
		if math.Hypot(p.X-grips[k].at.X, p.Y-grips[k].at.Y) <= reach {
			return grips[k].part
		}
	}
	if picture.ExtentOf(l, a).Covers(p, reach) {
		return letterBody
	}
	return noLetterPart
}

// draggedLetter returns lettering with a part of it dragged from one point to
// another.
func draggedLetter(l board.Letter, a board.Aspect, part letterPart, from, to board.Point) board.Letter {
	dx, dy := to.X-from.X, to.Y-from.Y
	switch part {
	case letterBody:
		l.At.X, l.At.Y = l.At.X+dx, l.At.Y+dy
	case letterTo:
		if l.To == (board.Point{}) {
			l.To = board.Point{X: to.X - l.At.X, Y: to.Y - l.At.Y}
		} else {
			l.To.X, l.To.Y = l.To.X+dx, l.To.Y+dy
		}
		if l.Kind != board.Arrow && picture.ExtentOf(l, a).Covers(board.Point{X: l.At.X + l.To.X, Y: l.At.Y + l.To.Y}, 0) {
			l.To = board.Point{} // back into the words: no tail
		}
	case letterFrom:
		l.At.X, l.At.Y, l.To.X, l.To.Y = l.At.X+dx, l.At.Y+dy, l.To.X-dx, l.To.Y-dy
	case letterBend:
		if long := math.Hypot(l.To.X, l.To.Y); long > 0 {
			l.Bend += (dx*l.To.Y - dy*l.To.X) / long
			if math.Abs(l.Bend) < 0.01 {
				l.Bend = 0 // straight
			}
		}
	case letterWidth:
		l.Width = max(l.Em(), l.Wide(a)+2*dx) // its middle stays
	}
	return l
}
