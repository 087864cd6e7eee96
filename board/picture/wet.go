package picture

import (
	"image"
	"image/color"
	"image/draw"

	"golang.org/x/image/vector"

	"stillbeat/board"
)

// Wet is a stroke that is being drawn on an image of the whole frame: of each
// new dot only the way from the one before is drawn, however long the stroke
// is, and where it crosses itself it does not get darker.
type Wet struct {
	dst, before *image.RGBA
	cover       *image.Alpha // what the stroke covers so far
	like        board.Stroke
	last        board.Dot
	begun       bool
	touched     image.Rectangle
}

// NewWet begins a stroke of a layer, ink and width on dst.
func NewWet(dst *image.RGBA, like board.Stroke) *Wet {
	w := &Wet{dst: dst, before: image.NewRGBA(dst.Rect), cover: image.NewAlpha(dst.Rect), like: like}
	copy(w.before.Pix, dst.Pix)
	return w
}

// Go draws on to a dot and returns the pixels that changed.
func (w *Wet) Go(to board.Dot) image.Rectangle {
	from := w.last
	if !w.begun {
		from = to
	}
	w.last, w.begun = to, true
	k := w.like
	k.Smooth, k.Closed, k.Filled, k.Dots = false, false, false, []board.Dot{from, to}
	var changed image.Rectangle
	for _, o := range strokeOutlines(&k, lensOf(board.Framing{}, w.dst.Rect.Dx(), w.dst.Rect.Dy()), 1) {
		changed = changed.Union(o.box(w.dst.Rect))
		o.coverTo(w.cover)
	}
	w.lay(changed)
	w.touched = w.touched.Union(changed)
	return changed
}

// lay draws the stroke anew in a part of the image.
func (w *Wet) lay(r image.Rectangle) {
	draw.Draw(w.dst, r, w.before, r.Min, draw.Src)
	if !w.like.Erases {
		draw.DrawMask(w.dst, r, image.NewUniform(w.like.Ink), image.Point{}, w.cover, r.Min, draw.Over)
		return
	}
	for y := r.Min.Y; y < r.Max.Y; y++ {
		pix, cover := w.dst.Pix[w.dst.PixOffset(r.Min.X, y):], w.cover.Pix[w.cover.PixOffset(r.Min.X, y):]
		for x := range r.Dx() {
			rest := 255 - uint32(cover[x])
			for c := 4 * x; c < 4*x+4; c++ {
				pix[c] = uint8((uint32(pix[c])*rest + 127) / 255)
			}
		}
	}
}

// Wash takes the stroke away again and returns the pixels that changed.
func (w *Wet) Wash() image.Rectangle {
	r := w.touched
	draw.Draw(w.dst, r, w.before, r.Min, draw.Src)
	for y := r.Min.Y; y < r.Max.Y; y++ {
		clear(w.cover.Pix[w.cover.PixOffset(r.Min.X, y):][:r.Dx()])
	}
	w.touched, w.begun = image.Rectangle{}, false
	return r
}

// Put draws whole strokes in place of what was drawn and returns the pixels
// that changed.
func (w *Wet) Put(strokes []board.Stroke) image.Rectangle {
	r := w.Wash()
	w.touched = PaintStrokes(w.dst, strokes)
	return r.Union(w.touched)
}

// coverTo notes what the outline covers, as the most of what did before and it.
func (o *outline) coverTo(cover *image.Alpha) {
	var part *image.Alpha
	o.bands(cover.Rect, func(z *vector.Rasterizer, r image.Rectangle) {
		if part == nil || part.Rect.Dx() < r.Dx() {
			part = image.NewAlpha(image.Rect(0, 0, r.Dx(), bandRows))
		}
		within := image.Rectangle{Max: r.Size()}
		z.DrawOp = draw.Src
		z.Draw(part, within, image.NewUniform(color.Opaque), image.Point{})
		for y := range r.Dy() {
			to := cover.Pix[cover.PixOffset(r.Min.X, r.Min.Y+y):][:r.Dx()]
			for x, a := range part.Pix[y*part.Stride:][:r.Dx()] {
				to[x] = max(to[x], a)
			}
		}
	})
}
