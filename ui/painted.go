package ui

import (
	"image"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
)

// newPainted returns what a function paints, pixel by pixel of the screen.
func newPainted(paint func(w, h int) image.Image) *canvas.Raster {
	r := canvas.NewRaster(paint)
	r.ScaleMode = canvas.ImageScaleFastest // there is nothing to smooth
	return r
}

// isLatin reports whether the font of the figures has all the letters.
func isLatin(s string) bool {
	for _, r := range s {
		if r > 0x52f { // up to Cyrillic
			return false
		}
	}
	return true
}

// wordsWidth returns how wide a line is in any script.
func wordsWidth(p pen, size float64, bold bool, s string) float64 {
	if isLatin(s) {
		return p.width(size, bold, s)
	}
	return float64(fyne.MeasureText(s, textUnits(float32(size)), fyne.TextStyle{Bold: bold}).Width / textUnits(1))
}
