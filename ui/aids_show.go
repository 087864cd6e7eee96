package ui

import (
	"fmt"
	"time"

	"stillbeat/board"
	"stillbeat/board/picture"
)

// showPicture shows the panel that is up at second t of the film, with what
// stands over it, and has the pictures drawn that come next.
func (w *window) showPicture(t float64) {
	b, starts, film := w.onView()
	f := b.Rate.At(t)
	i := board.PanelAt(starts, f)
	if n := len(b.Panels); i < 0 && n > 0 && f >= starts[n] {
		i = n - 1 // the end of the film: the last picture stays
	}
	over := w.overPicture(b, starts, i, f)
	var shot picture.Shot
	var due []picture.Shot
	if i >= 0 {
		shot, due = film.Shot(min(f, starts[i+1]-1)), dueShots(film, b.Rate, starts, i, f)
		if w.faces.atWork() {
			shot = film.Whole(i)
		}
	}
	for _, v := range w.viewers() {
		v.Aid(over)
		if i < 0 {
			v.Present(nil, "", picture.Shot{})
			continue
		}
		v.Ahead(due)
		v.Present(&b.Panels[i], w.numbers[i], shot) // what is wished for last is drawn first
	}
}

// dueShots returns what comes on the screen within two seconds after frame f, in
// panel i, and the first shots of six panels at least; forty at most.
func dueShots(film *picture.Film, rate board.FrameRate, starts []board.Frame, i int, f board.Frame) []picture.Shot {
	var out []picture.Shot
	last := film.Shot(f)
	add := func(n board.Frame) {
		if s := film.Shot(n); s != last && len(out) < 40 {
			out, last = append(out, s), s
		}
	}
	soon := f + board.Frame(2*rate.Nominal())
	for n := f + 1; n < min(soon, starts[len(starts)-1]); n++ {
		add(n)
	}
	for k := i + 1; k < min(i+7, len(starts)-1); k++ {
		if starts[k] >= soon {
			add(starts[k])
		}
	}
	return out
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
