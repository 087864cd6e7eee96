package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
)

// edgedRenderer lays an edge over one of the toolkit's widgets that has none.
type edgedRenderer struct {
	fyne.WidgetRenderer
	strong  func() bool // whether it is to be seen in every look
	edge    *canvas.Rectangle
	objects []fyne.CanvasObject
}

// edged has a widget drawn with an edge in looks with heavy borders, and in all
// of them while strong.
func edged(inner fyne.WidgetRenderer, strong func() bool) fyne.WidgetRenderer {
	r := &edgedRenderer{WidgetRenderer: inner, strong: strong, edge: canvas.NewRectangle(nil)}
	r.edge.StrokeColor, r.edge.CornerRadius = ink, 3
	r.dress()
	return r
}

func (r *edgedRenderer) dress() {
	r.edge.StrokeWidth = 0
	switch {
	case r.strong():
		r.edge.StrokeWidth = float32(stroke(1.5))
	case worn.weight > 1:
		r.edge.StrokeWidth = float32(worn.weight)
	}
}

// Layout lays the edge around all of it.
func (r *edgedRenderer) Layout(s fyne.Size) {
	r.WidgetRenderer.Layout(s)
	r.edge.Resize(s)
}

// Refresh brings the edge in line with look and focus.
func (r *edgedRenderer) Refresh() {
	r.dress()
	r.WidgetRenderer.Refresh()
}

// Objects are the widget's own, which change as it does, and the edge.
func (r *edgedRenderer) Objects() []fyne.CanvasObject {
	r.objects = append(append(r.objects[:0], r.WidgetRenderer.Objects()...), r.edge)
	return r.objects
}
