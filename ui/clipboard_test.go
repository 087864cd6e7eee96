package ui

import (
	"slices"
	"testing"

	"stillbeat/board"
)

func TestPanelsAreCopiedWithinAFilmAndToAnother(t *testing.T) {
	w := openWindow(t)
	bringIn(t, w, 3)
	saveFilm(t, w, "tea")
	w.choose(0)
	w.timeline.OnChoose(2, chooseMore)
	run(t, w, "Copy panels")
	w.choose(1)
	run(t, w, "Paste panels")
	settle(t, w)
	if got := titles(w); got != "a b a c c" {
		t.Errorf("pasted, the panels are %q", got)
	}
	wantSelection(t, w, 2, 2, 3)
	run(t, w, "Cut panels")
	if got := titles(w); got != "a b c" {
		t.Errorf("cut, the panels are %q", got)
	}
	pictures := []board.MediaID{w.board.Panels[0].Picture, w.board.Panels[2].Picture}

	w.openFilm("")
	w.do(board.SetRate(board.FrameRate{Num: 12, Den: 1}))
	run(t, w, "Paste panels")
	settle(t, w)
	if got := titles(w); got != "a c" || !slices.Equal(w.starts, []board.Frame{0, 12, 24}) {
		t.Fatalf("in another film at 12 fps the panels are %q, starting on %v; the foot says %q", got, w.starts, w.foot.words.Text)
	}
	for i, id := range pictures {
		data, err := w.desk.Media(id)
		if w.board.Panels[i].Picture != id || err != nil || len(data) == 0 {
			t.Errorf("picture %d did not come along: %v", i, err)
		}
	}
	for _, text := range []string{"", "words", `{"stillbeat":"panels 1"}`, `{"stillbeat":"panels 1","panels":[{}],"holds":[]}`} {
		w.app.Clipboard().SetContent(text)
		run(t, w, "Paste panels")
		settle(t, w)
		if got := titles(w); got != "a c" {
			t.Errorf("%q on the clipboard made the panels %q", text, got)
		}
	}
	w.app.Clipboard().SetContent(`{"stillbeat":"panels 1","film":"gone.stillbeat","rate":"24","panels":[{"picture":"aa"}],"holds":[4]}`)
	run(t, w, "Paste panels")
	settle(t, w)
	if w.win.Canvas().Overlays().Top() == nil {
		t.Error("nothing says that the film of the pictures is gone")
	}
}
