package ui

import (
	"fmt"

	"fyne.io/fyne/v2"

	"stillbeat/board"
	"stillbeat/board/figure"
	"stillbeat/board/sketch"
)

// Names of commands that buttons of the pad name too.
const (
	ghostsName           = "Both panels beside show through"
	ghostBeforeName      = "The panel before shows through"
	ghostAfterName       = "The panel after shows through"
	lightTableName       = "Copy the strokes of the panel before"
	duplicateStrokesName = "Duplicate the chosen strokes"
	allStrokesName       = "Choose all strokes"
	addFigureName        = "Add a jointed figure"
	flipFigureName       = "Flip the figure"
	takeHeldName         = "Take away what is chosen"
	drawBlankName        = "Add a blank panel and draw"
)

// drawCommands are the Draw menu. The keys of the tools are the pad's own while
// it is up: see Typed.
func (w *window) drawCommands() []*command {
	d := w.pad
	panel := func() bool { return w.chosen >= 0 && w.desk.ReadOnly() == nil }
	var c []*command
	add := func(x *command) {
		x.menu = "Draw"
		c = append(c, x)
	}
	for k := range drawTools {
		add(&command{name: drawToolNames[k], label: func() string { return fmt.Sprintf("%s (%d while drawing)", drawToolNames[k], k+1) }, do: func() { d.setTool(k) }, can: panel,
			ticked: func() bool { return w.faces.drawing() && d.kind == k }})
	}
	add(&command{})
	add(&command{name: "Finer line", key: fyne.KeyLeftBracket, mod: shift, do: func() { d.setWidth(d.width - 1) }, can: func() bool { return panel() && d.width > 0 }})
	add(&command{name: "Broader line", key: fyne.KeyRightBracket, mod: shift, do: func() { d.setWidth(d.width + 1) }, can: func() bool { return panel() && d.width < len(sketch.Widths)-1 }})
	for i, ink := range sketch.Inks {
		add(&command{group: "Ink", name: "Ink: " + ink.Name, do: func() { d.setInk(i) }, can: panel, ticked: func() bool { return d.ink == i }})
	}
	blank := func() bool { return panel() && w.board.Panels[w.chosen].Picture == "" }
	for i, p := range sketch.Papers {
		add(&command{group: "Paper", name: "Paper: " + p.Name, do: func() { d.setPaper(i) }, can: blank, ticked: func() bool { return d.sketch.Paper == p.Colour }})
	}
	for i, name := range layerHints {
		add(&command{group: "Layer", name: name, do: func() { d.setLayer(board.Layer(i)) }, can: panel, ticked: func() bool { return d.layer == board.Layer(i) }})
	}
	add(&command{})
	add(&command{name: ghostsName, label: func() string { return ghostsName + " (0 while drawing)" }, do: d.toggleGhosts, can: panel,
		ticked: func() bool { return d.before && d.after }})
	add(&command{name: ghostBeforeName, do: func() { d.setGhosts(!d.before, d.after) }, can: panel, ticked: func() bool { return d.before }})
	add(&command{name: ghostAfterName, do: func() { d.setGhosts(d.before, !d.after) }, can: panel, ticked: func() bool { return d.after }})
	add(&command{})
	add(&command{name: lightTableName, key: fyne.KeyL, mod: ctrl, do: d.copyLast, can: func() bool { return panel() && w.chosen > 0 }})
	chosen := func() bool { return panel() && len(d.choose.set) > 0 }
	add(&command{name: allStrokesName, do: d.chooseAllStrokes, can: func() bool { return panel() && len(d.sketch.Strokes) > 0 }})
	add(&command{name: duplicateStrokesName, do: d.duplicateHeld, can: chosen})
	add(&command{name: takeHeldName, do: d.deleteHeld, can: func() bool { return chosen() || panel() && d.figure.at >= 0 }})
	add(&command{name: "Take the whole sketch away", do: func() { d.keep("take the sketch away", board.Sketch{}); d.refresh() }, can: func() bool { return panel() && !d.sketch.Empty() }})
	add(&command{})
	posed := func() bool { return panel() && d.figure.at >= 0 }
	add(&command{name: addFigureName, do: d.addFigure, can: panel})
	add(&command{name: flipFigureName, do: d.flipFigure, can: posed})
	add(&command{name: "Stand the figure on its ground", do: func() { d.figure.pose("stand", figure.Pose.Standing) }, can: posed})
	add(&command{})
	add(&command{name: drawBlankName, do: w.drawOnBlank, can: func() bool { return w.desk.ReadOnly() == nil }})
	return c
}

