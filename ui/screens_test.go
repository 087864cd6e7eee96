package ui

import (
	"image/color"
	"testing"
	"time"

	"fyne.io/fyne/v2"

	"stillbeat/board"
)

// TestScreensShowWhatTheViewerShows opens both other screens.
func TestScreensShowWhatTheViewerShows(t *testing.T) {
	w := fourPanels(t)
	run(t, w, "Full screen")
	run(t, w, "Second window with the picture")
	all := w.viewers()
	if len(all) != 3 {
		t.Fatalf("%d viewers, want 3", len(all))
	}
	for _, f := range []board.Frame{0, 23, 24, 70, 96} {
		w.seek(f)
		// The colour of a panel's picture in writePictures is its number's.
		want := color.RGBA{uint8(board.PanelAt(w.starts, min(f, 95)) * 40), 80, 120, 255}
		right := func(v *viewer) bool {
			return v.shown != nil && v.shown.RGBAAt(v.shown.Rect.Dx()/2, v.shown.Rect.Dy()/2) == want && v.words.Text == all[0].words.Text
		}
		for range 50 { // until the pictures are drawn
			if settle(t, w); right(all[0]) && right(all[1]) && right(all[2]) {
				break
			}
		}
		for i, v := range all {
			if !right(v) {
				t.Errorf("frame %d: screen %d does not show the panel's picture", f, i)
			}
		}
	}
	key := func(s *screen, k fyne.KeyName) { s.win.Canvas().OnTypedKey()(&fyne.KeyEvent{Name: k}) }
	key(w.second, fyne.KeySpace)
	if w.playing == nil {
		t.Error("Space in the second window does not play")
	}
	w.stop()
	key(w.second, fyne.KeyF11)
	if !w.second.win.FullScreen() {
		t.Error("F11 does not fill the second window's screen")
	}
	key(w.second, fyne.KeyEscape)
	if w.second.win.FullScreen() {
		t.Error("Escape does not leave it")
	}
	key(w.full, fyne.KeyEscape)
	run(t, w, "Second window with the picture")
	if w.full != nil || w.second != nil || len(w.viewers()) != 1 {
		t.Error("the screens are not closed")
	}
}

// TestKeysAndWordsOnAFullScreen: keys with Ctrl work there too, what the foot
// says is said over the picture, and what a command asks for can be seen.
func TestKeysAndWordsOnAFullScreen(t *testing.T) {
	w := fourPanels(t)
	run(t, w, "Full screen")
	press := func(s *screen, c *command) { s.win.Canvas().(fyne.Shortcutable).TypedShortcut(c.shortcut()) }
	press(w.full, w.keys.named["A bar on"])
	if w.at != 48 {
		t.Errorf("a bar on, it is at frame %d, want 48", w.at)
	}
	w.full.words.after = func(time.Duration, func()) func() { return func() {} }
	run(t, w, "In mark at the playhead")
	if got := w.full.words.plate; got.back.Hidden || got.text != w.foot.words.Text {
		t.Errorf("over the picture stands %q, in the foot %q", got.text, w.foot.words.Text)
	}
	w.full.words.after = func(_ time.Duration, do func()) func() { do(); return func() {} }
	w.foot.Say("Tea is ready.")
	if !w.full.words.plate.back.Hidden {
		t.Error("the words stay")
	}
	w.keys.named["A bar on"].key = fyne.KeyF12
	w.rekey()
	if press(w.full, w.keys.named["A bar back"]); w.at != 0 {
		t.Errorf("a bar back, it is at frame %d", w.at)
	}
	if press(w.full, w.keys.named["A bar on"]); w.at != 48 {
		t.Errorf("by its new key a bar on is at frame %d, want 48", w.at)
	}
	press(w.full, w.keys.named["Everything that can be done…"])
	if w.full != nil || w.win.Canvas().Overlays().Top() == nil {
		t.Error("the list of commands opens behind the full screen")
	}
}

// While the picture fills the screen and plays, what is behind it follows now
// and then only; once it stops, all of it is where the playhead is.
func TestTheWindowRestsBehindAFullScreen(t *testing.T) {
	w := fourPanels(t)
	run(t, w, "Full screen")
	w.seek(0)
	w.play(0)
	w.goTo(10, true)
	w.rested = time.Now().Add(time.Hour)
	w.goTo(30, true)
	if at := w.timeline.at; at == 30 || len(w.viewers()) != 1 || w.viewers()[0] != w.full.viewer {
		t.Errorf("the window is kept up: timeline at frame %d, %d viewers", at, len(w.viewers()))
	}
	if got := w.full.viewer.panel; got == nil || got.ID != w.board.Panels[1].ID {
		t.Error("the full screen does not show what is up at frame 30")
	}
	w.rested = time.Now().Add(-restBesides)
	w.goTo(50, true)
	if w.timeline.at != 50 || w.viewer.panel.ID != w.board.Panels[2].ID {
		t.Errorf("a while later: timeline at frame %d", w.timeline.at)
	}
	w.goTo(60, true)
	if !w.resting {
		t.Error("just after, the window does not rest")
	}
	w.stop()
	if w.timeline.at != 60 || len(w.viewers()) != 2 {
		t.Errorf("stopped: timeline at frame %d, %d viewers", w.timeline.at, len(w.viewers()))
	}
	w.play(0)
	w.goTo(61, true)
	if w.restFor != restBesides {
		t.Errorf("beside another screen it rests for %v", w.restFor)
	}
	w.full.win.Close()
	if w.goTo(62, true); w.timeline.at != 62 || w.resting {
		t.Errorf("the full screen closed: timeline at frame %d", w.timeline.at)
	}
	w.stop()
	w.screens = func() int { return 1 }
	if run(t, w, "Full screen"); w.restFor != restFor {
		t.Errorf("behind the only screen it rests for %v", w.restFor)
	}
}
