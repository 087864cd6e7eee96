package ui

import (
	"fmt"
	"time"

	"stillbeat/board"
)

// showPicture shows the panel that is up at second t of the film, with what
// stands over it, and has the pictures drawn that come next.
func (w *window) showPicture(t float64) {
	b, starts := w.onView()
	f := b.Rate.At(t)
	i := board.PanelAt(starts, f)
	if n := len(b.Panels); i < 0 && n > 0 && f >= starts[n] {
		i = n - 1 // the end of the film: the last picture stays
	}
	over := w.overPicture(b, starts, i, f)
	for _, v := range w.viewers() {
		v.Aid(over)
		if i < 0 {
			v.Present(nil, "")
			continue
		}
		v.Ahead(b.Panels[i+1 : w.dueBy(i)])
		v.Present(&b.Panels[i], w.numbers[i]) // what is wished for last is drawn first
	}
}

// overPicture returns what stands over the picture of panel i, -1 for none, at
// frame f of the film as it is seen.
func (w *window) overPicture(b board.Board, starts []board.Frame, i int, f board.Frame) overPicture {
	o := overPicture{guides: w.aids.guides, onion: w.aids.Onion}
	o.panel, o.place = b.BurnIn(w.aids.Words, starts, w.numbers, f)
	if i > 0 {
		o.before = b.Panels[i-1].Picture
	}
	if i >= 0 && i+1 < len(b.Panels) {
		o.after = b.Panels[i+1].Picture
	}
	if w.seen != nil {
		o.note = fmt.Sprintf("seen as at %s fps, the film is at %s", b.Rate, w.board.Rate)
	}
	if w.aids.Dot {
		o.sign = beatSignAt(b, f)
	}
	if w.aids.Flash && w.playing != nil {
		o.glow = w.flash.Glow(b, f, time.Now())
	}
	return o
}
