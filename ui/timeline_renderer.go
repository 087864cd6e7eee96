package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
)

// timelineRenderer lays out the painted picture, the titles over it and the
// playhead over both.
type timelineRenderer struct {
	t          *timeline
	line, head *canvas.Rectangle
	words      []*canvas.Text // in scripts the figures' font lacks
	texts      []wallText
	objects    []fyne.CanvasObject
}

func (r *timelineRenderer) Layout(s fyne.Size) {
	v := &r.t.view
	r.t.grow(s)
	if r.t.whole {
		v.timescale = v.fit(0, v.length())
	} else {
		r.t.keepInSight()
	}
	r.t.raster.Resize(s)
	r.placeTitles()
	r.placeWords()
	r.placePlayhead()
}

// grow gives the view its size. It is drawn in units of text, so that all of it
// grows with the size of text; what was in sight stays so.
func (t *timeline) grow(s fyne.Size) {
	v, unit := &t.view, float64(textUnits(1))
	if t.unit > 0 && t.unit != unit {
		v.perSec *= t.unit / unit
	}
	t.unit = unit
	v.width, v.height = float64(s.Width)/unit, float64(s.Height)/unit
}

func (r *timelineRenderer) MinSize() fyne.Size { return r.t.MinSize() }

func (r *timelineRenderer) Refresh() {
	r.placeTitles()
	r.placeWords()
	r.placePlayhead()
	r.t.raster.Refresh()
}

func (r *timelineRenderer) Destroy() {}

func (r *timelineRenderer) Objects() []fyne.CanvasObject {
	out := append(r.objects[:0], r.t.raster)
	for _, x := range r.t.titles {
		out = append(out, x)
	}
	for _, x := range r.words {
		out = append(out, x)
	}
	r.objects = append(out, r.line, r.head)
	return r.objects
}

func (r *timelineRenderer) placePlayhead() {
	v := &r.t.view
	show := v.frameX(r.t.at) >= -1 && v.frameX(r.t.at) <= v.width+1
	x := textUnits(float32(v.frameX(r.t.at)))
	r.line.Hidden, r.head.Hidden = !show, !show
	r.line.Move(fyne.NewPos(x-0.75, 0))
	r.line.Resize(fyne.NewSize(1.5, textUnits(float32(v.overviewTop()))))
	r.head.Move(fyne.NewPos(x-4.5, 0))
	r.head.Resize(fyne.NewSize(9, 9))
}

// placeTitles writes the titles of the panels in sight that have room.
func (r *timelineRenderer) placeTitles() {
	v, n := &r.t.view, 0
	p := pen{scale: 1}
	const size, least = 10.5, 26
	for i := max(0, firstInSight(v)); i < len(v.board.Panels); i++ {
		if v.frameX(v.starts[i]) > v.width {
			break
		}
		title := v.board.Panels[i].Title
		l, right := v.titleSlot(p, i)
		if title == "" || right-l < least {
			continue
		}
		if n == len(r.t.titles) {
			r.t.titles = append(r.t.titles, written("", inkSoft, size, false))
		}
		text := r.t.titles[n]
		n++
		text.Text = shortened(title, textUnits(float32(right-l)), textUnits(size))
		text.Move(fyne.NewPos(textUnits(float32(l)), textUnits(float32(v.panelBottom()-captionH+2))))
		text.Resize(fyne.NewSize(textUnits(float32(right-l)), textUnits(captionH-4)))
		text.Hidden = false
		text.Refresh()
	}
	for _, text := range r.t.titles[n:] {
		text.Hidden = true
	}
}

// placeWords writes the words that cannot be painted.
func (r *timelineRenderer) placeWords() {
	n := 0
	r.texts = r.t.view.words(pen{scale: 1}, r.texts[:0])
	for _, t := range r.texts {
		if n == len(r.words) {
			r.words = append(r.words, written("", ink, 11, false))
		}
		t.write(r.words[n])
		n++
	}
	for _, text := range r.words[n:] {
		text.Hidden = true
	}
}

// shortened cuts s to the width, with dots for what is missing.
func shortened(s string, width, size float32) string {
	fits := func(s string) bool { return fyne.MeasureText(s, size, fyne.TextStyle{}).Width <= width }
	if fits(s) {
		return s
	}
	runes := []rune(s)
	lo, hi := 0, len(runes)
	for lo < hi {
		mid := (lo + hi + 1) / 2
		if fits(string(runes[:mid]) + "…") {
			lo = mid
		} else {
			hi = mid - 1
		}
	}
	if lo == 0 {
		return ""
	}
	return string(runes[:lo]) + "…"
}
