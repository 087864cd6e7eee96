package ui

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
)

// widthLayout gives its one object a fixed width, which grows with the text, and
// the height it is given.
type widthLayout float32

func (w widthLayout) MinSize(o []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(textUnits(float32(w)), o[0].MinSize().Height)
}

func (w widthLayout) Layout(o []fyne.CanvasObject, s fyne.Size) {
	h := min(s.Height, o[0].MinSize().Height)
	o[0].Move(fyne.NewPos(0, (s.Height-h)/2))
	o[0].Resize(fyne.NewSize(s.Width, h))
}

func fixedWidth(w float32, o fyne.CanvasObject) fyne.CanvasObject {
	return container.New(widthLayout(w), o)
}

// band lays objects on a strip of one colour.
func band(c color.Color, o fyne.CanvasObject) fyne.CanvasObject {
	return container.NewStack(canvas.NewRectangle(c), o)
}

// padded leaves x units free left and right and y above and below.
func padded(x, y float32, o fyne.CanvasObject) fyne.CanvasObject {
	return container.New(layout.NewCustomPaddedLayout(y, y, x, x), o)
}

// rule is a thin line between parts of the window.
func rule() fyne.CanvasObject {
	return container.New(ruleLayout{}, canvas.NewRectangle(paperEdge))
}

// ruleLayout makes a line as thick as borders are in the look that is worn.
type ruleLayout struct{}

func (ruleLayout) MinSize([]fyne.CanvasObject) fyne.Size {
	return fyne.NewSquareSize(float32(stroke(1)))
}

func (ruleLayout) Layout(o []fyne.CanvasObject, s fyne.Size) { o[0].Resize(s) }
