package ui

import (
	"weak"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
)

// textSizes are the sizes of text that can be set, in per cent.
var textSizes = []int{85, 100, 110, 125, 140, 150}

// textPercent is the one that is set. It belongs to the window's goroutine.
var textPercent = 100

// textUnits is a measure of text, in units of the window at 100 %, at the size
// that is set.
func textUnits(v float32) float32 { return v * (float32(textPercent) / 100) }

// inText returns where a place of the window's is in units of text, in which
// timeline and wall are painted.
func inText(p fyne.Position) (x, y float64) {
	unit := float64(textUnits(1))
	return float64(p.X) / unit, float64(p.Y) / unit
}

// textDress is what a text was written in.
type textDress struct {
	tint tint
	size float32 // at 100 %
}

// dressed are the texts on screen, wherever they stand: in lists and dialogs
// too, which no walk through the window reaches. They are held weakly.
var dressed = map[weak.Pointer[canvas.Text]]textDress{}

// pruneAt is the count of texts at which those that are gone are dropped.
var pruneAt = 512

// written makes a line of text that follows the look and the size of text.
func written(s string, c tint, size float32, bold bool) *canvas.Text {
	if len(dressed) >= pruneAt {
		for p := range dressed {
			if p.Value() == nil {
				delete(dressed, p)
			}
		}
		pruneAt = 2*len(dressed) + 512
	}
	t := canvas.NewText(s, c.rgba())
	t.TextSize, t.TextStyle = textUnits(size), fyne.TextStyle{Bold: bold}
	dressed[weak.Make(t)] = textDress{c, size}
	return t
}

// tinted gives a written line another tint.
func tinted(t *canvas.Text, c tint) {
	d := dressed[weak.Make(t)]
	d.tint = c
	dressed[weak.Make(t)] = d
	t.Color = c.rgba()
	t.Refresh()
}

// redress brings every line in line with look and size.
func redress() {
	for p, d := range dressed {
		if t := p.Value(); t != nil {
			t.Color, t.TextSize = d.tint.rgba(), textUnits(d.size)
		}
	}
}
