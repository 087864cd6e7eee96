package ui

import (
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"stillbeat/board"
)

func TestMenuOfTheMusicActsAtThePointer(t *testing.T) {
	w := openWindow(t)
	bringIn(t, w, 3)
	v := &w.timeline.view
	w.timeline.MouseDown(&desktop.MouseEvent{Button: desktop.MouseButtonSecondary,
		PointEvent: fyne.PointEvent{Position: fyne.NewPos(float32(v.frameX(30)), float32(v.waveTop()+10))}})
	if w.at != 30 {
		t.Fatalf("the playhead is at frame %d, the pointer at 30", w.at)
	}
	w.win.Canvas().Overlays().Top().Hide()
	w.addMarker()
	if m := w.board.Markers; len(m) != 1 || w.board.Frame(m[0].Start) != 30 {
		t.Errorf("markers %+v, want one at frame 30", m)
	}
}

func TestTheHintFollowsADraggedStart(t *testing.T) {
	w := openWindow(t)
	bringIn(t, w, 3)
	w.do(board.SetStart(1, board.Free(20.0/24)))
	w.foot.said = time.Time{}
	v := &w.timeline.view
	at := func(f board.Frame) *desktop.MouseEvent {
		return &desktop.MouseEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(float32(v.frameX(f)), float32(v.lineY()))}}
	}
	w.timeline.MouseMoved(at(20))
	if got := w.foot.words.Text; !strings.Contains(got, "freely, frame 20") {
		t.Fatalf("on a free start the foot says %q", got)
	}
	press(w, v.frameX(20), v.lineY())
	dragTo(w, v.frameX(24), v.lineY())
	w.timeline.MouseUp(nil)
	if got, want := w.foot.words.Text, w.timeline.hint(1); got != want || !strings.Contains(got, "frame 24") {
		t.Errorf("dragged to a beat the foot says %q, want %q", got, want)
	}
}
