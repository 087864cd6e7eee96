package ui

import (
	"stillbeat/board"
	"stillbeat/board/picture"
)

// ready has the easel made for the panel, at once or as soon as it can be, and
// reports whether it is.
func (d *drawPad) ready(atOnce bool) bool {
	w := d.w
	pw, ph := w.viewer.pixels()
	if w.chosen < 0 || pw < 16 || ph < 9 {
		return false
	}
	k := d.keyNow(pw, ph)
	if d.easel == nil || d.easel.w != pw || d.easel.h != ph {
		d.easel, d.made = newEasel(pw, ph), easelKey{}
		atOnce = atOnce || w.board.Panels[w.chosen].Picture == ""
	}
	if d.made != k {
		film, sketchOf := w.film, w.sketchReader()
		switch {
		case atOnce || k.bare.Blank() && k.before == (ghostSide{}) && k.after == (ghostSide{}):
			made, err := makeEasel(film, k, sketchOf)
			d.take(k, made, err)
		case d.wanted != k:
			d.wanted = k
			go func() {
				made, err := makeEasel(film, k, sketchOf)
				w.post(func() {
					if d.wanted == k {
						d.take(k, made, err)
						w.surface.Refresh()
					}
				})
			}()
		}
	}
	if d.made.bare != k.bare || d.made.at != k.at {
		return false
	}
	d.easel.Put(d.sketch)
	return true
}

// take puts parts on the easel that were made.
func (d *drawPad) take(k easelKey, made easelWork, err error) {
	d.wanted = easelKey{}
	if d.easel == nil || d.easel.w != k.w || d.easel.h != k.h {
		return
	}
	if err != nil { // a picture that cannot be read: drawn on without it
		made.parts = picture.Parts{Ground: picture.Surround}
	}
	d.made, d.easel.parts, d.easel.ghosts = k, made.parts, made.ghosts
	d.easel.active = d.layer
	d.easel.Put(d.sketch)
	d.easel.All()
}

// keyNow is what the easel is to be made of.
func (d *drawPad) keyNow(pw, ph int) easelKey {
	w, i := d.w, d.w.chosen
	k := easelKey{bare: w.film.Whole(i).Bare(), at: i, look: worn, w: pw, h: ph}
	if d.before && i > 0 {
		k.before = ghostSide{w.film.Whole(i - 1), i - 1}
	}
	if d.after && i+1 < len(w.board.Panels) {
		k.after = ghostSide{w.film.Whole(i + 1), i + 1}
	}
	return k
}

// sketchReader reads the sketches of the film as it is now, on any goroutine.
func (w *window) sketchReader() func(i int) (board.Sketch, error) {
	b, d := w.board, w.desk
	return func(i int) (board.Sketch, error) { return d.Sketch(b.Panels[i].Drawing().Sketch) }
}