// drawing reports whether the sketch pad is up.
func (fs *faces) drawing() bool { return fs.up.tool != nil && fs.up.tool == tool(fs.w.pad) }

// up turns the card to the pad.
func (d *drawPad) up() {
	w := d.w
	w.pages.Show(w.timelinePage)
	for _, f := range w.faces.all {
		if f.tool == tool(d) {
			w.faces.Show(f)
		}
	}
}

// changed shows what is in hand now.
func (d *drawPad) changed() {
	d.up()
	d.refresh()
	refreshMenus(d.w.menu, d.w.commands)
}

func (d *drawPad) setTool(k drawTool) {
	d.hand().Drop()
	d.kind = k
	d.changed()
	d.w.foot.Hint(drawToolNames[k] + ": " + drawToolHints[k] + ". While you draw, 1 to 9 are the tools and 0 shows the panels beside.")
}

// setInk takes an ink; what is chosen gets it.
func (d *drawPad) setInk(i int) {
	d.ink = i
	c := sketch.Inks[i].Colour
	d.onHeld("ink of strokes", func(k *board.Stroke) { k.Ink = c }, func(f *board.Figure) { f.Ink = c })
	d.changed()
}

// setWidth takes a width; strokes that are chosen get it.
func (d *drawPad) setWidth(i int) {
	d.width = min(max(i, 0), len(sketch.Widths)-1)
	d.onHeld("width of strokes", func(k *board.Stroke) {
		if k.Width > 0 {
			k.Width = sketch.Widths[d.width]
		}
	}, nil)
	d.changed()
}

// setLayer draws on a layer; what is chosen goes there.
func (d *drawPad) setLayer(l board.Layer) {
	d.layer = l
	if d.kind == toolChoose && len(d.choose.set) > 0 { // away from what erases them
		s, set := sketch.Cut(d.sketch, d.choose.set, drawer)
		s = sketch.Change(s, set, func(k board.Stroke) board.Stroke {
			k.Layer = l
			return k
		})
		if s, set = sketch.Raised(s, set); d.keep("layer of strokes", s) {
			d.choose.set = set
		}
	} else {
		d.onHeld("layer of strokes", nil, func(f *board.Figure) { f.Layer = l })
	}
	if d.easel != nil {
		d.easel.active = l
		d.easel.All()
	}
	d.changed()
}

// onHeld changes the strokes or the figure that are chosen.
func (d *drawPad) onHeld(what string, stroke func(*board.Stroke), figure func(*board.Figure)) {
	switch {
	case d.kind == toolChoose && len(d.choose.set) > 0:
		d.keep(what, sketch.Change(d.sketch, d.choose.set, func(k board.Stroke) board.Stroke {
			stroke(&k)
			return k
		}))
	case d.kind == toolFigure && d.figure.at >= 0 && figure != nil:
		d.figure.change("figure", figure)
	}
}

func (d *drawPad) setPaper(i int) {
	s := d.sketch
	s.Paper = sketch.Papers[i].Colour
	d.keep("paper", s)
	d.changed()
}

// setHidden hides a layer while drawing.
func (d *drawPad) setHidden(l board.Layer, hidden bool) {
	if !d.ready(true) {
		return
	}
	d.easel.hidden[l] = hidden
	d.easel.All()
	d.refresh()
}

// setGhosts has the panels beside show through.
func (d *drawPad) setGhosts(before, after bool) {
	d.before, d.after = before, after
	d.ready(false)
	d.changed()
}

// toggleGhosts has both panels beside show through, or none.
func (d *drawPad) toggleGhosts() {
	on := !(d.before || d.after)
	d.setGhosts(on, on)
}
