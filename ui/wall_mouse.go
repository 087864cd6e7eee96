package ui

import (
	"math"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
)

// wallDrag is what the pressed button is doing on the wall.
type wallDrag struct {
	mode  wallMode
	panel int
	x, y  float64 // of the press; when moved, of the pointer
	alone bool    // a press on one of several chosen panels: let go without a drag it is chosen alone
	moved bool
	drift *fyne.Animation // scrolls while the pointer is near the edge
}

type wallMode int

const (
	wallStill wallMode = iota
	wallCarry
	wallPan
	wallBar
)

// MouseDown begins a choice or a drag on a card, a scroll on the strip at the
// right or with the middle button, and opens the menu with the right one.
func (l *wall) MouseDown(e *desktop.MouseEvent) {
	x, y := inText(e.Position)
	v := &l.view
	i := v.panelAt(x, y)
	switch {
	case e.Button == desktop.MouseButtonTertiary:
		l.drag = wallDrag{mode: wallPan, y: y}
	case e.Button == desktop.MouseButtonSecondary:
		l.openMenu(i, e.AbsolutePosition)
	case e.Button != desktop.MouseButtonPrimary:
	case x > v.width-wallBarW && v.end > v.height:
		l.drag = wallDrag{mode: wallBar}
		l.barTo(y)
	case i >= 0:
		l.tapPanel(i, x, y, e.Modifier)
	}
}

// openMenu asks for the menu of a panel; one that is not chosen is chosen
// first.
func (l *wall) openMenu(i int, at fyne.Position) {
	if i < 0 {
		return
	}
	if !l.view.isSelected(i) {
		l.choose(i, chooseOne)
	}
	if l.OnMenu != nil {
		l.OnMenu(at)
	}
}

func (l *wall) choose(i int, how choice) {
	if l.OnChoose != nil {
		l.pressing = true
		l.OnChoose(i, how)
		l.pressing = false
	}
}

func (l *wall) tapPanel(i int, x, y float64, held fyne.KeyModifier) {
	last := l.lastTap
	l.lastTap = tapMemory{}
	switch {
	case held&shift != 0:
		l.choose(i, chooseRun)
		return
	case held&ctrl != 0:
		l.choose(i, chooseMore)
		return
	}
	twice := last.panel == i && time.Since(last.at) < 400*time.Millisecond
	l.lastTap = tapMemory{time.Now(), i}
	if twice {
		if l.OnOpen != nil {
			l.OnOpen(i)
		}
		return
	}
	v := &l.view
	l.drag = wallDrag{mode: wallCarry, panel: i, x: x, y: y, alone: len(v.selected) > 1 && v.isSelected(i)}
	if !l.drag.alone {
		l.choose(i, chooseOne)
	}
}

// MouseUp ends what MouseDown began.
func (l *wall) MouseUp(*desktop.MouseEvent) { l.release() }

// DragEnd ends a drag that left the wall.
func (l *wall) DragEnd() { l.release() }

func (l *wall) release() {
	d, to := l.drag, l.view.caret
	l.drop()
	switch {
	case d.mode != wallCarry:
	case !d.moved && d.alone:
		l.choose(d.panel, chooseOne)
	case d.moved && to.before >= 0 && l.OnOrder != nil:
		l.OnOrder(d.panel, to.before)
	}
}

// drop ends a drag without doing what it was for and reports whether there
// was one.
func (l *wall) drop() bool {
	d := l.drag
	l.drag = wallDrag{}
	if d.drift != nil {
		d.drift.Stop()
	}
	if d.mode == wallStill {
		return false
	}
	if d.moved {
		l.lastTap = tapMemory{}
		l.view.caret, l.view.carried = noGap, wallCarried{}
		l.Refresh()
	}
	return true
}

// Dragged goes on with what MouseDown began.
func (l *wall) Dragged(e *fyne.DragEvent) {
	x, y := inText(e.Position)
	switch l.drag.mode {
	case wallCarry:
		l.carry(x, y)
	case wallBar:
		l.barTo(y)
	case wallPan:
		l.scrollBy(l.drag.y - y)
		l.drag.y = y
	}
}

// carry shows between which cards those being dragged would land.
func (l *wall) carry(x, y float64) {
	d, v := &l.drag, &l.view
	if !d.moved && math.Hypot(x-d.x, y-d.y) < dragSlack {
		return
	}
	d.moved, d.x, d.y = true, x, y
	v.carried = wallCarried{[]int{d.panel}, x, y}
	if v.isSelected(d.panel) {
		v.carried.panels = v.selected
	}
	v.caret = v.gapAt(x, y)
	if d.drift == nil && l.driftSpeed() != 0 {
		d.drift = fyne.NewAnimation(time.Hour, func(float32) { l.driftOn() })
		d.drift.RepeatCount = fyne.AnimationRepeatForever
		d.drift.Start()
	}
	l.Refresh()
}

// driftSpeed is by how much the wall scrolls at each refresh of the screen
// while something is carried near its upper or lower edge, or beyond.
func (l *wall) driftSpeed() float64 {
	const edge = 40
	y, h := l.drag.y, l.view.height
	switch {
	case l.drag.mode != wallCarry || !l.drag.moved:
		return 0
	case y < edge:
		return -min(1, (edge-y)/edge) * 16
	case y > h-edge:
		return min(1, (y-h+edge)/edge) * 16
	}
	return 0
}

func (l *wall) driftOn() {
	by := l.driftSpeed()
	if by == 0 {
		if l.drag.drift != nil {
			l.drag.drift.Stop()
			l.drag.drift = nil
		}
		return
	}
	l.scrollBy(by)
}

// scrollBy scrolls down the wall; what is carried stays at the pointer.
func (l *wall) scrollBy(by float64) {
	v := &l.view
	was := v.scroll
	v.scrollTo(v.scroll + by)
	if was == v.scroll {
		return
	}
	if l.drag.mode == wallCarry && l.drag.moved {
		v.caret = v.gapAt(l.drag.x, l.drag.y)
	}
	l.Refresh()
}

func (l *wall) barTo(y float64) {
	l.view.barTo(y)
	l.Refresh()
}

// Scrolled scrolls the wall; with Ctrl held it zooms around the pointer.
func (l *wall) Scrolled(e *fyne.ScrollEvent) {
	if ctrlHeld() {
		x, y := inText(e.Position)
		l.view.zoomed(math.Exp(float64(e.Scrolled.DY)/140), x, y, false)
		l.zoomDone()
		return
	}
	l.scrollBy(-2.5 * float64(e.Scrolled.DY))
}

// MouseIn, MouseMoved and MouseOut say what is under the pointer.
func (l *wall) MouseIn(e *desktop.MouseEvent) { l.MouseMoved(e) }

// MouseMoved follows the pointer.
func (l *wall) MouseMoved(e *desktop.MouseEvent) {
	if l.OnHint == nil || l.drag.mode != wallStill {
		return
	}
	if i := l.view.panelAt(inText(e.Position)); i >= 0 {
		l.OnHint(l.view.hint(i))
	} else {
		l.OnHint(wallHint)
	}
}

// MouseOut takes the words back.
func (l *wall) MouseOut() {
	if l.OnHint != nil {
		l.OnHint("")
	}
}

const wallHint = "Double click goes to the timeline, dragging moves cards, Ctrl+wheel zooms."
