package ui

import (
	"testing"

	"stillbeat/board"
)

// At every frame the viewer shows what the film has there, which is what is
// exported: also while panels give way to each other and while the camera moves.
func TestTheViewerShowsTheFilm(t *testing.T) {
	w := openWindow(t)
	bringIn(t, w, 4)
	w.do(board.SetTransition([]int{1}, board.Transition{Kind: board.Dissolve, Frames: 8}))
	w.do(board.SetTransition([]int{3}, board.Transition{Kind: board.Fade, Frames: 6}))
	w.do(board.SetMove([]int{2}, board.CameraMove{To: board.Framing{Width: 0.5}}))
	w.do(board.SetPicture([]int{0}, ""))
	changes := map[board.Frame]bool{}
	for _, f := range w.film.Changes() {
		changes[f] = true
	}
	if len(changes) < 20 {
		t.Fatalf("the film changes on %d frames: neither passages nor the move are in it", len(changes))
	}
	before := w.viewer.shot
	for f := range w.lastFrame() {
		w.seek(f)
		if got, want := w.viewer.shot, w.film.Shot(f); got != want {
			t.Fatalf("at frame %d the viewer shows another picture than the film has", f)
		}
		if f > 0 && (w.viewer.shot != before) != changes[f] {
			t.Errorf("at frame %d the picture changes: %v, in the film %v", f, w.viewer.shot != before, changes[f])
		}
		before = w.viewer.shot
	}
	w.seek(0)
	if !w.viewer.shot.Blank() || w.viewer.words.Text == "" {
		t.Errorf("a blank panel says %q", w.viewer.words.Text)
	}
}
