package ui

import (
	"math"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"stillbeat/board"
)

// dragState is what the pressed button is doing.
type dragState struct {
	mode     dragMode
	start    int     // start or beat
	grab     float64 // x of the press less x of the start
	before   board.Board
	landings []board.Landing
	result   board.Start
	time     float64 // seconds of song, of a beat
	x        float64 // of the press
	alone    bool    // a press on one of several chosen panels: let go without a drag it is chosen alone
	moved    bool
}

type dragMode int

const (
	dragNone dragMode = iota
	dragScrub
	dragStart
	dragOverview
	dragBeat
	dragPanel
	dragPan
)

// choice is how a panel is chosen.
type choice int

const (
	chooseOne  choice = iota // alone
	chooseRun                // with all up to it (Shift)
	chooseMore               // as well, or no more (Ctrl)
)

type tapMemory struct {
	at    time.Time
	panel int
}

// MouseDown begins a scrub on the rulers and the waveform, a move on a clip,
// a choice on a panel, a scroll on the overview.
func (t *timeline) MouseDown(e *desktop.MouseEvent) {
	x, y := inText(e.Position)
	v := &t.view
	switch {
	case e.Button == desktop.MouseButtonTertiary:
		t.drag = dragState{mode: dragPan, x: x}
	case e.Button == desktop.MouseButtonSecondary:
		t.openMenu(x, y, e)
	case e.Button != desktop.MouseButtonPrimary:
	case y >= v.overviewTop():
		t.drag = dragState{mode: dragOverview}
		t.overviewTo(x)
	case y >= timeRulerH && y < v.waveTop() && v.beatAt(x) >= 0:
		t.grabBeat(v.beatAt(x))
	case t.tapRemark(x, y):
	case y < v.waveBottom():
		t.drag = dragState{mode: dragScrub}
		t.scrubTo(x)
	default:
		if i := v.startAt(x, y); i > 0 {
			t.grabStart(i, x)
			return
		}
		if i := v.panelAt(x, y); i >= 0 {
			t.tapPanel(i, x)
		}
	}
}

// openMenu asks for the menu of what is under the pointer; a panel that is not
// chosen is chosen first. What the menu of the music does it does at the
// playhead, which comes to the pointer.
func (t *timeline) openMenu(x, y float64, e *desktop.MouseEvent) {
	i := t.view.panelAt(x, y)
	if y < t.view.waveBottom() {
		t.scrubTo(x)
	}
	if i >= 0 && !t.view.isSelected(i) && t.OnChoose != nil {
		t.OnChoose(i, chooseOne)
	}
	if t.OnMenu != nil {
		t.OnMenu(i >= 0, e.AbsolutePosition)
	}
}

func (t *timeline) tapPanel(i int, x float64) {
	if t.OnChoose != nil {
		switch {
		case shiftHeld():
			t.OnChoose(i, chooseRun)
			return
		case ctrlHeld():
			t.OnChoose(i, chooseMore)
			return
		}
	}
	t.drag = dragState{mode: dragPanel, start: i, x: x, alone: len(t.view.selected) > 1 && t.view.isSelected(i)}
	twice := t.lastTap.panel == i && time.Since(t.lastTap.at) < 400*time.Millisecond
	t.lastTap = tapMemory{time.Now(), i}
	if twice && t.OnOpen != nil {
		t.OnOpen(i)
		return
	}
	if t.OnChoose != nil && !t.drag.alone {
		t.OnChoose(i, chooseOne)
	}
}

// MouseUp ends what MouseDown began.
func (t *timeline) MouseUp(*desktop.MouseEvent) { t.release() }

// DragEnd ends a drag that left the timeline.
func (t *timeline) DragEnd() { t.release() }

func (t *timeline) release() {
	d := t.drag
	t.drag = dragState{}
	if !d.moved {
		if d.alone && t.OnChoose != nil {
			t.OnChoose(d.start, chooseOne)
		}
		return
	}
	if d.mode == dragPanel {
		before := t.view.caret
		t.view.caret = -1
		t.Refresh()
		if t.OnOrder != nil && before >= 0 {
			t.OnOrder(d.start, before)
		}
		return
	}
	t.view.board, t.view.starts, t.view.drag = d.before, d.before.Starts(), nil
	t.Refresh()
	switch {
	case d.mode == dragBeat && t.OnBeat != nil:
		t.OnBeat(d.start, d.time)
	case d.mode == dragStart && t.OnMove != nil:
		t.OnMove(d.start, d.result)
	}
}

