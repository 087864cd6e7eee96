package ui

import (
	"image"

	"fyne.io/fyne/v2/canvas"
)

// newPainted returns what a function paints, pixel by pixel of the screen.
func newPainted(paint func(w, h int) image.Image) *canvas.Raster {
	r := canvas.NewRaster(paint)
	r.ScaleMode = canvas.ImageScaleFastest // there is nothing to smooth
	return r
}
