package ui

import (
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"stillbeat/board"
)

// cameraHalf is the half of the face with what the camera does.
type cameraHalf struct {
	w        *window
	tool     *cameraTool
	ready    []*hintedButton
	from, to framingFields
	spacing  *hintedSelect
	chart    *chart
	swap, on *hintedButton
	into     *hintedSelect
	passing  *numberField
	length   fyne.CanvasObject // of the transition
	warning  *canvas.Text
	filling  bool
	root     fyne.CanvasObject
}

// framingFields are the numbers of what the camera sees.
type framingFields struct {
	x, y, width *numberField
	name        *hintedButton
}

func (f framingFields) all() []*numberField { return []*numberField{f.x, f.y, f.width} }

var spacingNames = map[board.Spacing]string{board.Even: "even", board.SlowIn: "slow in", board.SlowOut: "slow out", board.SlowInOut: "slow in and out"}

func (w *window) newCameraHalf(t *cameraTool) *cameraHalf {
	h := &cameraHalf{w: w, tool: t, chart: newChart(), warning: written("", red, 12, false)}
	still, pans := container.NewHBox(), container.NewHBox()
	for i, r := range readyMoves {
		text := strings.TrimPrefix(r.name, "Pan ")
		b := w.hinted(strings.ToUpper(text[:1])+text[1:], nil, widget.LowImportance, r.hint, func() { w.readyMove(r) }).by(r.command())
		h.ready = append(h.ready, b)
		if i < 3 {
			still.Add(b)
		} else {
			pans.Add(b)
		}
	}
	h.from, h.to = h.framing("From", false), h.framing("To", true)
	var names []string
	for _, s := range board.Spacings {
		names = append(names, spacingNames[s])
	}
	h.spacing = newHintedSelect(w.hints("How the move is spread over its exposures: slow in eases into its end, slow out eases out of its start"), names, func(string) {
		if i := h.spacing.SelectedIndex(); !h.filling && i >= 0 {
			m := w.board.Panels[w.chosen].Drawing().Travel
			m.Spacing = board.Spacings[i]
			w.moveCamera(m)
			w.win.Canvas().Unfocus()
		}
	})
	h.swap = w.hinted("Swap", nil, widget.LowImportance, "The move runs the other way", w.swapMove).by(swapName)
	h.on = w.hinted("Go on", nil, widget.LowImportance, "Start where the camera of the panel before ends", w.moveOn).by(moveOnName)
	play := w.hinted("Play", nil, widget.LowImportance, "Play the chosen panels once", w.playPanel).by(playPanelName)
	var ways []string
	for _, p := range board.Passages {
		ways = append(ways, passageName(p))
	}
	h.into = newHintedSelect(w.hints("How the picture before gives way to this one"), ways, func(string) {
		if i := h.into.SelectedIndex(); !h.filling && i >= 0 {
			w.onSelection(func(set []int) board.Edit {
				return board.SetTransition(set, usualTransition(board.Passages[i], w.board.Rate))
			})
			w.desk.CloseEdit()
			w.win.Canvas().Unfocus()
		}
	})
	h.passing = w.newNumber("", 0, 2, "Length of the transition in frames, half of it before the cut.", func(v float64) board.Edit {
		return board.SetTransition(w.selection(), board.Transition{Kind: w.board.Panels[w.chosen].Into.Kind, Frames: board.Frame(v)})
	})
	h.length = shared([]float32{1, 0}, h.passing, centred(small("frames")))
	rows := &cardRows{left: []cardRow{
		newCardRow("Moves", still),
		newCardRow("Pans", pans),
		{label: h.from.name, field: h.from.row()},
		{label: h.to.name, field: h.to.row()},
	}, right: []cardRow{
		newCardRow("Spacing", shared([]float32{1, 1}, framed(h.spacing), h.chart)),
		newCardRow("", container.NewHBox(h.swap, h.on, play)),
		newCardRow("", h.warning),
		newCardRow("Into by", shared([]float32{1, 1}, framed(h.into), h.length)),
	}}
	h.root = scrolling(rows)
	return h
}

