package ui

import (
	"image"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"stillbeat/board"
	"stillbeat/board/picture"
)

// viewer shows the panel that is up, in the film's shape, as large as its
// room allows.
type viewer struct {
	widget.BaseWidget

	get    func(s picture.Shot, w, h int) *image.RGBA
	failed func(s picture.Shot) error

	panel  *board.Panel // nil: nothing is up
	number string
	shot   picture.Shot // what is on the screen
	shape  board.Aspect // of the film
	twin   *viewer      // beside it, nil for none
	host   *viewer      // that this is the twin of, nil for none
	about  *surround
	sheet  *canvas.Rectangle // while there is no picture
	image  *canvas.Image
	words  *canvas.Text
	shown  *image.RGBA

	over   *overlay
	peeled *image.RGBA // the last onion
	skins  onionKey    // it was made of
	margin int
	roomy  bool        // more room about the picture, for what lies beside it
	hides  func() bool // reports whether the pointer is not to be seen on it
}

// viewerMargin is the room about the picture, in units.
const viewerMargin = 10

// leastPicture is the room, in pixels each way, below which none is shown.
const leastPicture = 16

func newViewer(get func(picture.Shot, int, int) *image.RGBA, failed func(picture.Shot) error) *viewer {
	v := &viewer{get: get, failed: failed,
		margin: viewerMargin,
		about:  newSurround(paperDark), sheet: canvas.NewRectangle(picture.Blank),
		hides: func() bool { return false },
		image: canvas.NewImageFromImage(nil), words: written("", onBlank, 15, false), over: newOverlay()}
	v.image.ScaleMode = canvas.ImageScaleFastest
	v.image.FillMode = canvas.ImageFillStretch
	v.image.Hidden = true
	v.words.Alignment = fyne.TextAlignCenter
	v.ExtendBaseWidget(v)
	return v
}

// Present puts a panel up as it is in a shot; nil takes it down.
func (v *viewer) Present(p *board.Panel, number string, s picture.Shot) {
	v.panel, v.number, v.shot = p, number, s
	v.Update()
}

// Shape gives the viewer the film's shape. What it shows is of the shape before:
// it goes.
func (v *viewer) Shape(a board.Aspect) {
	if a == v.shape {
		return
	}
	v.shape = a
	v.put(nil)
	v.lay(v.Size())
}

// Aid says what stands over the picture that is presented next.
func (v *viewer) Aid(o overPicture) { v.over.Present(o) }

// Update shows the panel's picture if it has been drawn by now; until then
// the picture before it stays, as on a cutting bench.
func (v *viewer) Update() {
	if v.twin != nil {
		v.twin.Update()
	}
	words := ""
	var img *image.RGBA
	w, h := v.pixels()
	v.over.Guides(w, h, v.scale())
	if v.panel != nil {
		if !v.shot.Blank() {
			if img = v.get(v.shot, w, h); img == nil {
				if v.failed(v.shot) == nil {
					return
				}
				words = "This picture cannot be read."
			}
		} else if words = v.panel.Title; words == "" {
			words = "Panel " + v.number
		}
	}
	if v.panel != nil && v.over.now.onion && w > 0 && h > 0 {
		img = v.onion(img, w, h)
	}
	if img != v.shown {
		v.put(img)
	}
	if v.words.Text != words {
		v.words.Text = words
		v.words.Refresh()
	}
}

// put shows a picture, nil for the empty sheet. One lies where the other does:
// only one is painted.
func (v *viewer) put(img *image.RGBA) {
	v.shown, v.image.Hidden, v.sheet.Hidden = img, img == nil, img != nil
	if v.image.Image = nil; img != nil {
		v.image.Image = img
	}
	v.image.Refresh()
	v.sheet.Refresh()
}

// onion lays the panels before and after over the picture; what is not drawn
// yet is left out until it is.
func (v *viewer) onion(img *image.RGBA, w, h int) *image.RGBA {
	skin := func(s picture.Shot) *image.RGBA {
		if s.Blank() || s == v.shot {
			return nil
		}
		return v.get(s, w, h)
	}
	k := onionKey{img, skin(v.over.now.before), skin(v.over.now.after), w, h}
	if k.before == nil && k.after == nil {
		return img
	}
	if k != v.skins {
		v.skins, v.peeled = k, onion(k)
	}
	return v.peeled
}

// Ahead has shots that are due soon drawn, the first of them first.
func (v *viewer) Ahead(shots []picture.Shot) {
	w, h := v.pixels()
	for i := len(shots) - 1; i >= 0; i-- {
		if !shots[i].Blank() {
			v.get(shots[i], w, h)
		}
	}
}

// Cursor is the usual pointer, or none.
func (v *viewer) Cursor() desktop.Cursor {
	if v.hides() {
		return desktop.HiddenCursor
	}
	return desktop.DefaultCursor
}

// CreateRenderer makes the objects the viewer is made of.
func (v *viewer) CreateRenderer() fyne.WidgetRenderer {
	return &viewerRenderer{v, append(append(v.about.objects(), v.sheet, v.image, v.words), v.over.objects()...)}
}

type viewerRenderer struct {
	v       *viewer
	objects []fyne.CanvasObject
}

func (r *viewerRenderer) Layout(s fyne.Size) { r.v.lay(s) }
func (r *viewerRenderer) MinSize() fyne.Size { return fyne.NewSize(320, 180) }
func (r *viewerRenderer) Refresh()           { r.v.Update() }
func (r *viewerRenderer) Objects() []fyne.CanvasObject {
	if r.v.twin != nil {
		return append(r.objects[:len(r.objects):len(r.objects)], r.v.twin)
	}
	return r.objects
}
func (r *viewerRenderer) Destroy() {}
