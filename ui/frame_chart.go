package ui

import (
	"image"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/widget"

	"stillbeat/board"
)

// chart is a line with a mark for each exposure of a move, as animators chart
// their spacing: where the marks are close the camera is slow.
type chart struct {
	widget.BaseWidget
	spacing   board.Spacing
	exposures int
	image     *canvas.Raster
}

func newChart() *chart {
	c := &chart{}
	c.image = newPainted(func(w, h int) image.Image {
		img := image.NewRGBA(image.Rect(0, 0, w, h))
		scale := 1.
		if c.Size().Width > 0 {
			scale = float64(w) / float64(c.Size().Width)
		}
		paintChart(pen{img, scale}, float64(c.Size().Width), float64(c.Size().Height), c.spacing, c.exposures)
		return img
	})
	c.ExtendBaseWidget(c)
	return c
}

// Set shows a spacing over so many exposures.
func (c *chart) Set(s board.Spacing, exposures int) {
	c.spacing, c.exposures = s, exposures
	c.image.Refresh()
}

// MinSize has room for the marks of a usual move.
func (c *chart) MinSize() fyne.Size { return fyne.NewSize(90, textUnits(22)) }

// CreateRenderer shows the chart.
func (c *chart) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(c.image) }

// mostMarks is how many marks are told apart on a chart; of more, every second
// is shown, or every third.
const mostMarks = 40

// paintChart draws a chart w wide and h high.
func paintChart(p pen, w, h float64, s board.Spacing, exposures int) {
	const margin = 5
	mid, long := h/2, w-2*margin
	p.fill(margin, mid-0.5, margin+long, mid+0.5, inkSoft)
	for _, u := range chartMarks(s, exposures) {
		x := margin + long*u
		if u == 0 || u == 1 {
			p.fill(x-0.75, mid-h*0.4, x+0.75, mid+h*0.4, ink)
		} else {
			p.disc(x, mid, 2.2, ink)
		}
	}
}

// chartMarks returns the parts of the way that are shown as marks.
func chartMarks(s board.Spacing, exposures int) []float64 {
	if exposures < 2 {
		return []float64{0, 1}
	}
	last := exposures - 1
	by := (last + mostMarks - 1) / mostMarks
	var out []float64
	for k := 0; k < last; k += by {
		out = append(out, s.At(float64(k)/float64(last)))
	}
	return append(out, 1)
}
