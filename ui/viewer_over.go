package ui

import (
	"image"
	"image/color"
	"math"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"

	"stillbeat/board/picture"
)

// overPicture is what stands over the picture.
type overPicture struct {
	panel, place, note string // words; empty ones are not seen
	sign               beatSign
	glow               float64 // of the border, 0 to 1
	guides             guides
	onion              bool
	before, after      picture.Shot // the panels beside at the cuts, for the onion
}

// overlay holds the objects that lie on the viewer's picture.
type overlay struct {
	now     overPicture
	at      fyne.Position // of the picture
	size    fyne.Size
	guides  *canvas.Image
	painted guidesKey
	edges   [4]*canvas.LinearGradient // left, right, top, bottom
	dot     *canvas.Circle
	panel   *plate // at the top
	place   *plate // at the foot
	note    *plate // above that
}

// guidesKey is what the guides were painted for.
type guidesKey struct {
	guides
	w, h int
}

func newOverlay() *overlay {
	o := &overlay{guides: canvas.NewImageFromImage(nil), dot: canvas.NewCircle(onPlate),
		panel: newPlate(), place: newPlate(), note: newPlate()}
	o.guides.ScaleMode, o.guides.FillMode, o.guides.Hidden = canvas.ImageScaleFastest, canvas.ImageFillStretch, true
	o.dot.StrokeColor, o.dot.StrokeWidth, o.dot.Hidden = plateVeil, 2, true
	for i, angle := range []float64{270, 90, 0, 180} {
		o.edges[i] = canvas.NewLinearGradient(flashEdge, color.Transparent, angle)
		o.edges[i].Hidden = true
	}
	return o
}

func (o *overlay) objects() []fyne.CanvasObject {
	out := []fyne.CanvasObject{o.guides}
	for _, e := range o.edges {
		out = append(out, e)
	}
	for _, p := range []*plate{o.panel, o.place, o.note} {
		out = append(out, p.back, p.words)
	}
	return append(out, o.dot)
}

// Lay moves all onto the picture.
func (o *overlay) Lay(at fyne.Position, size fyne.Size) {
	o.at, o.size = at, size
	o.guides.Move(at)
	o.guides.Resize(size)
	deep := max(8, size.Height/30)
	lay := func(e *canvas.LinearGradient, x, y, w, h float32) {
		e.Move(at.AddXY(x, y))
		e.Resize(fyne.NewSize(w, h))
	}
	lay(o.edges[0], 0, 0, deep, size.Height)
	lay(o.edges[1], size.Width-deep, 0, deep, size.Height)
	lay(o.edges[2], 0, 0, size.Width, deep)
	lay(o.edges[3], 0, size.Height-deep, size.Width, deep)
	o.layWords()
	o.layDot()
}

// Present shows what stands over the picture from now on.
func (o *overlay) Present(now overPicture) {
	was := o.now
	o.now = now
	if was.panel != now.panel || was.place != now.place || was.note != now.note {
		o.layWords()
	}
	if was.sign != now.sign {
		o.layDot()
	}
	if step(was.glow) != step(now.glow) {
		for _, e := range o.edges {
			e.StartColor, e.Hidden = faded(flashEdge, step(now.glow)), step(now.glow) == 0
			e.Refresh()
		}
	}
}

// step rounds a glow: it fades in few steps, each of which is painted.
func step(glow float64) float64 { return math.Ceil(glow*5) / 5 }

// layWords puts the plates in their places.
func (o *overlay) layWords() {
	if o.size.Height < 40 {
		return
	}
	text := max(11, min(o.size.Height/34, 24))
	air := text * 0.8
	room := o.size.Width - 2*air
	o.panel.Set(o.now.panel, text, room-2*text) // the dot is beside it
	o.panel.Move(o.at.AddXY(air, air))
	o.place.Set(o.now.place, fitting(o.now.place, text, room-2*text), room)
	foot := o.size.Height - air - o.place.Height()
	o.place.Move(o.at.AddXY(air, foot))
	o.note.Set(o.now.note, text, room)
	if o.now.place != "" {
		foot -= air/2 + o.note.Height()
	}
	o.note.Move(o.at.AddXY(air, foot))
}

// layDot shows the dot as large as its beat is strong, in the corner at the
// top right.
func (o *overlay) layDot() {
	o.dot.Hidden = o.now.sign == noBeat
	size := max(22, min(o.size.Height/18, 48))
	mid := size * 0.9
	if o.now.sign == onBeat {
		size *= 0.6
	}
	o.dot.Resize(fyne.NewSquareSize(size))
	o.dot.Move(o.at.AddXY(o.size.Width-mid-size/2, mid-size/2))
	o.dot.Refresh()
}

// Guides paints the guides for a picture of so many pixels, if they are not.
func (o *overlay) Guides(w, h int, scale float64) {
	want := guidesKey{o.now.guides, w, h}
	if want == o.painted || w < 1 || h < 1 {
		return
	}
	o.painted = want
	o.guides.Hidden = want.guides == guides{}
	if o.guides.Hidden {
		o.guides.Image = nil
	} else {
		img := image.NewRGBA(image.Rect(0, 0, w, h))
		paintGuides(img, scale, want.guides)
		o.guides.Image = img
	}
	o.guides.Refresh()
}

// faded is a tint of which only a part is left.
func faded(t tint, part float64) color.RGBA {
	c := t.rgba()
	for _, v := range []*uint8{&c.R, &c.G, &c.B, &c.A} {
		*v = uint8(float64(*v) * part)
	}
	return c
}