// framing makes the fields for one end of the move.
func (h *cameraHalf) framing(name string, end bool) framingFields {
	w := h.w
	set := func(change func(f *board.Framing, v float64)) func(float64) board.Edit {
		return func(v float64) board.Edit {
			h.tool.end = end
			m := w.board.Panels[w.chosen].Drawing().Travel
			if end {
				change(&m.To, v)
			} else {
				change(&m.From, v)
			}
			return board.SetMove(w.selection(), m)
		}
	}
	words := map[bool]string{false: " at the start", true: " at the end"}[end]
	f := framingFields{
		x: w.newNumber("", 2, 1, "How far right of the middle the camera looks"+words+", in per cent of the height of the frame.",
			set(func(f *board.Framing, v float64) { f.At.X = v / 100 })),
		y: w.newNumber("", 2, 1, "How far below the middle the camera looks"+words+", in per cent of the height of the frame.",
			set(func(f *board.Framing, v float64) { f.At.Y = v / 100 })),
		width: w.newNumber(" %", 2, 1, "How much of the frame the camera sees"+words+", in per cent of its width.",
			set(func(f *board.Framing, v float64) { f.Width = v / 100 })),
	}
	f.name = w.hinted(name, nil, widget.LowImportance, "Work on what the camera sees"+words, func() {
		h.tool.end = end
		w.faces.Present()
	})
	return f
}

func (f framingFields) row() fyne.CanvasObject {
	return shared([]float32{0, 4, 0, 4, 0, 5}, centred(small("x")), f.x, centred(small("y")), f.y, centred(small("width")), f.width)
}

// show puts a framing into the fields.
func (f framingFields) show(v board.Framing, atWork, can bool) {
	f.x.show(100 * v.At.X)
	f.y.show(100 * v.At.Y)
	f.width.show(100 * v.Part())
	for _, n := range f.all() {
		enable(&n.Entry, can)
	}
	f.name.Importance = widget.LowImportance
	if atWork {
		f.name.Importance = widget.MediumImportance
	}
	f.name.Refresh()
}

// present shows the move of the chosen panel.
func (h *cameraHalf) present(changeable bool) {
	w := h.w
	h.filling = true
	defer func() { h.filling = false }()
	m := h.tool.move()
	for _, b := range h.ready {
		setEnabled(&b.Button, changeable)
	}
	h.from.show(m.From, !h.tool.end || m.Holds(), changeable)
	h.to.show(m.To, h.tool.end && !m.Holds(), changeable)
	h.spacing.SetSelectedIndex(slices.Index(board.Spacings, m.Spacing))
	setAble(&h.spacing.Select, changeable && !m.Holds())
	setEnabled(&h.swap.Button, changeable && !m.Holds())
	setEnabled(&h.on.Button, changeable && w.chosen > 0)
	seen := w.board.SeenIn(w.chosen, w.starts, w.board.Passings(w.starts)).Len()
	step := board.Frame(w.board.StepOf(w.chosen))
	h.chart.Set(m.Spacing, int((seen+step-1)/step))
	setVisible(h.chart, !m.Holds())
	into := w.board.Panels[w.chosen].Into
	h.into.SetSelectedIndex(slices.Index(board.Passages, into.Kind))
	setAble(&h.into.Select, changeable)
	setVisible(h.length, into.Kind != board.Cut)
	h.passing.show(float64(into.Frames))
	enable(&h.passing.Entry, changeable)
	words := ""
	if b, ok := w.pictureBox(); ok {
		words = beyondWords(m, b, w.board.Aspect.Ratio())
	}
	setText(h.warning, words)
	setVisible(h.warning, words != "")
}

// setAble lets a choice be made, or not.
func setAble(s *widget.Select, on bool) {
	if on == s.Disabled() {
		if on {
			s.Enable()
		} else {
			s.Disable()
		}
	}
}
