package ui

import (
	"image"
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"

	"stillbeat/board/picture"
)

// pixels returns the size of the picture on this screen.
func (v *viewer) pixels() (w, h int) {
	s, scale := v.image.Size(), float32(v.scale())
	return int(s.Width*scale + 0.5), int(s.Height*scale + 0.5)
}

// scale is how many pixels of this screen a unit is wide.
func (v *viewer) scale() float64 {
	if v.host != nil {
		return v.host.scale()
	}
	if c := fyne.CurrentApp().Driver().CanvasForObject(v); c != nil {
		return float64(c.Scale())
	}
	return 1
}

// Room leaves more room about the picture, or the usual.
func (v *viewer) Room(more bool) {
	if v.roomy != more {
		v.roomy = more
		v.lay(v.Size())
	}
}

// lay puts everything in its place in a room of so many units, the picture on
// whole pixels of the screen.
func (v *viewer) lay(s fyne.Size) {
	v.about.Lay(s, fyne.NewPos(0, 0), fyne.Size{})
	scale := v.scale()
	px := func(u float32) int { return int(float64(u)*scale + 0.5) }
	margin := float32(v.margin)
	if v.roomy {
		margin = max(margin, min(s.Width, s.Height)*0.1)
	}
	box := image.Rect(px(margin), px(margin), px(s.Width-margin), px(s.Height-margin))
	if box.Dx() < leastPicture || box.Dy() < leastPicture {
		return
	}
	at := picture.FitShape(v.shape, box)
	units := func(p int) float32 { return float32(float64(p) / scale) }
	if v.host != nil {
		at = box // which has the shape
	}
	if v.twin != nil {
		var other image.Rectangle
		at, other = pairIn(v.shape, box, px(pairGap))
		v.twin.Move(fyne.NewPos(units(other.Min.X), units(other.Min.Y)))
		v.twin.Resize(fyne.NewSize(units(other.Dx()), units(other.Dy())))
	}
	pos := fyne.NewPos(units(at.Min.X), units(at.Min.Y))
	size := fyne.NewSize(units(at.Dx()), units(at.Dy()))
	for _, o := range []fyne.CanvasObject{v.sheet, v.image} {
		o.Move(pos)
		o.Resize(size)
	}
	v.about.Lay(s, pos, size)
	h := v.words.MinSize().Height
	v.words.Move(fyne.NewPos(pos.X, pos.Y+(size.Height-h)/2))
	v.words.Resize(fyne.NewSize(size.Width, h))
	v.over.Lay(pos, size)
	v.Update()
}

// surround is a colour about a hole, where it is not painted: what lies there
// covers it in any case, and a screen without a graphics processor takes long
// over each layer of so large a part of the window.
type surround [4]*canvas.Rectangle

func newSurround(c color.Color) *surround {
	s := new(surround)
	for i := range s {
		s[i] = canvas.NewRectangle(c)
	}
	return s
}

// Lay fills a room around a hole; one of no size is none.
func (s *surround) Lay(room fyne.Size, at fyne.Position, hole fyne.Size) {
	below, right := at.Y+hole.Height, at.X+hole.Width
	for i, r := range [...]struct{ x, y, w, h float32 }{
		{0, 0, room.Width, at.Y},
		{0, below, room.Width, room.Height - below},
		{0, at.Y, at.X, hole.Height},
		{right, at.Y, room.Width - right, hole.Height},
	} {
		s[i].Move(fyne.NewPos(r.x, r.y))
		s[i].Resize(fyne.NewSize(max(0, r.w), max(0, r.h)))
		s[i].Refresh()
	}
}

// Hide leaves the room as it is, or fills it again.
func (s *surround) Hide(hidden bool) {
	for _, r := range s {
		r.Hidden = hidden
		r.Refresh()
	}
}

func (s *surround) objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{s[0], s[1], s[2], s[3]}
}
