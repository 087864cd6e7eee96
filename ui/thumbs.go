package ui

import (
	"image"

	"stillbeat/board"
	"stillbeat/board/picture"
)

// thumbs gives the pictures of panels to timeline and wall: what the viewer
// shows when a panel comes up. Those painted last stand in until what a panel
// has become, or is to be shown as large as, is drawn.
type thumbs struct {
	get           func(s picture.Shot, w, h int) *image.RGBA // nil while it is not ready
	shown, before map[board.PanelID]*image.RGBA
}

func newThumbs(get func(s picture.Shot, w, h int) *image.RGBA) *thumbs {
	t := &thumbs{get: get}
	t.forget()
	return t
}

// forget leaves nothing to stand in: another film is shown.
func (t *thumbs) forget() {
	t.shown, t.before = map[board.PanelID]*image.RGBA{}, map[board.PanelID]*image.RGBA{}
}

// begin begins a painting: what the one before did not paint stands in no more.
func (t *thumbs) begin() {
	t.shown, t.before = t.before, t.shown
	clear(t.shown)
}

// of returns the shot that stands for a panel in w x h pixels; while it is not
// ready the picture painted before, of another size perhaps but of the same
// shape; nil if there is none.
func (t *thumbs) of(p board.PanelID, s picture.Shot, w, h int) *image.RGBA {
	img := t.get(s, w, h)
	if img == nil {
		was := t.before[p]
		if was == nil || !sameShape(was.Rect.Size(), image.Pt(w, h)) {
			return nil
		}
		img = was
	}
	t.shown[p] = img
	return img
}

// sameShape reports whether two sizes have one shape, to a pixel of the smaller.
func sameShape(a, b image.Point) bool {
	off := a.X*b.Y - a.Y*b.X
	return max(off, -off) <= max(a.X, a.Y, b.X, b.Y)
}