// Dragged goes on with what MouseDown began.
func (t *timeline) Dragged(e *fyne.DragEvent) {
	x, _ := inText(e.Position)
	switch t.drag.mode {
	case dragScrub:
		t.scrollAtEdge(x)
		t.scrubTo(x)
	case dragOverview:
		t.overviewTo(x)
	case dragStart:
		t.moveStart(x - t.drag.grab)
	case dragBeat:
		t.moveBeat(x)
	case dragPanel:
		t.movePanel(x)
	case dragPan:
		t.pan(x)
	}
}

// pan scrolls with the pointer.
func (t *timeline) pan(x float64) {
	t.whole = false
	t.view.from -= (x - t.drag.x) / t.view.perSec
	t.drag.x = x
	t.keepInSight()
	t.Refresh()
}

// dragSlack is how far the pointer goes, in units of width, before a press on
// a panel is a drag.
const dragSlack = 7

// movePanel shows between which panels the one under way would land.
func (t *timeline) movePanel(x float64) {
	if !t.drag.moved && math.Abs(x-t.drag.x) < dragSlack {
		return
	}
	t.drag.moved = true
	if caret := t.view.gapAt(x); caret != t.view.caret {
		t.view.caret = caret
		t.Refresh()
	}
}

// scrubEdge is how near the pointer comes to an edge of the timeline, in units,
// before what lies beyond scrolls in.
const scrubEdge = 24

// scrollAtEdge scrolls on as the playhead is dragged into an edge, the faster
// the further.
func (t *timeline) scrollAtEdge(x float64) {
	over := max(0, x-(t.view.width-scrubEdge)) + min(0, x-scrubEdge)
	end := t.view.filmSeconds()
	if len(t.view.board.Panels) == 0 {
		end = t.view.length()
	}
	if over > 0 { // the playhead does not go past the film
		over = max(0, min(over, t.view.x(end)-(t.view.width-scrubEdge)))
	}
	if over == 0 || t.whole {
		return
	}
	was := t.view.from
	t.view.from += over / t.view.perSec
	if t.keepInSight(); t.view.from != was {
		t.Refresh()
	}
}

func (t *timeline) scrubTo(x float64) {
	v := &t.view
	f := max(0, v.board.Rate.At(v.sec(x)+0.5/v.board.Rate.Float()))
	if t.OnScrub != nil {
		t.OnScrub(f)
	}
}

func (t *timeline) overviewTo(x float64) {
	t.whole = false
	t.view.from = t.view.overviewSec(x) - t.view.width/t.view.perSec/2
	t.keepInSight()
	t.Refresh()
}

// Scrolled scrolls along the film; with Ctrl held it zooms around the
// pointer.
func (t *timeline) Scrolled(e *fyne.ScrollEvent) {
	if ctrlHeld() {
		x, _ := inText(e.Position)
		t.zoom(math.Exp(float64(e.Scrolled.DY)/60), x)
		return
	}
	t.whole = false
	d := e.Scrolled.DX
	if d == 0 {
		d = e.Scrolled.DY
	}
	t.view.from -= float64(d) * 2.5 / t.view.perSec
	t.keepInSight()
	t.Refresh()
}

// MouseIn, MouseMoved and MouseOut light the clip under the pointer and say
// what can be done there.
func (t *timeline) MouseIn(e *desktop.MouseEvent) { t.MouseMoved(e) }

// MouseMoved follows the pointer.
func (t *timeline) MouseMoved(e *desktop.MouseEvent) {
	if t.drag.mode != dragNone {
		return
	}
	x, y := inText(e.Position)
	i, beat := t.view.startAt(x, y), -1
	if y >= timeRulerH && y < t.view.waveTop() {
		beat = t.view.beatAt(x)
	}
	t.cursor = desktop.DefaultCursor
	if i > 0 || beat >= 0 {
		t.cursor = desktop.HResizeCursor
	}
	t.setHover(i, beat)
	t.hoverRemark(x, y)
}

// MouseOut puts the light out.
func (t *timeline) MouseOut() {
	t.setHover(-1, -1)
	t.hoverRemark(-1, -1)
}

func (t *timeline) setHover(start, beat int) {
	if start == t.view.hover && beat+1 == t.view.beatHover {
		return
	}
	t.view.hover, t.view.beatHover = start, beat+1
	t.Refresh()
	if t.OnHint == nil {
		return
	}
	if beat >= 0 {
		t.OnHint(t.beatHint(beat))
	} else {
		t.OnHint(t.hint(start))
	}
}

func shiftHeld() bool { return modifiers()&shift != 0 }
func ctrlHeld() bool  { return modifiers()&ctrl != 0 }

// modifiers returns what is held along with keys and pointer; tests hold what
// they like.
var modifiers = func() fyne.KeyModifier {
	if d, ok := fyne.CurrentApp().Driver().(desktop.Driver); ok {
		return d.CurrentKeyModifiers()
	}
	return 0
}
