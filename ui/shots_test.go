package ui

import (
	"image"
	"strings"
	"testing"

	"stillbeat/board"
)

func TestShotsAndNumbersInTheWindow(t *testing.T) {
	w := openWindow(t)
	bringIn(t, w, 5)
	w.choose(2)
	run(t, w, "A new shot begins here")
	w.choose(4)
	run(t, w, "A new scene begins here")
	if got := strings.Join(w.numbers, " "); got != "1-1A 1-1B 1-2A 1-2B 2-3" {
		t.Errorf("numbers %q", got)
	}
	v := &w.timeline.view
	if got := v.bracketName(4, true); got != "Scene 2 · shot 3" {
		t.Errorf("the bracket says %q", got)
	}
	w.choose(3)
	run(t, w, "Choose the whole shot")
	wantSelection(t, w, 2, 2, 3)
	run(t, w, "Fix the numbers in use")
	w.choose(1)
	run(t, w, "A new shot begins here")
	if got := w.numbers[1]; got != "1-1A" {
		t.Errorf("a shot between 1 and the fixed 2 is %q, want 1-1A", got)
	}
	w.choose(2)
	run(t, w, "One shot with the panel before")
	if got := len(w.board.Shots()); got != 4 {
		t.Errorf("%d shots, want 3 and the end", got)
	}
	img := image.NewRGBA(image.Rect(0, 0, 1000, 240))
	v.width, v.height = 1000, 240
	v.paint(img, 1)
}

func TestMarkersInTheWindow(t *testing.T) {
	w := openWindow(t)
	bringIn(t, w, 3)
	w.seek(36) // on beat 3
	run(t, w, "Put a marker at the playhead")
	w.seek(50)
	run(t, w, "Put a marker at the playhead")
	if m := w.board.Markers; len(m) != 2 || !m[0].Start.Anchored() || m[1].Start.Anchored() {
		t.Fatalf("markers %+v, want one on a beat and one free", m)
	}
	w.seek(0)
	run(t, w, "To the next marker")
	if w.at != 36 {
		t.Errorf("the next marker is at %d, want 36", w.at)
	}
	run(t, w, "To the next marker")
	run(t, w, "To the marker before")
	if w.at != 36 {
		t.Errorf("back at %d, want 36", w.at)
	}
	run(t, w, "Marker at the playhead…")
	if w.win.Canvas().Overlays().Top() == nil {
		t.Error("no dialog to name it")
	}
	run(t, w, "Take the nearest marker out")
	if m := w.board.Markers; len(m) != 1 || w.board.Frame(m[0].Start) != 50 {
		t.Errorf("left %+v", m)
	}
	if w.choose(1); w.board.Panels[1].Into.Kind != board.Cut {
		t.Error("a panel begins with a transition")
	}
	run(t, w, "Into this panel by a dissolve")
	if got := w.board.Panels[1].Into; got != (board.Transition{Kind: board.Dissolve, Frames: 24}) {
		t.Errorf("the transition is %+v", got)
	}
}
