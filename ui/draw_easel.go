package ui

import (
	"image"
	"image/color"
	"image/draw"
	"slices"

	"stillbeat/board"
	"stillbeat/board/picture"
)

// easel holds what a panel's picture is made of, each part apart, so that what
// is drawn is seen at once: only the pixels that changed are put together anew.
type easel struct {
	w, h   int
	parts  picture.Parts
	ghosts *image.RGBA // of the panels beside, nil for none
	sketch board.Sketch
	layers [3]*image.RGBA
	hidden [3]bool
	active board.Layer
	all    *image.RGBA // what is seen
}

// newEasel makes an easel of so many pixels.
func newEasel(w, h int) *easel {
	e := &easel{w: w, h: h, parts: picture.Parts{Ground: picture.Blank}, all: image.NewRGBA(image.Rect(0, 0, w, h))}
	for i := range e.layers {
		e.layers[i] = image.NewRGBA(e.all.Rect)
	}
	return e
}

// Put shows a sketch. Of layers that only got more on top, no more than that is
// drawn.
func (e *easel) Put(s board.Sketch) {
	changed := image.Rectangle{}
	if s.Paper != e.sketch.Paper {
		changed = e.all.Rect
	}
	for _, layer := range board.Layers {
		was, is := e.sketch.On(layer), s.On(layer)
		same := 0
		for same < len(was) && same < len(is) && sameStroke(was[same], is[same]) {
			same++
		}
		if same < len(was) {
			clear(e.layers[layer].Pix)
			same, changed = 0, e.all.Rect
		}
		changed = changed.Union(picture.PaintStrokes(e.layers[layer], is[same:]))
	}
	e.sketch = s
	e.Compose(changed)
}

func sameStroke(a, b board.Stroke) bool {
	return a.Layer == b.Layer && a.Smooth == b.Smooth && a.Closed == b.Closed && a.Filled == b.Filled && a.Erases == b.Erases &&
		a.Ink == b.Ink && a.Width == b.Width && slices.Equal(a.Dots, b.Dots)
}

// behind is how much of a photograph is seen while one draws under it, of 255.
const behind = 110

// Compose puts the parts together anew in some pixels.
func (e *easel) Compose(r image.Rectangle) {
	if r = r.Intersect(e.all.Rect); r.Empty() {
		return
	}
	ground := image.NewUniform(e.parts.Ground)
	if e.parts.Photo == nil && e.sketch.Paper.A == 255 {
		ground = image.NewUniform(e.sketch.Paper)
	}
	draw.Draw(e.all, r, ground, image.Point{}, draw.Src)
	over := func(src *image.RGBA) {
		if src != nil {
			draw.Draw(e.all, r, src, r.Min, draw.Over)
		}
	}
	layer := func(l board.Layer) {
		if !e.hidden[l] {
			over(e.layers[l])
		}
	}
	layer(board.Below)
	if e.parts.Photo != nil && e.active == board.Below {
		draw.DrawMask(e.all, r, e.parts.Photo, r.Min, image.NewUniform(color.Alpha{behind}), image.Point{}, draw.Over)
	} else {
		over(e.parts.Photo)
	}
	over(e.ghosts)
	layer(board.Middle)
	layer(board.Above)
	over(e.parts.Letters)
}

// All puts everything together anew.
func (e *easel) All() { e.Compose(e.all.Rect) }

// Ink returns what is drawn and seen, without photograph and paper.
func (e *easel) Ink() *image.RGBA {
	out := image.NewRGBA(e.all.Rect)
	for l, img := range e.layers {
		if !e.hidden[l] {
			draw.Draw(out, out.Rect, img, image.Point{}, draw.Over)
		}
	}
	return out
}
