package ui

import (
	"fmt"
	"math"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"stillbeat/board"
)

// dragState is what the pressed button is doing.
type dragState struct {
	mode     dragMode
	start    int
	grab     float64 // x of the press less x of the start
	before   board.Board
	landings []board.Landing
	result   board.Start
	moved    bool
}

type dragMode int

const (
	dragNone dragMode = iota
	dragScrub
	dragStart
	dragOverview
)

type tapMemory struct {
	at    time.Time
	panel int
}

// MouseDown begins a scrub on the rulers and the waveform, a move on a clip,
// a choice on a panel, a scroll on the overview.
func (t *timeline) MouseDown(e *desktop.MouseEvent) {
	if e.Button != desktop.MouseButtonPrimary {
		return
	}
	x, y := float64(e.Position.X), float64(e.Position.Y)
	v := &t.view
	switch {
	case y >= v.overviewTop():
		t.drag = dragState{mode: dragOverview}
		t.overviewTo(x)
	case y < v.waveBottom():
		t.drag = dragState{mode: dragScrub}
		t.scrubTo(x)
	default:
		if i := v.startAt(x, y); i > 0 {
			t.grabStart(i, x)
			return
		}
		if i := v.panelAt(x, y); i >= 0 {
			t.tapPanel(i)
		}
	}
}

func (t *timeline) tapPanel(i int) {
	twice := t.lastTap.panel == i && time.Since(t.lastTap.at) < 400*time.Millisecond
	t.lastTap = tapMemory{time.Now(), i}
	if twice && t.OnOpen != nil {
		t.OnOpen(i)
		return
	}
	if t.OnChoose != nil {
		t.OnChoose(i)
	}
}

func (t *timeline) grabStart(i int, x float64) {
	t.drag = dragState{mode: dragStart, start: i, before: t.view.board, grab: x - t.view.frameX(t.view.starts[i])}
	if t.target != "" {
		t.drag.landings = t.view.board.Landings(t.target)
	}
}

// MouseUp ends what MouseDown began.
func (t *timeline) MouseUp(*desktop.MouseEvent) { t.release() }

// DragEnd ends a drag that left the timeline.
func (t *timeline) DragEnd() { t.release() }

func (t *timeline) release() {
	d := t.drag
	t.drag = dragState{}
	if d.mode != dragStart || !d.moved {
		return
	}
	t.view.board, t.view.starts, t.view.drag = d.before, d.before.Starts(), nil
	t.Refresh()
	if t.OnMove != nil {
		t.OnMove(d.start, d.result)
	}
}

// Dragged goes on with what MouseDown began.
func (t *timeline) Dragged(e *fyne.DragEvent) {
	x := float64(e.Position.X)
	switch t.drag.mode {
	case dragScrub:
		t.scrubTo(x)
	case dragOverview:
		t.overviewTo(x)
	case dragStart:
		t.moveStart(x - t.drag.grab)
	}
}

// reachUnits is how near, in units of width, a dragged start must come to a
// beat to land on it.
const reachUnits = 9

// moveStart shows start t.drag.start at x: on the nearest beat if one is in
// reach and Shift is not held, else free.
func (t *timeline) moveStart(x float64) {
	d, v := &t.drag, &t.view
	b := d.before
	room, err := b.Room(d.start)
	if err != nil {
		return
	}
	if least := b.Rate.ShortestHold() - 1; room.Len() > 2*least {
		room = board.Span{Start: room.Start + least, End: room.End - least}
	}
	f := min(max(b.Rate.At(v.sec(x)+0.5/b.Rate.Float()), room.Start), room.End-1)
	to, landing := board.Free(b.Rate.Seconds(f)), false
	if !shiftHeld() {
		reach := board.Frame(math.Ceil(v.span(reachUnits) * b.Rate.Float()))
		if l, ok := board.NearestLanding(d.landings, f, reach); ok && room.Contains(l.Frame) {
			to, f, landing = l.Start, l.Frame, true
		}
	}
	shown, err := board.SetStart(d.start, to).Apply(b)
	if err != nil {
		return
	}
	d.result, d.moved = to, true
	was := b.Starts()[d.start]
	v.board, v.starts = shown, shown.Starts()
	v.drag = &startDrag{index: d.start, landing: landing, words: landingWords(shown, to, f, f-was)}
	t.Refresh()
}

// landingWords says where a start stands: "bar 3, beat 2 · frame 96 (-4)".
func landingWords(b board.Board, s board.Start, f, moved board.Frame) string {
	place := "free"
	if s.Anchored() {
		place = beatName(b, s.Anchor)
	}
	return fmt.Sprintf("%s · frame %d (%+d)", place, f, moved)
}

// beatName names a place in the music: "bar 3, beat 2 + 1/3".
func beatName(b board.Board, a board.Anchor) string {
	bar, beat := barAndBeat(b.Grid, a.Beat)
	name := fmt.Sprintf("beat %d", beat)
	if bar > 0 {
		name = fmt.Sprintf("bar %d, beat %d", bar, beat)
	}
	if a.Part > 0 {
		name += fmt.Sprintf(" + %d/%d", a.Part, a.Of)
	}
	return name
}

// barAndBeat returns the bar a beat is in and its place there, both from 1.
// Without bars, and before the first, the bar is 0 and the beat is counted
// from the start of the song.
func barAndBeat(g board.Grid, beat int) (bar, place int) {
	last := -1
	for i := 0; i <= beat && i < len(g.Beats); i++ {
		if g.Beats[i].Bar {
			bar, last = bar+1, i
		}
	}
	if last < 0 {
		return 0, beat + 1
	}
	return bar, beat - last + 1
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
		t.zoom(math.Exp(float64(e.Scrolled.DY)/60), float64(e.Position.X))
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
	x, y := float64(e.Position.X), float64(e.Position.Y)
	i := t.view.startAt(x, y)
	t.cursor = desktop.DefaultCursor
	if i > 0 {
		t.cursor = desktop.HResizeCursor
	}
	t.setHover(i)
}

// MouseOut puts the light out.
func (t *timeline) MouseOut() { t.setHover(-1) }

func (t *timeline) setHover(i int) {
	if i == t.view.hover {
		return
	}
	t.view.hover = i
	t.Refresh()
	if t.OnHint != nil {
		t.OnHint(t.hint(i))
	}
}

// hint describes the start under the pointer.
func (t *timeline) hint(i int) string {
	b := t.view.board
	if i < 1 || i > len(b.Panels) {
		return ""
	}
	what, s := "The film ends", b.End
	if i < len(b.Panels) {
		what, s = fmt.Sprintf("Panel %s starts", b.Number(i)), b.Panels[i].Start
	}
	place := "freely"
	if s.Anchored() && b.OnGrid() {
		place = "on " + beatName(b, s.Anchor)
		if s.Anchor.Offset != 0 {
			place += fmt.Sprintf(" %+d frames", s.Anchor.Offset)
		}
	}
	return fmt.Sprintf("%s %s, frame %d. Drag to move it; Shift lets go of the beats.", what, place, t.view.starts[i])
}

func shiftHeld() bool { return modifiers()&shift != 0 }
func ctrlHeld() bool  { return modifiers()&ctrl != 0 }

func modifiers() fyne.KeyModifier {
	if d, ok := fyne.CurrentApp().Driver().(desktop.Driver); ok {
		return d.CurrentKeyModifiers()
	}
	return 0
}
