package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
)

// rollRenderer lays out the painted picture, with words over it.
type rollRenderer struct {
	r       *roll
	words   []*canvas.Text
	texts   []wallText
	objects []fyne.CanvasObject
}

func (x *rollRenderer) Layout(s fyne.Size) {
	r := x.r
	r.width, r.height = inText(fyne.NewPos(s.Width, s.Height))
	r.of.resize(r.width-wallBarW, r.height)
	r.top = max(0, min(r.top, r.of.long()-r.height))
	r.raster.Resize(s)
	if r.up {
		x.placeWords()
	}
}

func (x *rollRenderer) MinSize() fyne.Size { return x.r.MinSize() }

func (x *rollRenderer) Refresh() {
	x.placeWords()
	x.r.raster.Refresh()
}

func (x *rollRenderer) Destroy() {}

func (x *rollRenderer) Objects() []fyne.CanvasObject {
	out := append(x.objects[:0], x.r.raster)
	for _, w := range x.words {
		out = append(out, w)
	}
	x.objects = out
	return out
}

// placeWords writes the words that cannot be painted. Those not in sight in
// full are left out: they would lie over what is beside the roll.
func (x *rollRenderer) placeWords() {
	r, n := x.r, 0
	x.texts = r.of.words(pen{scale: 1}, r.top, x.texts[:0])
	for _, t := range x.texts {
		if head := r.of.head(); t.y > head-6 && t.y < head+1.1*t.size || t.y > r.height-0.4*t.size {
			continue
		}
		if n == len(x.words) {
			x.words = append(x.words, written("", ink, 11, false))
		}
		t.write(x.words[n])
		n++
	}
	for _, text := range x.words[n:] {
		text.Hidden = true
	}
}

// write has an object of the toolkit show the words where they belong.
func (t wallText) write(text *canvas.Text) {
	was := *text
	width, high := textUnits(float32(t.w)), textUnits(float32(t.size))
	text.Text, text.Color = shortened(t.s, width, high), t.c.rgba()
	text.TextSize, text.TextStyle.Bold, text.Hidden = high, t.bold, false
	size, base := fyne.CurrentApp().Driver().RenderedTextSize(text.Text, text.TextSize, text.TextStyle, nil)
	text.Move(fyne.NewPos(textUnits(float32(t.x)), textUnits(float32(t.y))-base))
	text.Resize(fyne.NewSize(width, size.Height))
	if was.Text != text.Text || was.Color != text.Color || was.TextSize != text.TextSize || was.TextStyle != text.TextStyle || was.Hidden {
		text.Refresh()
	}
}
