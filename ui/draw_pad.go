package ui

import (
	"image"
	"image/draw"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"

	"stillbeat/board"
	"stillbeat/board/sketch"
)

// drawHand is one of the tools of the sketch pad.
type drawHand interface {
	tool
	Lay() bool  // gives up what is under way and reports whether anything was
	Drop() bool // does that, or else lays down what it holds and reports whether there was anything
}

// drawPad is the sketch pad: what is drawn with, and the panel that is drawn on.
type drawPad struct {
	w     *window
	hands []drawHand // by drawTool
	kind  drawTool
	ink   int // of sketch.Inks
	width int // of sketch.Widths
	layer board.Layer

	before, after bool // ghosts of the panels beside are seen

	easel  *easel
	made   easelKey // of what
	wanted easelKey // is being made of
	panel  board.PanelID
	id     board.MediaID // of sketch
	sketch board.Sketch  // of the panel, as in the film
	broken error         // why it cannot be read

	choose *drawChoose
	figure *drawFigure
	face   *drawFace
	clock  func() float64 // seconds
}

func newDrawPad(w *window) *drawPad {
	began := time.Now()
	d := &drawPad{w: w, width: 1, layer: board.Middle, clock: func() float64 { return time.Since(began).Seconds() }}
	d.choose, d.figure = &drawChoose{pad: d}, &drawFigure{pad: d, at: -1}
	d.hands = make([]drawHand, drawTools)
	for k := range drawTools {
		switch k {
		case toolFill:
			d.hands[k] = &drawFill{pad: d}
		case toolChoose:
			d.hands[k] = d.choose
		case toolFigure:
			d.hands[k] = d.figure
		case toolLine, toolEllipse, toolRectangle:
			d.hands[k] = &drawShape{pad: d, kind: k}
		default:
			d.hands[k] = &drawFree{pad: d, kind: k}
		}
	}
	return d
}

func (d *drawPad) hand() drawHand { return d.hands[d.kind] }

// Present brings the pad in line with the film.
func (d *drawPad) Present() {
	w := d.w
	if w.chosen < 0 {
		d.panel = 0
		return
	}
	p := w.board.Panels[w.chosen]
	if p.ID != d.panel {
		d.hand().Lay()
		d.choose.leave(d.panel)
		d.choose.set, d.figure.at = nil, -1
	}
	if id := p.Drawing().Sketch; p.ID != d.panel || id != d.id {
		d.hand().Lay()
		was := len(d.sketch.Strokes)
		d.sketch, d.broken = w.desk.Sketch(id)
		d.panel, d.id = p.ID, id
		d.choose.keep(was)
		d.figure.keep()
	}
	d.ready(false)
}

// Down begins to draw.
func (d *drawPad) Down(p board.Point, g grip) {
	if d.broken != nil {
		d.w.foot.Say("This panel's sketch cannot be read: " + d.broken.Error() + ".")
		return
	}
	if !d.ready(true) {
		return
	}
	if d.kind.draws() && d.easel.hidden[d.layer] {
		d.setHidden(d.layer, false)
	}
	d.hand().Down(p, g)
}

// Drag draws on.
func (d *drawPad) Drag(p board.Point, g grip) {
	if d.easel != nil {
		d.hand().Drag(p, g)
	}
}

// Up ends it.
func (d *drawPad) Up() { d.hand().Up() }

// Hover returns what the pointer looks like.
func (d *drawPad) Hover(p board.Point, g grip) desktop.StandardCursor { return d.hand().Hover(p, g) }

// Paint shows the panel as it is drawn, and the marks of the tool.
func (d *drawPad) Paint(m marks) {
	if d.ready(false) {
		e := d.easel
		at := image.Pt(m.px(m.mid[0])-e.w/2, m.px(m.mid[1])-e.h/2)
		draw.Draw(m.img, e.all.Rect.Add(at), e.all, image.Point{}, draw.Src)
		if o := d.w.viewer.over; !o.guides.Hidden && o.guides.Image != nil {
			draw.Draw(m.img, e.all.Rect.Add(at), o.guides.Image, image.Point{}, draw.Over)
		}
	}
	d.hand().Paint(m)
}

// keep makes a sketch the panel's; what names the change for undo.
func (d *drawPad) keep(what string, s board.Sketch) bool {
	w := d.w
	if w.chosen < 0 || w.board.Panels[w.chosen].ID != d.panel {
		return false
	}
	id, err := w.desk.KeepSketch(s, d.id)
	if err != nil {
		w.foot.Say(sentence(err.Error()))
		return false
	}
	if id == d.id {
		return true
	}
	before, was := d.id, d.sketch
	d.id, d.sketch = id, s // what the film says of it needs no reading
	if err := w.desk.Do(board.DrawOn(w.chosen, what, id)); err != nil {
		d.id, d.sketch = before, was
		w.foot.Say(sentence(err.Error()))
		w.show()
		return false
	}
	return true
}

// like is a stroke of the ink, width and layer that are set.
func (d *drawPad) like() board.Stroke {
	return board.Stroke{Layer: d.layer, Ink: sketch.Inks[d.ink].Colour, Width: sketch.Widths[d.width]}
}

// seen says which layers are.
func (d *drawPad) seen() [3]bool {
	seen := [3]bool{true, true, true}
	if d.easel != nil {
		for l, hidden := range d.easel.hidden {
			seen[l] = !hidden
		}
	}
	return seen
}

// Typed takes the keys that the pad has for itself while it is up: figures,
// which set holds elsewhere, are its tools, and Delete takes strokes and not
// panels.
func (d *drawPad) Typed(name fyne.KeyName, held fyne.KeyModifier) bool {
	if !d.w.faces.atWork() {
		return false
	}
	if held == 0 && len(name) == 1 && name >= "0" && name <= "9" {
		if name == fyne.Key0 {
			d.toggleGhosts()
		} else {
			d.setTool(drawTool(name[0] - '1'))
		}
		return true
	}
	switch name {
	case fyne.KeyEscape:
		did := d.hand().Drop()
		d.refresh()
		return did
	case fyne.KeyDelete, fyne.KeyBackspace:
		if held == 0 {
			d.deleteHeld()
			return true
		}
	}
	return false
}

// refresh shows the pad and its face anew.
func (d *drawPad) refresh() {
	d.face.Present()
	d.w.surface.Refresh()
}
