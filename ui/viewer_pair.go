package ui

import (
	"image"

	"stillbeat/board"
	"stillbeat/board/picture"
)

// pairGap is the room between two pictures, in units.
const pairGap = 8

// Pair puts another picture, as large, beside the viewer's own, or takes it
// away. What it shows it is told as twin.
func (v *viewer) Pair(on bool) {
	if on == (v.twin != nil) {
		return
	}
	v.twin = nil
	if on {
		v.twin = newViewer(v.get, v.failed)
		v.twin.host, v.twin.margin, v.twin.shape = v, 0, v.shape
		v.twin.about.Hide(true)
	}
	v.lay(v.Size())
	v.about[0].Refresh()
}

// both returns the viewer and its twin, if it has one.
func (v *viewer) both() []*viewer {
	if v.twin == nil {
		return []*viewer{v}
	}
	return []*viewer{v, v.twin}
}

// pairIn returns where two pictures of a shape lie in box, so many pixels
// between them: side by side, or one below the other where they are clearly larger so.
func pairIn(a board.Aspect, box image.Rectangle, gap int) (first, second image.Rectangle) {
	fit := func(w, h int) image.Point { return picture.FitShape(a, image.Rect(0, 0, max(w, 1), max(h, 1))).Size() }
	size, step := fit((box.Dx()-gap)/2, box.Dy()), image.Point{}
	if below := fit(box.Dx(), (box.Dy()-gap)/2); float64(below.Y) > 1.25*float64(size.Y) {
		size, step.Y = below, below.Y+gap
	} else {
		step.X = size.X + gap
	}
	corner := box.Min.Add(box.Size().Sub(size).Sub(step).Div(2))
	first = image.Rectangle{Min: corner, Max: corner.Add(size)}
	return first, first.Add(step)
}

// togglePair shows the film at its own frame rate and at another side by side,
// with the same sound, or at its own alone.
func (w *window) togglePair() {
	w.paired = !w.paired
	switch {
	case !w.paired:
		w.seen = nil
	case w.seen == nil:
		w.seen = seenAs(w.desk.Pictures, w.board, otherRate(w.board.Rate))
	}
	w.sayPair()
	w.showFrame(w.at)
	refreshMenus(w.menu, w.commands)
}
