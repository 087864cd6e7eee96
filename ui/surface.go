package ui

import (
	"image"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"stillbeat/board"
)

// tool is what the pointer does on the picture. Places are points of the
// frame, in heights of it from its middle.
type tool interface {
	Down(p board.Point, g grip)                         // a button went down
	Drag(p board.Point, g grip)                         // the pointer moved with it
	Up()                                                // it was let go
	Hover(p board.Point, g grip) desktop.StandardCursor // the pointer moved; what it is to look like there
	Paint(m marks)                                      // what is seen on the picture
}

// grip is how the picture is taken hold of.
type grip struct {
	reach  float64 // heights of the frame: what is nearer than this is meant
	view   view    // what of the picture and about it is seen
	second bool    // the other button
	held   fyne.KeyModifier
}

// view is how far the room reaches that is seen, in heights of the frame.
type view struct{ x0, y0, x1, y1 float64 }

// near returns the place in the view that is next to one, so far from its edge.
func (v view) near(p board.Point, margin float64) board.Point {
	within := func(at, lo, hi float64) float64 { return max(lo+margin, min(hi-margin, at)) }
	return board.Point{X: within(p.X, v.x0, v.x1), Y: within(p.Y, v.y0, v.y1)}
}

// roomy is a tool that wants room about the frame.
type roomy interface{ Roomy() }

// marks is what a tool paints on: the picture with room about it, in units of
// the window.
type marks struct {
	pen
	mid  [2]float64 // of the frame
	high float64    // of the frame
	view view
}

// at returns where a point of the frame is, in units.
func (m marks) at(p board.Point) (x, y float64) {
	return m.mid[0] + p.X*m.high, m.mid[1] + p.Y*m.high
}

// surface lies on the viewer, and the tool in hand works there. Without one it
// is not there.
type surface struct {
	widget.BaseWidget
	viewer *viewer
	tool   tool
	image  *canvas.Image
	cursor desktop.StandardCursor
	down   bool
	buffer *image.RGBA // painted on each time
}

func newSurface(v *viewer) *surface {
	s := &surface{viewer: v, image: canvas.NewImageFromImage(nil)}
	s.image.ScaleMode, s.image.FillMode = canvas.ImageScaleFastest, canvas.ImageFillStretch
	s.ExtendBaseWidget(s)
	s.Hidden = true
	return s
}

// Take takes a tool in hand, or with nil lays it away.
func (s *surface) Take(t tool) {
	s.Up()
	s.tool, s.cursor = t, desktop.DefaultCursor
	s.Hidden = t == nil
	_, room := t.(roomy)
	s.viewer.Room(room)
	s.Refresh()
}

// Up ends what the pressed button does.
func (s *surface) Up() {
	if s.down && s.tool != nil {
		s.down = false
		s.tool.Up()
		s.Refresh()
	}
}

// frame returns where the film's frame lies.
func (s *surface) frame() (fyne.Position, fyne.Size) {
	return s.viewer.image.Position(), s.viewer.image.Size()
}

// point returns the point of the frame at a position.
func (s *surface) point(at fyne.Position) board.Point {
	pos, size := s.frame()
	if size.Height <= 0 {
		return board.Point{}
	}
	return board.Point{X: float64((at.X - pos.X - size.Width/2) / size.Height), Y: float64((at.Y - pos.Y - size.Height/2) / size.Height)}
}

// gripReach is how near the pointer has to come, in units.
const gripReach = 9

func (s *surface) grip(button desktop.MouseButton) grip {
	_, high := s.frame()
	return grip{gripReach / max(1, float64(high.Height)), s.view(), button == desktop.MouseButtonSecondary, modifiers()}
}

func (s *surface) view() view {
	a, z := s.point(fyne.Position{}), s.point(fyne.NewPos(s.Size().Width, s.Size().Height))
	return view{a.X, a.Y, z.X, z.Y}
}

// MouseDown begins with the tool.
func (s *surface) MouseDown(e *desktop.MouseEvent) {
	if s.tool != nil && !s.down {
		if c := fyne.CurrentApp().Driver().CanvasForObject(s); c != nil {
			c.Unfocus()
		}
		s.down = true
		s.tool.Down(s.point(e.Position), s.grip(e.Button))
		s.Refresh()
	}
}

// Dragged goes on.
func (s *surface) Dragged(e *fyne.DragEvent) {
	if s.down {
		s.tool.Drag(s.point(e.Position), s.grip(desktop.MouseButtonPrimary))
		s.Refresh()
	}
}

// MouseUp ends it.
func (s *surface) MouseUp(*desktop.MouseEvent) { s.Up() }

// DragEnd ends it outside.
func (s *surface) DragEnd() { s.Up() }

// MouseIn is like any move.
func (s *surface) MouseIn(e *desktop.MouseEvent) { s.MouseMoved(e) }

// MouseMoved shows what would be taken hold of.
func (s *surface) MouseMoved(e *desktop.MouseEvent) {
	if s.tool != nil && !s.down {
		s.cursor = s.tool.Hover(s.point(e.Position), s.grip(desktop.MouseButtonPrimary))
	}
}

// MouseOut leaves everything as it is.
func (s *surface) MouseOut() {}

// Cursor is the tool's.
func (s *surface) Cursor() desktop.Cursor { return s.cursor }

// paint draws the tool's marks for a surface of so many units.
func (s *surface) paint(size fyne.Size, scale float64) *image.RGBA {
	img, rect := s.buffer, image.Rect(0, 0, int(float64(size.Width)*scale+0.5), int(float64(size.Height)*scale+0.5))
	if img == nil || img.Rect != rect {
		img = image.NewRGBA(rect)
		s.buffer = img
	} else {
		clear(img.Pix)
	}
	pos, frame := s.frame()
	mid := [2]float64{float64(pos.X + frame.Width/2), float64(pos.Y + frame.Height/2)}
	s.tool.Paint(marks{pen{img, scale}, mid, float64(frame.Height), s.view()})
	return img
}

// CreateRenderer shows the marks.
func (s *surface) CreateRenderer() fyne.WidgetRenderer { return &surfaceRenderer{s} }

type surfaceRenderer struct{ s *surface }

func (r *surfaceRenderer) Layout(size fyne.Size) {
	r.s.image.Resize(size)
	r.Refresh()
}

func (r *surfaceRenderer) Refresh() {
	s := r.s
	if s.tool == nil || s.Size().Width < 1 || s.Size().Height < 1 {
		s.image.Image = nil
	} else {
		s.image.Image = s.paint(s.Size(), s.viewer.scale())
	}
	s.image.Refresh()
}

func (r *surfaceRenderer) MinSize() fyne.Size           { return fyne.Size{} }
func (r *surfaceRenderer) Objects() []fyne.CanvasObject { return []fyne.CanvasObject{r.s.image} }
func (r *surfaceRenderer) Destroy()                     {}
