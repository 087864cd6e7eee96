package ui

import (
	"math"
	"slices"

	"fyne.io/fyne/v2/driver/desktop"

	"stillbeat/board"
	"stillbeat/board/picture"
	"stillbeat/board/sketch"
)

// drawChoose chooses strokes, and moves, scales and turns them.
type drawChoose struct {
	pad  *drawPad
	set  []int // the chosen strokes
	mode chooseMode
	from board.Point
	to   board.Point
	box  sketch.Box // about the chosen strokes when they were taken hold of
	hold board.Point
	by   sketch.Map
	keys bool         // Shift was held
	held board.Sketch // with what erasers left of the chosen strokes, while they are held
	all  []int        // the pieces in that
	wet  [3]*picture.Wet
	left map[board.PanelID][]board.Stroke // what was chosen on a panel when it was left
}

// drawer is how the film draws strokes.
var drawer = sketch.Drawer{Course: picture.Course, Paint: picture.PaintStrokes}

// chooseMode is what is going on with the chosen strokes.
type chooseMode int

const (
	chooseIdle chooseMode = iota
	chooseBox
	chooseMoves
	chooseScales
	chooseTurns
)

// handles returns the corners of a box and, last, where it is turned.
func handles(b sketch.Box, above float64) [5]board.Point {
	return [5]board.Point{{X: b.X0, Y: b.Y0}, {X: b.X1, Y: b.Y0}, {X: b.X1, Y: b.Y1}, {X: b.X0, Y: b.Y1}, {X: (b.X0 + b.X1) / 2, Y: b.Y0 - above}}
}

// turnAbove is how far above the box it is turned, in reaches.
const turnAbove = 2.6

// around is the box about the chosen strokes.
func (c *drawChoose) around(reach float64) sketch.Box {
	return sketch.Around(c.pad.sketch.Strokes, c.set).Grown(reach / 2)
}

// handleAt returns which handle a point is on, -1 for none.
func (c *drawChoose) handleAt(p board.Point, reach float64) int {
	if len(c.set) == 0 {
		return -1
	}
	for i, h := range handles(c.around(reach), turnAbove*reach) {
		if math.Hypot(p.X-h.X, p.Y-h.Y) <= reach {
			return i
		}
	}
	return -1
}

// Down takes hold of a handle, the chosen strokes, or another stroke.
func (c *drawChoose) Down(p board.Point, g grip) {
	s := c.pad.sketch.Strokes
	c.from, c.to, c.by, c.keys = p, p, sketch.Shift(0, 0), g.held&shift != 0
	if h := c.handleAt(p, g.reach); h >= 0 {
		c.box = c.around(g.reach)
		c.mode = chooseScales
		if h == 4 {
			c.mode, c.hold = chooseTurns, c.box.Middle()
		} else {
			c.hold = handles(c.box, 0)[(h+2)%4]
		}
		c.lift()
		return
	}
	hit := sketch.Hit(s, p, g.reach/2, c.pad.seen())
	inside := len(c.set) > 0 && c.around(g.reach).Holds(p)
	switch {
	case hit >= 0 && c.keys:
		if i := slices.Index(c.set, hit); i >= 0 {
			c.set = slices.Delete(slices.Clone(c.set), i, i+1)
		} else {
			c.set = append(slices.Clone(c.set), hit)
		}
		c.pad.face.Present()
	case hit >= 0 || inside:
		if !inside && !slices.Contains(c.set, hit) {
			c.set = []int{hit}
			c.pad.face.Present()
		}
		c.mode, c.box = chooseMoves, c.around(g.reach)
		c.lift()
	default:
		c.mode = chooseBox
		if !c.keys {
			c.set = nil
		}
	}
}

// lift takes the chosen strokes off their layers, so that they can be drawn
// over them as they move: as they look, without what was erased of them.
func (c *drawChoose) lift() {
	c.held, c.all = sketch.Cut(c.pad.sketch, c.set, drawer)
	e := c.pad.easel
	e.Put(sketch.Without(c.pad.sketch, c.set))
	for _, l := range board.Layers {
		c.wet[l] = picture.NewWet(e.layers[l], board.Stroke{})
	}
	c.lay()
}

// lay draws them where they are now.
func (c *drawChoose) lay() {
	for _, l := range board.Layers {
		var on []board.Stroke
		for _, k := range sketch.Chosen(c.held, c.all) {
			if k.Layer == l {
				on = append(on, c.by.Stroke(k))
			}
		}
		c.pad.easel.Compose(c.wet[l].Put(on))
	}
}

