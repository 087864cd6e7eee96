package ui

import (
	"math"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"stillbeat/board"
	"stillbeat/board/motion"
)

// motionTool drags the keys of a path over the picture, or says where on it the
// set is seen.
type motionTool struct {
	f     *motionFace
	held  motionPart
	key   int         // held, or under the pointer; -1 none
	from  board.Point // where it was taken
	taken board.ObjectMove
}

// sightOf returns the sight of a move; where nobody has said one it shows the
// keys as well, to be taken hold of.
func sightOf(t motion.Table) board.Sight {
	t.Rows = slices.Clone(t.Rows)
	for _, k := range t.Move.Keys {
		t.Rows = append(t.Rows, motion.Row{At: k})
	}
	return t.Sight()
}

// motionPart is what is held.
type motionPart int

const (
	noMotionPart motionPart = iota
	motionKey
	motionMiddle // of the set
	motionRuler  // the end of the ruler
)

// rulerLength returns how long a ruler on the set is in millimetres, so that it
// can be seen and taken hold of: 100 mm on most sets.
func rulerLength(s board.Sight) float64 {
	for _, mm := range []float64{2000, 1000, 500, 200, 100, 50, 20, 10, 5, 2} {
		if mm*s.PerMM <= 0.51 {
			return mm
		}
	}
	return 1
}

// rulerEnds returns where in the frame the ruler lies: along the table to the
// right.
func rulerEnds(s board.Sight) (a, z board.Point) {
	return motion.Seen(s, board.Spot{}), motion.Seen(s, board.Spot{X: rulerLength(s)})
}

// draggedKey returns a spot that is seen at a place in the frame; what the
// sight does not show of it stays.
func draggedKey(s board.Sight, was board.Spot, to board.Point) board.Spot {
	sin, cos := math.Sincos(-s.Turn * math.Pi / 180)
	dx, dy := (to.X-s.At.X)/s.PerMM, (to.Y-s.At.Y)/s.PerMM
	x, y := dx*cos-dy*sin, dx*sin+dy*cos
	was.X = rounded(x, 1)
	if s.Top {
		was.Y = rounded(-y, 1)
	} else {
		was.Height = rounded(-y, 1)
	}
	return was
}

// under returns what is near a place: of keys the one chosen first.
func (t *motionTool) under(p board.Point, reach float64) (motionPart, int) {
	table, ok := t.f.table()
	if !ok {
		return noMotionPart, -1
	}
	s := sightOf(table)
	if t.f.sighting.Checked {
		a, z := rulerEnds(s)
		switch {
		case apart(p, z) <= reach:
			return motionRuler, -1
		case apart(p, a) <= reach:
			return motionMiddle, -1
		}
		return noMotionPart, -1
	}
	keys := table.Move.Keys
	for n := range keys {
		k := (t.f.key + n) % len(keys)
		if apart(p, motion.Seen(s, keys[k])) <= reach {
			return motionKey, k
		}
	}
	return noMotionPart, -1
}

// Down takes hold of what is under the pointer; on a dot the film goes there.
func (t *motionTool) Down(p board.Point, g grip) {
	table, ok := t.f.table()
	if !ok || g.second {
		return
	}
	t.held, t.key = t.under(p, g.reach)
	if t.held == noMotionPart {
		for _, d := range table.Trail(sightOf(table)).Dots {
			if apart(p, d.At) <= g.reach/2 {
				t.f.w.seek(d.Frame)
				return
			}
		}
		return
	}
	if t.held == motionKey {
		t.f.pickKey(t.key)
	}
	t.f.w.desk.CloseEdit()
	t.from, t.taken = p, table.Move
	t.taken.Sight = sightOf(table) // which may else follow what is dragged
}

// Drag moves what is held.
func (t *motionTool) Drag(p board.Point, g grip) {
	if t.held == noMotionPart {
		return
	}
	m, s := t.taken, t.taken.Sight
	t.f.w.do(t.f.edited(func(to *board.ObjectMove) {
		to.Sight = s
		switch t.held {
		case motionKey:
			at := motion.Seen(s, m.Keys[t.key])
			to.Keys[t.key] = draggedKey(s, m.Keys[t.key], board.Point{X: at.X + p.X - t.from.X, Y: at.Y + p.Y - t.from.Y})
		case motionMiddle:
			to.Sight.At = clean(board.Point{X: s.At.X + p.X - t.from.X, Y: s.At.Y + p.Y - t.from.Y})
		case motionRuler:
			a, z := rulerEnds(s)
			z = board.Point{X: z.X + p.X - t.from.X, Y: z.Y + p.Y - t.from.Y}
			if n, err := motion.SightThrough(board.Spot{}, board.Spot{X: rulerLength(s)}, a, z, s.Top); err == nil {
				if g.held&shift == 0 && math.Abs(n.Turn) < 2 {
					n.Turn = 0
				}
				to.Sight.PerMM, to.Sight.Turn = rounded(n.PerMM, 7), rounded(n.Turn, 2)
			}
		}
	}))
}

// Up lets go: the drag is one step to undo.
func (t *motionTool) Up() {
	t.held = noMotionPart
	t.f.w.desk.CloseEdit()
}

// Hover shows what would be taken.
func (t *motionTool) Hover(p board.Point, g grip) desktop.StandardCursor {
	part, key := t.under(p, g.reach)
	if key != t.key {
		t.key = key
		t.f.w.surface.Refresh()
	}
	switch part {
	case motionKey:
		return desktop.PointerCursor
	case motionMiddle, motionRuler:
		return desktop.CrosshairCursor
	}
	return desktop.DefaultCursor
}

// typed moves the chosen key by the arrows, a millimetre or with Shift ten, and
// takes it out by Delete.
func (f *motionFace) typed(name fyne.KeyName, held fyne.KeyModifier) bool {
	t, ok := f.table()
	if !ok || f.w.surface.tool == nil || held&^shift != 0 {
		return false
	}
	by := 1.
	if held&shift != 0 {
		by = 10
	}
	var dx, dy float64
	switch name {
	case fyne.KeyLeft:
		dx = -by
	case fyne.KeyRight:
		dx = by
	case fyne.KeyUp:
		dy = by
	case fyne.KeyDown:
		dy = -by
	case fyne.KeyDelete:
		if len(t.Move.Keys) > 2 {
			f.removeKey()
		} else {
			f.w.foot.Say("A path has two keys at least. Remove takes the whole move away.")
		}
		return true
	default:
		return false
	}
	top := sightOf(t).Top
	f.w.do(f.edited(func(m *board.ObjectMove) {
		k := &m.Keys[f.key]
		k.X = rounded(k.X+dx, 1)
		if top {
			k.Y = rounded(k.Y+dy, 1)
		} else {
			k.Height = rounded(k.Height+dy, 1)
		}
	}))
	return true
}
