package ui

import (
	"image"

	"fyne.io/fyne/v2/driver/desktop"

	"stillbeat/board"
	"stillbeat/board/picture"
	"stillbeat/board/sketch"
)

// drawTool is one of the tools of the sketch pad.
type drawTool int

const (
	toolPen drawTool = iota
	toolBrush
	toolEraser
	toolLine
	toolEllipse
	toolRectangle
	toolFill
	toolChoose
	toolFigure
	drawTools // how many there are
)

// drawToolNames are what the commands that take them in hand are called.
var drawToolNames = [drawTools]string{"Pen", "Brush", "Eraser", "Straight line", "Ellipse", "Rectangle", "Fill", "Choose strokes", "Jointed figure"}

// drawToolHints say what they are for.
var drawToolHints = [drawTools]string{
	"An even line, steadied while it is drawn",
	"A line that is thinner where the hand is quick",
	"Takes away from the layer that is drawn on",
	"Shift keeps it to eighths of a turn",
	"In the box that is dragged; Shift makes a circle",
	"Shift makes a square",
	"Colours what is enclosed by lines that are seen",
	"Click a stroke, or drag a box around several; Shift adds",
	"Drag its joints; click a foot to pin it or to set it free",
}

// draws reports whether the tool puts something on the layer.
func (k drawTool) draws() bool { return k != toolChoose && k != toolFigure }

// drawFree is pen, brush and eraser.
type drawFree struct {
	pad  *drawPad
	kind drawTool
	hand *sketch.Hand
	wet  *picture.Wet
	like board.Stroke
	last board.Point
}

// eraserWidth is how many times as wide as a pen an eraser is.
const eraserWidth = 4

// Down begins a line.
func (f *drawFree) Down(p board.Point, _ grip) {
	d := f.pad
	f.like = d.like()
	switch f.kind {
	case toolBrush:
		f.like.Width *= 3
	case toolEraser:
		f.like.Erases, f.like.Width = true, f.like.Width*eraserWidth
		f.like.Ink = board.Stroke{}.Ink
	}
	f.hand = sketch.NewHand(sketch.Pen{Stroke: f.like, Brush: f.kind == toolBrush})
	f.wet = picture.NewWet(d.easel.layers[d.layer], f.like)
	f.Drag(p, grip{})
}

// Drag goes on with it.
func (f *drawFree) Drag(p board.Point, _ grip) {
	if f.hand == nil {
		return
	}
	f.last = p
	dots := f.hand.Add(p, f.pad.clock())
	f.pad.easel.Compose(f.wet.Go(dots[len(dots)-1]))
}

// Up keeps it.
func (f *drawFree) Up() {
	if f.hand == nil {
		return
	}
	k := f.hand.Stroke(f.last)
	f.Lay()
	what := map[drawTool]string{toolPen: "stroke", toolBrush: "brush stroke", toolEraser: "erasing"}[f.kind]
	s, _ := sketch.Added(f.pad.sketch, k)
	f.pad.keep(what, s)
}

// Drop has nothing else to lay down.
func (f *drawFree) Drop() bool { return f.Lay() }

// Lay takes a line away that is being drawn.
func (f *drawFree) Lay() bool {
	if f.hand == nil {
		return false
	}
	wet := f.wet
	f.hand, f.wet = nil, nil
	f.pad.easel.Compose(wet.Wash())
	return true
}

// Hover is a cross.
func (f *drawFree) Hover(board.Point, grip) desktop.StandardCursor { return desktop.CrosshairCursor }

// Paint shows nothing of its own.
func (f *drawFree) Paint(marks) {}

// drawShape is line, ellipse and rectangle.
type drawShape struct {
	pad   *drawPad
	kind  drawTool
	wet   *picture.Wet
	from  board.Point
	shape board.Stroke
	moved bool
}

// Down sets the first corner.
func (f *drawShape) Down(p board.Point, _ grip) {
	f.from, f.moved = p, false
	f.wet = picture.NewWet(f.pad.easel.layers[f.pad.layer], f.pad.like())
}

// Drag sets the other one.
func (f *drawShape) Drag(p board.Point, g grip) {
	if f.wet == nil {
		return
	}
	make := map[drawTool]func(board.Stroke, board.Point, board.Point, bool) board.Stroke{
		toolLine: sketch.Line, toolEllipse: sketch.Ellipse, toolRectangle: sketch.Rectangle}[f.kind]
	f.shape, f.moved = make(f.pad.like(), f.from, p, g.held&shift != 0), true
	f.pad.easel.Compose(f.wet.Put([]board.Stroke{f.shape}))
}

// Up keeps the shape.
func (f *drawShape) Up() {
	if f.Lay() && f.moved {
		what := map[drawTool]string{toolLine: "line", toolEllipse: "ellipse", toolRectangle: "rectangle"}[f.kind]
		s, _ := sketch.Added(f.pad.sketch, f.shape)
		f.pad.keep(what, s)
	}
}

// Drop has nothing else to lay down.
func (f *drawShape) Drop() bool { return f.Lay() }

// Lay takes it away while it is drawn.
func (f *drawShape) Lay() bool {
	if f.wet == nil {
		return false
	}
	wet := f.wet
	f.wet = nil
	f.pad.easel.Compose(wet.Wash())
	return true
}

// Hover is a cross.
func (f *drawShape) Hover(board.Point, grip) desktop.StandardCursor { return desktop.CrosshairCursor }

// Paint shows nothing of its own.
func (f *drawShape) Paint(marks) {}

// drawFill fills.
type drawFill struct{ pad *drawPad }

// Down fills what is about a point.
func (f *drawFill) Down(p board.Point, _ grip) {
	d, e := f.pad, f.pad.easel
	at := image.Pt(int((p.X*float64(e.h))+float64(e.w)/2), int((p.Y+0.5)*float64(e.h)))
	patch, err := sketch.Fill(e.Ink(), at, d.like())
	if err != nil {
		d.w.foot.Say(sentence(err.Error()))
		return
	}
	// On a line the line is painted over; else lines stay over the colour.
	s := sketch.UnderLines(d.sketch, patch)
	if i := sketch.Hit(d.sketch.Strokes, p, 0, d.seen()); i >= 0 && d.sketch.Strokes[i].Width > 0 {
		s, _ = sketch.Added(d.sketch, patch)
	}
	d.keep("fill", s)
}

// Drag does nothing.
func (f *drawFill) Drag(board.Point, grip) {}

// Up does nothing.
func (f *drawFill) Up() {}

// Lay has nothing to give up.
func (f *drawFill) Lay() bool { return false }

// Drop has nothing to lay down.
func (f *drawFill) Drop() bool { return false }

// Hover is a cross.
func (f *drawFill) Hover(board.Point, grip) desktop.StandardCursor { return desktop.CrosshairCursor }

// Paint shows nothing of its own.
func (f *drawFill) Paint(marks) {}
