package ui

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"stillbeat/board"
	"stillbeat/board/sketch"
)

// drawFace is the side of the card with what there is to draw with.
type drawFace struct {
	w   *window
	pad *drawPad

	tools, inks, widths, papers []*hintedButton
	layers, eyes                [3]*hintedButton
	before, after               *hintedButton
	worn                        *look // the swatches were made for
	heads                       *canvas.Text
	chosen                      *canvas.Text
	choosing, posing, paperRow  fyne.CanvasObject
	why                         *canvas.Text
	begin                       *hintedButton
	empty, body                 fyne.CanvasObject
	root                        fyne.CanvasObject
}

// newDrawFace makes the face.
func (w *window) newDrawFace() *face {
	w.pad = newDrawPad(w)
	f := newDrawSide(w, w.pad)
	w.pad.face = f
	return &face{name: "Draw on the panel", hint: "Sketch on the panel", sign: string(svg(drawSigns[toolPen])), key: fyne.KeyF7,
		root: f.root, tool: w.pad, typed: w.pad.Typed, present: func() {
			w.pad.Present()
			f.Present()
		}}
}

// layerNames are those of the layers, from the bottom up.
var layerNames = [3]string{"Under", "On it", "Over"}

// layerHints say where they lie.
var layerHints = [3]string{"Draw under the photograph", "Draw on the photograph", "Draw over all that is on it"}

func newDrawSide(w *window, pad *drawPad) *drawFace {
	f := &drawFace{w: w, pad: pad, heads: small(""), chosen: small(""), why: small("")}
	button := func(icon fyne.Resource, text, hint string, do func(), by ...string) *hintedButton {
		return w.hinted(text, icon, widget.LowImportance, hint, do).by(by...)
	}
	for k := range drawTools {
		f.tools = append(f.tools, button(sign(drawToolNames[k], drawSigns[k]), "", fmt.Sprintf("%s, key %d. %s", drawToolNames[k], k+1, drawToolHints[k]), func() { pad.setTool(k) }, drawToolNames[k]))
	}
	for i, ink := range sketch.Inks {
		f.inks = append(f.inks, button(nil, "", "Ink: "+ink.Name, func() { pad.setInk(i) }, "Ink: "+ink.Name))
	}
	for i := range sketch.Widths {
		f.widths = append(f.widths, button(widthSign(i), "", fmt.Sprintf("Width %d of %d", i+1, len(sketch.Widths)), func() { pad.setWidth(i) }))
	}
	for i, p := range sketch.Papers {
		f.papers = append(f.papers, button(nil, "", "Paper: "+p.Name, func() { pad.setPaper(i) }, "Paper: "+p.Name))
	}
	for i := range layerNames {
		l := board.Layer(i)
		f.layers[i] = button(nil, layerNames[i], layerHints[i], func() { pad.setLayer(l) }, layerHints[i])
		f.eyes[i] = button(sign("seen", signSeen), "", "Hide the layer while drawing: in the film it stays", func() { pad.setHidden(l, pad.seen()[l]) })
	}
	f.before = button(nil, "Before", "See the panel before through this one, dashed (0: both)", func() { pad.setGhosts(!pad.before, pad.after) }, ghostBeforeName)
	f.after = button(nil, "After", "See the panel after through this one, dotted (0: both)", func() { pad.setGhosts(pad.before, !pad.after) }, ghostAfterName)
	copyLast := button(nil, "Copy strokes", "The strokes of the panel before, on this one", pad.copyLast, lightTableName)
	f.choosing = drawRow("Chosen", centred(f.chosen),
		button(theme.DeleteIcon(), "", "Take the chosen strokes away: Delete", pad.deleteHeld),
		button(theme.ContentCopyIcon(), "", "Duplicate the chosen strokes", pad.duplicateHeld, duplicateStrokesName),
		button(nil, "All", "Choose all strokes that are seen", pad.chooseAllStrokes, allStrokesName))
	fewer, more := button(nil, "−", "Fewer heads tall: a larger head", func() { pad.addHeads(-50) }), button(nil, "+", "More heads tall: a smaller head", func() { pad.addHeads(50) })
	f.posing = drawRow("Figure", button(theme.ContentAddIcon(), "", "Another figure", pad.addFigure, addFigureName),
		button(theme.DeleteIcon(), "", "Take the figure away: Delete", pad.deleteHeld),
		button(nil, "Flip", "It looks the other way", pad.flipFigure, flipFigureName), fewer, centred(f.heads), more)
	f.paperRow = drawRow("Paper", asObjects(f.papers)...)
	rows := container.New(layout.NewCustomPaddedVBoxLayout(1),
		drawRow("", asObjects(f.tools)...), f.choosing, f.posing,
		drawRow("Ink", asObjects(f.inks)...), drawRow("Width", asObjects(f.widths)...),
		drawRow("Layer", f.layers[0], f.eyes[0], f.layers[1], f.eyes[1], f.layers[2], f.eyes[2]),
		drawRow("Beside", f.before, f.after, copyLast), f.paperRow)
	f.body = container.NewScroll(rows)
	f.begin = button(nil, "Add a blank panel and draw", "A panel without a photograph, to sketch on", w.drawOnBlank, drawBlankName)
	f.begin.Importance = widget.MediumImportance
	f.empty = container.NewCenter(container.NewVBox(container.NewCenter(f.why), container.NewCenter(f.begin)))
	f.root = band(paper, padded(10, 6, container.NewStack(f.body, f.empty)))
	f.Present()
	return f
}

