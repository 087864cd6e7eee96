package ui

import (
	"image/color"
	"slices"

	"stillbeat/board"
	"stillbeat/board/figure"
	"stillbeat/board/picture"
	"stillbeat/board/sketch"
)

// copyLast puts the strokes of the panel before onto this one: those chosen
// there last, or all.
func (d *drawPad) copyLast() {
	w := d.w
	if w.chosen < 1 {
		w.foot.Say("There is no panel before this one.")
		return
	}
	from, err := w.sketchReader()(w.chosen - 1)
	if err != nil {
		w.foot.Say(sentence(err.Error()))
		return
	}
	if len(from.Strokes) == 0 && len(from.Figures) == 0 {
		w.foot.Say("Nothing is drawn on the panel before.")
		return
	}
	d.up()
	d.Present()
	strokes := from.Strokes
	if set := d.choose.left[w.board.Panels[w.chosen-1].ID]; len(set) > 0 {
		strokes, from.Figures = set, nil
	}
	s, set := sketch.Added(d.sketch, strokes...)
	s.Figures = append(slices.Clone(s.Figures), from.Figures...)
	if d.keep("copy strokes", s) {
		d.hand().Drop()
		d.kind, d.choose.set = toolChoose, set
	}
	d.changed()
}

// deleteHeld takes away the strokes or the figure that are chosen.
func (d *drawPad) deleteHeld() {
	s := d.sketch
	switch {
	case d.kind == toolChoose && len(d.choose.set) > 0:
		set := d.choose.set
		d.choose.set = nil
		d.keep("delete strokes", sketch.Without(s, set))
	case d.kind == toolFigure && d.figure.at >= 0 && d.figure.at < len(s.Figures):
		s.Figures = slices.Delete(slices.Clone(s.Figures), d.figure.at, d.figure.at+1)
		d.figure.at = -1
		d.keep("delete figure", s)
	default:
		d.w.foot.Say("Nothing is chosen on the sketch. On the side of the card with the words, Delete takes panels out.")
		return
	}
	d.changed()
}

// duplicateHeld puts copies of the chosen strokes beside them.
func (d *drawPad) duplicateHeld() {
	if len(d.choose.set) == 0 {
		return
	}
	copies := sketch.Chosen(sketch.Cut(d.sketch, d.choose.set, drawer))
	for i, k := range copies {
		copies[i] = sketch.Shift(0.03, 0.03).Stroke(k)
	}
	s, set := sketch.Added(d.sketch, copies...)
	if d.keep("duplicate strokes", s) {
		d.choose.set = set
	}
	d.changed()
}

func (d *drawPad) chooseAllStrokes() {
	d.hand().Drop()
	d.kind, d.choose.set = toolChoose, nil
	for i, k := range d.sketch.Strokes {
		if d.seen()[k.Layer] && !k.Erases {
			d.choose.set = append(d.choose.set, i)
		}
	}
	d.changed()
}

func (d *drawPad) addFigure() {
	d.up()
	d.Present()
	d.hand().Drop()
	d.kind = toolFigure
	d.figure.Add()
	d.changed()
}

func (d *drawPad) flipFigure() { d.figure.pose("flip figure", figure.Pose.Flipped) }

// addHeads makes the figure so many hundredths of heads taller in proportion.
func (d *drawPad) addHeads(by int32) {
	d.figure.pose("heads of figure", func(p figure.Pose) figure.Pose { return p.InHeads(p.Heads + by) })
}

// pose changes the pose of the figure at hand.
func (f *drawFigure) pose(what string, do func(figure.Pose) figure.Pose) {
	f.change(what, func(g *board.Figure) { g.Pose = do(g.Pose) })
}

// drawOnBlank adds a blank panel and turns the card to the pad.
func (w *window) drawOnBlank() {
	w.addBlank(false)
	w.pad.changed()
}

// blankSwatch is the blank card as a swatch.
func blankSwatch() color.NRGBA {
	return color.NRGBAModel.Convert(picture.Blank).(color.NRGBA)
}
