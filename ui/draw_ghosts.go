package ui

import (
	"image"

	"stillbeat/board"
	"stillbeat/board/picture"
)

// ghostSide is a panel beside the one that is drawn on.
type ghostSide struct {
	shot picture.Shot // zero: none
	at   int          // its index
}

// easelKey is what the parts of an easel are made of.
type easelKey struct {
	bare          picture.Shot
	at            int
	before, after ghostSide
	look          *look
	w, h          int
}

// easelWork is what has to be made for an easel, away from the window.
type easelWork struct {
	parts  picture.Parts
	ghosts *image.RGBA
}

// ghostStrength is that of photographs, of 256: fainter than what is drawn.
const ghostStrength = 130

// makeEasel draws the parts of a panel and the ghosts of those beside it: of
// the one before dashed, of the one after dotted, each in a tint of its own.
func makeEasel(film *picture.Film, k easelKey, sketchOf func(i int) (board.Sketch, error)) (easelWork, error) {
	parts, err := film.Apart(k.at, k.w, k.h)
	if err != nil {
		return easelWork{}, err
	}
	out := easelWork{parts: parts}
	wide := max(1.5, float64(k.h)/400)
	for _, side := range []struct {
		ghostSide
		tint   tint
		dashes picture.Dashes
	}{
		{k.before, onionBefore, picture.Dashes{Wide: wide, Dash: 7 * wide, Gap: 5 * wide}},
		{k.after, onionAfter, picture.Dashes{Wide: 1.5 * wide, Dash: 0, Gap: 4 * wide}},
	} {
		if side.shot == (picture.Shot{}) {
			continue
		}
		colour := k.look.palette[side.tint] // not the look worn: this may run beside the window
		if out.ghosts == nil {
			out.ghosts = image.NewRGBA(image.Rect(0, 0, k.w, k.h))
		}
		beside, err := film.Apart(side.at, k.w, k.h)
		if err != nil {
			continue // a picture that cannot be read has no ghost
		}
		dash := max(3, k.w/80)
		if side.dashes.Dash == 0 {
			dash = max(2, k.w/400)
		}
		if beside.Photo != nil {
			skin(out.ghosts, beside.Photo, make([]uint8, k.w*k.h), colour, ghostStrength, dash)
		}
		s, err := sketchOf(side.at)
		if err != nil {
			continue
		}
		for _, layer := range board.Layers {
			picture.PaintGhosts(out.ghosts, s.On(layer), colour, side.dashes)
		}
	}
	return out, nil
}