// Drag moves, scales or turns them, or draws a box.
func (c *drawChoose) Drag(p board.Point, g grip) {
	c.to = p
	switch c.mode {
	case chooseMoves:
		c.by = sketch.Shift(p.X-c.from.X, p.Y-c.from.Y)
	case chooseScales:
		part := func(now, was, hold float64) float64 {
			if math.Abs(was-hold) < 1e-6 {
				return 1
			}
			k := (now - hold) / (was - hold)
			if math.Abs(k) < 0.02 {
				k = math.Copysign(0.02, k)
			}
			return min(max(k, -50), 50)
		}
		x, y := part(p.X, c.from.X, c.hold.X), part(p.Y, c.from.Y, c.hold.Y)
		if g.held&shift == 0 { // both alike, unless Shift lets them go
			k := max(math.Abs(x), math.Abs(y))
			x, y = math.Copysign(k, x), math.Copysign(k, y)
		}
		c.by = sketch.Scale(c.hold, x, y)
	case chooseTurns:
		a := math.Atan2(p.Y-c.hold.Y, p.X-c.hold.X) - math.Atan2(c.from.Y-c.hold.Y, c.from.X-c.hold.X)
		if g.held&shift != 0 {
			a = math.Round(a/(math.Pi/12)) * math.Pi / 12
		}
		c.by = sketch.Rotate(c.hold, a)
	default:
		return
	}
	c.lay()
}

// Up keeps where they are.
func (c *drawChoose) Up() {
	mode, by, held, all := c.mode, c.by, c.held, c.all
	c.Lay()
	switch {
	case mode == chooseBox:
		for _, i := range sketch.Within(c.pad.sketch.Strokes, sketch.BoxOf(c.from, c.to), c.pad.seen()) {
			if !slices.Contains(c.set, i) {
				c.set = append(slices.Clone(c.set), i)
			}
		}
		c.pad.face.Present()
	case mode != chooseIdle && by != sketch.Shift(0, 0):
		what := map[chooseMode]string{chooseMoves: "move strokes", chooseScales: "scale strokes", chooseTurns: "turn strokes"}[mode]
		s, set := sketch.Raised(sketch.Change(held, all, by.Stroke), all)
		if c.pad.keep(what, s) {
			c.set = set
			c.pad.refresh()
		}
	}
}

// Lay puts the strokes back on their layers.
func (c *drawChoose) Lay() bool {
	held := c.mode != chooseIdle
	c.mode, c.by = chooseIdle, sketch.Shift(0, 0)
	for _, w := range c.wet {
		if w != nil {
			c.pad.easel.Compose(w.Wash())
		}
	}
	c.wet, c.held, c.all = [3]*picture.Wet{}, board.Sketch{}, nil
	if held {
		c.pad.easel.Put(c.pad.sketch)
	}
	return held
}

// Drop lays the strokes back, or chooses none.
func (c *drawChoose) Drop() bool {
	if c.Lay() {
		return true
	}
	had := len(c.set) > 0
	c.set = nil
	return had
}

// leave notes what was chosen on a panel, for the one after it.
func (c *drawChoose) leave(id board.PanelID) {
	c.left = map[board.PanelID][]board.Stroke{id: sketch.Chosen(sketch.Cut(c.pad.sketch, c.set, drawer))}
}

// keep lets go of the strokes where others stand in their places now: there were
// so many.
func (c *drawChoose) keep(were int) {
	if were != len(c.pad.sketch.Strokes) {
		c.set = nil
	}
}

// Hover shows what would be taken hold of.
func (c *drawChoose) Hover(p board.Point, g grip) desktop.StandardCursor {
	if c.handleAt(p, g.reach) >= 0 || sketch.Hit(c.pad.sketch.Strokes, p, g.reach/2, c.pad.seen()) >= 0 {
		return desktop.PointerCursor
	}
	return desktop.DefaultCursor
}

// Paint shows the box that is drawn, and what is chosen with its handles.
func (c *drawChoose) Paint(m marks) {
	reach := gripReach / max(1, m.high)
	if c.mode == chooseBox {
		b := sketch.BoxOf(c.from, c.to)
		m.loop([]board.Point{{X: b.X0, Y: b.Y0}, {X: b.X1, Y: b.Y0}, {X: b.X1, Y: b.Y1}, {X: b.X0, Y: b.Y1}})
	}
	if len(c.set) == 0 {
		return
	}
	box := c.box
	if c.mode == chooseIdle || c.mode == chooseBox {
		box = c.around(reach)
	}
	h := handles(box, turnAbove*reach)
	for i := range h {
		h[i] = c.by.Of(h[i])
	}
	m.loop(h[:4])
	top := c.by.Of(board.Point{X: (box.X0 + box.X1) / 2, Y: box.Y0})
	m.edge(top, h[4])
	for i, p := range h {
		m.hold(p, i == 4, onPlate)
	}
}
