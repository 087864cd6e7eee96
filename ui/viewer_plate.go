package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
)

// plate is a line of words on a small dark plate, which can be read on any
// picture.
type plate struct {
	back  *canvas.Rectangle
	words *canvas.Text
	text  string // in full
}

func newPlate() *plate {
	p := &plate{back: canvas.NewRectangle(plateVeil), words: written("", onPlate, 13, false)}
	p.back.CornerRadius = 3
	p.back.Hidden, p.words.Hidden = true, true
	return p
}

// Set writes words of a size, cut where they do not fit into the room.
func (p *plate) Set(words string, size, room float32) {
	size = textUnits(size)
	p.text = words
	p.words.TextSize = size
	p.words.Text = ""
	if air := p.air(); words != "" && room > 4*air {
		p.words.Text = shortened(words, room-2*air, size)
	}
	p.back.Hidden = p.words.Text == ""
	p.words.Hidden = p.back.Hidden
	p.words.Resize(p.words.MinSize())
	p.back.Resize(fyne.NewSize(p.words.MinSize().Width+2*p.air(), p.Height()))
	p.words.Refresh()
	p.back.Refresh()
}

// fitting returns the size at which words have room, at most that which is
// asked for and not much less.
func fitting(words string, size, room float32) float32 {
	need := fyne.MeasureText(words, textUnits(size), fyne.TextStyle{}).Width
	return size * max(0.7, min(1, room/max(1, need)))
}

// Move puts the plate's corner at a place.
func (p *plate) Move(at fyne.Position) {
	p.back.Move(at)
	p.words.Move(at.AddXY(p.air(), p.air()/3))
}

// Height is that of a line on its plate.
func (p *plate) Height() float32 { return p.words.MinSize().Height + 2*p.air()/3 }

func (p *plate) air() float32 { return p.words.TextSize * 0.5 }
