package ui

import (
	"image/color"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
)

// screen is a window with nothing but the picture.
type screen struct {
	win    fyne.Window
	viewer *viewer
	words  *saying
	keys   []fyne.Shortcut // those with Ctrl
}

// How long the window rests behind a picture that fills the only screen, and
// one of several: it may stand on another.
const (
	restFor     = 3 * time.Second
	restBesides = 250 * time.Millisecond
)

// rest lets the window rest while the picture plays over all of it: it would
// take as much of the machine again as what is seen. It follows now and then, as
// it may be looked at all the same.
func (w *window) rest(now time.Time) {
	w.resting = w.full != nil && w.playing != nil && now.Sub(w.rested) < w.restFor
	if !w.resting {
		w.rested = now
	}
}

// viewers returns all that show the picture: the window's own, unless it rests,
// and those of other screens. What one shows they all show.
func (w *window) viewers() []*viewer {
	var all []*viewer
	if !w.resting {
		all = append(all, w.viewer)
	}
	for _, s := range []*screen{w.full, w.second} {
		if s != nil {
			all = append(all, s.viewer)
		}
	}
	return all
}

// newScreen opens a window with the picture. Its keys are those of the window,
// except that some are for it: those that own reports to have taken.
func (w *window) newScreen(title string, own func(*screen, fyne.KeyName) bool, closed func()) *screen {
	s := &screen{win: w.app.NewWindow(title), viewer: w.newViewer(), words: newSaying(w.note.after)}
	s.viewer.Alone()
	s.viewer.hides = s.win.FullScreen
	s.win.SetPadded(false)
	s.win.SetContent(container.New(s.words, s.viewer, s.words.plate.back, s.words.plate.words))
	wide, high := w.board.Aspect.Inside(960, 760)
	s.win.Resize(fyne.NewSize(float32(wide), float32(high)))
	s.win.SetOnClosed(func() {
		s.words.stop()
		closed()
		refreshMenus(w.menu, w.commands)
	})
	s.win.Canvas().SetOnTypedKey(func(e *fyne.KeyEvent) {
		if !own(s, e.Name) {
			w.typedKey(e)
			w.seeAsked()
		}
	})
	w.rekeyScreen(s)
	return s
}

// rekeyScreen gives a screen the keys with Ctrl that the commands have now.
func (w *window) rekeyScreen(s *screen) {
	for _, k := range s.keys {
		s.win.Canvas().RemoveShortcut(k)
	}
	s.keys = nil
	for _, c := range w.commands {
		if c.key == "" || c.plain() {
			continue
		}
		k := c.shortcut()
		s.keys = append(s.keys, k)
		s.win.Canvas().AddShortcut(k, func(fyne.Shortcut) {
			if w.win.Canvas().Overlays().Top() == nil {
				c.run()
				w.seeAsked()
			}
		})
	}
}

// seeAsked takes a full screen away that hides what a command asks for.
func (w *window) seeAsked() {
	if w.full != nil && w.win.Canvas().Overlays().Top() != nil {
		w.full.win.Close()
	}
}

// openScreen shows a new screen with the picture that is up.
func (w *window) openScreen(s *screen) {
	s.win.Show()
	w.showFrame(w.at)
	refreshMenus(w.menu, w.commands)
}

// toggleFull fills the screen with the picture, or goes back.
func (w *window) toggleFull() {
	if w.full != nil {
		w.full.win.Close()
		return
	}
	w.note.Away()
	if w.restFor = restFor; w.screens() > 1 {
		w.restFor = restBesides
	}
	w.full = w.newScreen("Stillbeat: full screen", func(s *screen, key fyne.KeyName) bool {
		if key == fyne.KeyEscape {
			s.win.Close()
			return true
		}
		return false
	}, func() { w.full, w.resting = nil, false })
	w.openScreen(w.full)
	w.full.win.SetFullScreen(true)
}

// toggleSecond opens the window for a collaborator's screen, or closes it. The
// key for full screen fills the screen it is on.
func (w *window) toggleSecond() {
	if w.second != nil {
		w.second.win.Close()
		return
	}
	w.second = w.newScreen("Stillbeat: picture", func(s *screen, key fyne.KeyName) bool {
		full := w.keys.named["Full screen"]
		turn := key == full.key && modifiers() == full.mod || key == fyne.KeyEscape && s.win.FullScreen()
		if turn {
			s.win.SetFullScreen(!s.win.FullScreen())
		}
		return turn
	}, func() { w.second = nil })
	w.openScreen(w.second)
}

// Alone makes the viewer all there is on its screen: it fills it, on black.
func (v *viewer) Alone() { v.margin, v.about = 0, newSurround(color.Black) }
