package ui

import (
	"math"

	"fyne.io/fyne/v2"

	"stillbeat/board"
)

// wallCommands are those that have to do with the wall and its search.
func (w *window) wallCommands() []*command {
	searching := func() bool { return w.wall.up() && w.wall.wall.view.fits != nil }
	return []*command{
		{menu: "View", name: "The chosen panel on the timeline", do: w.toTimeline, can: func() bool { return w.chosen >= 0 }},
		{menu: "View"},
		{menu: "View", name: "Find panels…", key: fyne.KeyF, mod: ctrl, do: w.findOnWall},
		{menu: "View", name: "The next panel found", key: fyne.KeyG, mod: ctrl, do: func() { w.wall.next(1) }, can: searching},
		{menu: "View", name: "The panel found before", key: fyne.KeyG, mod: ctrlShift, do: func() { w.wall.next(-1) }, can: searching},
		{menu: "View", name: "Only the panels found", key: fyne.KeyF, mod: ctrlShift, do: func() { w.wall.setOnly(!w.wall.wall.view.only) },
			can: searching, ticked: func() bool { return w.wall.wall.view.only }},
	}
}

// toTimeline goes to the chosen panel on the timeline.
func (w *window) toTimeline() {
	w.pages.Show(w.timelinePage)
	if i := w.chosen; i >= 0 {
		if board.PanelAt(w.starts, w.at) != i {
			w.seek(w.starts[i])
		}
		w.timeline.reveal(w.board.Rate.Seconds(w.starts[i]))
		w.timeline.Refresh()
	}
}

// writeOnCard puts the cursor into the card of the chosen panel.
func (w *window) writeOnCard() {
	w.pages.Show(w.timelinePage)
	w.faces.Show(w.faces.words)
	w.card.Focus(w.win.Canvas())
}

func (w *window) findOnWall() {
	w.pages.Show(w.wallPage)
	w.win.Canvas().Focus(w.wall.words)
}

// zoomBy shows what is on screen larger; cards grow in finer steps. fitAll
// shows all of it.
func (w *window) zoomBy(factor float64) {
	if w.wall.up() {
		w.wall.wall.ZoomBy(math.Sqrt(factor))
	} else {
		w.timeline.ZoomBy(factor)
	}
}

func (w *window) fitAll() {
	if w.wall.up() {
		w.wall.wall.FitAll()
	} else {
		w.timeline.FitAll()
	}
}

// typedKey does what a key is for on the wall only and reports whether it was
// one of those.
func (p *wallPage) typedKey(name fyne.KeyName, held fyne.KeyModifier) bool {
	w, v := p.w, &p.wall.view
	if name == fyne.KeyEscape {
		switch {
		case p.wall.drop():
		case v.fits != nil && !w.jobs.Busy():
			p.words.SetText("")
		default:
			return false
		}
		return true
	}
	to := -1
	switch name {
	case fyne.KeyReturn, fyne.KeyEnter:
		if held != 0 {
			return false
		}
		w.toTimeline()
		return true
	case fyne.KeyLeft:
		to = v.beside(w.chosen, -1)
	case fyne.KeyRight:
		to = v.beside(w.chosen, 1)
	case fyne.KeyUp:
		to = v.rowsFrom(w.chosen, -1)
	case fyne.KeyDown:
		to = v.rowsFrom(w.chosen, 1)
	case fyne.KeyPageUp:
		to = v.rowsFrom(w.chosen, -v.page())
	case fyne.KeyPageDown:
		to = v.rowsFrom(w.chosen, v.page())
	case fyne.KeyHome:
		to = v.beside(w.chosen, -len(v.order))
	case fyne.KeyEnd:
		to = v.beside(w.chosen, len(v.order))
	default:
		return false
	}
	if to < 0 {
		return true
	}
	if held&shift != 0 {
		p.chooseTo(to)
	} else {
		w.choose(to)
	}
	p.wall.Reveal(to)
	return true
}
