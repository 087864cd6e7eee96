package ui

import (
	"fmt"
	"time"

	"stillbeat/board"
	"stillbeat/board/picture"
)

// shown is what is on the screen of the film as it is seen.
type shown struct {
	panel int // -1 for none
	shot  picture.Shot
	over  overPicture
	due   []picture.Shot // what comes next
}

// showPicture shows the panel that is up at second t of the film, with what
// stands over it, and has the pictures drawn that come next.
func (w *window) showPicture(t float64) {
	sights := w.sights()
	all := make([]shown, len(sights))
	for k, s := range sights {
		all[k] = w.shownAt(s, t)
	}
	if w.aids.Flash && w.playing != nil { // one flash for all
		glow := w.flash.Glow(sights[0].board, sights[0].board.Rate.At(t), time.Now())
		for k := range all {
			all[k].over.glow = glow
		}
	}
	for _, v := range w.viewers() {
		v.Shape(w.board.Aspect)
		v.Pair(len(sights) > 1)
		for _, x := range all {
			v.Ahead(x.due) // a twin is as large
		}
		for k, v := range v.both() { // what is wished for last is drawn first
			v.Shape(w.board.Aspect)
			v.Aid(all[k].over)
			if i := all[k].panel; i >= 0 {
				v.Present(&sights[k].board.Panels[i], w.numbers[i], all[k].shot)
			} else {
				v.Present(nil, "", picture.Shot{})
			}
		}
	}
}

// shownAt returns what is on the screen at second t of the film as it is seen.
func (w *window) shownAt(s *seen, t float64) shown {
	f := s.board.Rate.At(t)
	i := board.PanelAt(s.starts, f)
	if n := len(s.board.Panels); i < 0 && n > 0 && f >= s.starts[n] {
		i = n - 1 // the end of the film: the last picture stays
	}
	if w.faces.atWork() {
		i = w.chosen
	}
	x := shown{panel: i, over: w.overPicture(s, i, f)}
	if i >= 0 {
		x.shot, x.due = s.film.Shot(min(f, s.starts[i+1]-1)), dueShots(s, i, f)
		if w.faces.atWork() {
			x.shot = s.film.Whole(i)
		}
	}
	return x
}

// dueShots returns what comes on the screen within two seconds after frame f, in
// panel i, and the first shots of six panels at least; forty at most.
func dueShots(s *seen, i int, f board.Frame) []picture.Shot {
	film, starts := s.film, s.starts
	var out []picture.Shot
	last := film.Shot(f)
	add := func(n board.Frame) {
		if s := film.Shot(n); s != last && len(out) < 40 {
			out, last = append(out, s), s
		}
	}
	soon := f + board.Frame(2*s.board.Rate.Nominal())
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
func (w *window) overPicture(s *seen, i int, f board.Frame) overPicture {
	b, starts, film := s.board, s.starts, s.film
	o := overPicture{guides: w.aids.guides, onion: w.aids.Onion}
	o.panel, o.place = b.BurnIn(w.aids.Words, starts, w.numbers, f)
	if i > 0 { // as it is when it goes
		o.before = film.PanelShot(i-1, starts[i]-starts[i-1]-1)
	}
	if i >= 0 && i+1 < len(b.Panels) { // as it is when it comes
		o.after = film.PanelShot(i+1, 0)
	}
	switch {
	case w.paired && i >= 0:
		o.note = s.caption(i)
	case w.seen != nil && !w.paired:
		o.note = fmt.Sprintf("seen as at %s fps, the film is at %s", b.Rate, w.board.Rate)
	}
	if w.aids.Dot {
		o.sign = beatSignAt(b, f)
	}
	return o
}
