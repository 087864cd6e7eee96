package ui

import (
	"math"

	"stillbeat/board"
)

// box is something that is moved, scaled and turned on the picture: a
// photograph, or what the camera sees. Lengths are heights of the frame.
type box struct {
	mid  board.Point
	w, h float64
	turn float64 // degrees clockwise
}

// boxPart is a part of a box that can be taken hold of.
type boxPart int

const (
	noPart boxPart = iota
	inside
	turnHandle
	corner // and the three after it, clockwise from the upper left
)

// way is a place relative to the middle, turned with the box.
func (b box) way(x, y float64) board.Point {
	sin, cos := math.Sincos(b.turn * math.Pi / 180)
	return board.Point{X: x*cos - y*sin, Y: x*sin + y*cos}
}

// back is the opposite: a place of the frame as the box has it.
func (b box) back(p board.Point) (x, y float64) {
	sin, cos := math.Sincos(b.turn * math.Pi / 180)
	dx, dy := p.X-b.mid.X, p.Y-b.mid.Y
	return dx*cos + dy*sin, dy*cos - dx*sin
}

// corners returns the four of them, clockwise from the upper left.
func (b box) corners() (out [4]board.Point) {
	for k, s := range cornerSides {
		w := b.way(s[0]*b.w/2, s[1]*b.h/2)
		out[k] = board.Point{X: b.mid.X + w.X, Y: b.mid.Y + w.Y}
	}
	return out
}

var cornerSides = [4][2]float64{{-1, -1}, {1, -1}, {1, 1}, {-1, 1}}

// grips returns where the corners are taken hold of: those out of sight at the
// edge of what is seen.
func (b box) grips(v view, reach float64) [4]board.Point {
	c := b.corners()
	for k := range c {
		c[k] = v.near(c[k], reach*0.7)
	}
	return c
}

// handle returns where the box is turned, at the end of a stalk above its upper
// side, or within it where there is no room to be seen.
func (b box) handle(v view, reach float64) board.Point {
	at := func(y float64) board.Point {
		w := b.way(0, y)
		return board.Point{X: b.mid.X + w.X, Y: b.mid.Y + w.Y}
	}
	p := at(-b.h/2 - 2.6*reach)
	if p != v.near(p, reach) {
		p = v.near(at(-b.h/2+2.6*reach), 2.6*reach)
	}
	return p
}

// hit returns the part of the box at a place; turns says whether it can be
// turned.
func (b box) hit(p board.Point, g grip, turns bool) boxPart {
	if turns && apart(p, b.handle(g.view, g.reach)) <= g.reach {
		return turnHandle
	}
	for k, c := range b.grips(g.view, g.reach) {
		if apart(p, c) <= g.reach {
			return corner + boxPart(k)
		}
	}
	if x, y := b.back(p); math.Abs(x) <= b.w/2 && math.Abs(y) <= b.h/2 {
		return inside
	}
	return noPart
}

func apart(a, b board.Point) float64 { return math.Hypot(a.X-b.X, a.Y-b.Y) }

// moved returns the box with a part of it taken from one place to another. A
// corner scales it about the corner across, between the limits of its height.
func (b box) moved(at boxPart, from, to board.Point, low, high float64) box {
	switch {
	case at == inside:
		b.mid.X += to.X - from.X
		b.mid.Y += to.Y - from.Y
	case at == turnHandle:
		angle := func(p board.Point) float64 { return math.Atan2(p.Y-b.mid.Y, p.X-b.mid.X) }
		b.turn = wholeTurn(b.turn + (angle(to)-angle(from))*180/math.Pi)
	case at >= corner:
		k := int(at - corner)
		x0, y0 := b.back(from)
		x1, y1 := b.back(to)
		s := cornerSides[k]
		// Along the diagonal, from the corner across.
		diagonal := b.w*b.w + b.h*b.h
		by := 1 + ((x1-x0)*s[0]*b.w+(y1-y0)*s[1]*b.h)/diagonal
		return b.scaled(k, by, low, high)
	}
	return b
}

// scaled makes the box so many times as large; the corner across from corner k
// stays.
func (b box) scaled(k int, by, low, high float64) box {
	by = min(max(by, low/b.h), high/b.h)
	s := cornerSides[k]
	w := b.way(s[0]*b.w/2*(by-1), s[1]*b.h/2*(by-1))
	return box{board.Point{X: b.mid.X + w.X, Y: b.mid.Y + w.Y}, b.w * by, b.h * by, b.turn}
}

// wholeTurn brings degrees into -180 to 180.
func wholeTurn(d float64) float64 {
	d = math.Mod(d, 360)
	switch {
	case d > 180:
		d -= 360
	case d <= -180:
		d += 360
	}
	return d
}

// upright reports whether the sides lie along those of the frame, and how far
// the box reaches then.
func (b box) upright() (w, h float64, ok bool) {
	switch math.Mod(math.Abs(b.turn), 180) {
	case 0:
		return b.w, b.h, true
	case 90:
		return b.h, b.w, true
	}
	return 0, 0, false
}