// drawnStrokes is how many strokes there are to choose from: those that erase are
// not.
func drawnStrokes(s board.Sketch) (n int) {
	for _, k := range s.Strokes {
		if !k.Erases {
			n++
		}
	}
	return n
}

// drawRow is a row of small things with a name before it.
func drawRow(name string, o ...fyne.CanvasObject) fyne.CanvasObject {
	row := container.New(layout.NewCustomPaddedHBoxLayout(1))
	if name != "" {
		row.Add(fixedWidth(textUnits(46), centred(small(name))))
	}
	for _, x := range o {
		row.Add(x)
	}
	return row
}

func asObjects(b []*hintedButton) (out []fyne.CanvasObject) {
	for _, x := range b {
		out = append(out, x)
	}
	return out
}

// Present shows what is in hand.
func (f *drawFace) Present() {
	d, w := f.pad, f.w
	why := ""
	switch {
	case w.desk.ReadOnly() != nil:
		why = "This film is only shown: it cannot be drawn on."
	case len(w.board.Panels) == 0:
		why = "There is no panel to draw on yet."
	case w.chosen < 0:
		why = "Choose a panel to draw on it."
	}
	setText(f.why, why)
	show(f.empty, why != "")
	show(f.body, why == "")
	show(f.begin, len(w.board.Panels) == 0 && w.desk.ReadOnly() == nil)
	if f.worn != worn {
		f.worn = worn
		for i, ink := range sketch.Inks {
			f.inks[i].SetIcon(swatch(ink.Name, ink.Colour, inkFaint))
		}
		for i, p := range sketch.Papers {
			c := p.Colour
			if c.A == 0 {
				c = blankSwatch()
			}
			f.papers[i].SetIcon(swatch(p.Name, c, inkFaint))
		}
	}
	for k, b := range f.tools {
		pressedIn(b, drawTool(k) == d.kind)
	}
	for i, b := range f.inks {
		pressedIn(b, i == d.ink)
	}
	for i, b := range f.widths {
		pressedIn(b, i == d.width)
	}
	for i, b := range f.papers {
		pressedIn(b, sketch.Papers[i].Colour == d.sketch.Paper)
	}
	seen := d.seen()
	for i := range f.layers {
		pressedIn(f.layers[i], board.Layer(i) == d.layer)
		icon := signSeen
		if !seen[i] {
			icon = signUnseen
		}
		f.eyes[i].SetIcon(sign(fmt.Sprintf("eye-%v", seen[i]), icon))
	}
	pressedIn(f.before, d.before)
	pressedIn(f.after, d.after)
	show(f.choosing, d.kind == toolChoose)
	show(f.posing, d.kind == toolFigure)
	show(f.paperRow, w.chosen >= 0 && w.chosen < len(w.board.Panels) && w.board.Panels[w.chosen].Picture == "")
	setText(f.chosen, fmt.Sprintf("%d of %d", len(d.choose.set), drawnStrokes(d.sketch)))
	setText(f.heads, "")
	if at := d.figure.at; at >= 0 && at < len(d.sketch.Figures) {
		setText(f.heads, fmt.Sprintf("%.3g heads", float64(d.sketch.Figures[at].Heads)/100))
	}
	f.root.Refresh()
}

// pressedIn shows whether a button is the one that holds.
func pressedIn(b *hintedButton, in bool) {
	weight := widget.LowImportance
	if in {
		weight = widget.MediumImportance
	}
	if b.Importance != weight {
		b.Importance = weight
		b.Refresh()
	}
}

// show shows or hides a thing.
func show(o fyne.CanvasObject, seen bool) {
	if seen && !o.Visible() {
		o.Show()
	} else if !seen && o.Visible() {
		o.Hide()
	}
}
