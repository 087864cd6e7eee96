package ui

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"stillbeat/board"
	"stillbeat/board/picture"
)

// placeHalf is the half of the face with how the picture lies.
type placeHalf struct {
	w              *window
	tool           *placeTool
	fits           map[board.Fitting]*hintedButton
	flip           *hintedButton
	back           *hintedButton
	x, y, by, turn *numberField
	size           *canvas.Text
	others         []*hintedButton
	root           fyne.CanvasObject
}

func (w *window) newPlaceHalf(t *placeTool) *placeHalf {
	h := &placeHalf{w: w, tool: t, fits: map[board.Fitting]*hintedButton{}, size: small("")}
	fits := container.NewHBox()
	for _, f := range board.Fittings {
		words := map[board.Fitting]string{board.Fitted: "The whole picture, with bars where the shapes differ",
			board.Filled: "No bars: cut where the shapes differ", board.ByHand: "Moved, scaled and turned from where it is"}[f]
		h.fits[f] = w.hinted(placementName(f), nil, widget.LowImportance, words, func() { w.fitPicture(f) }).by(fitCommands[f])
		fits.Add(h.fits[f])
	}
	h.flip = w.hinted("Flip", nil, widget.LowImportance, "Left and right changed over", w.flipPicture).by(flipName)
	h.back = w.hinted("Put back", nil, widget.LowImportance, "The whole picture, upright, in the middle. So does a double click on it",
		func() { w.placePicture(board.Placement{}) }).by(putBackName)
	byHand := func(set func(p *board.Placement, v float64)) func(float64) board.Edit {
		return func(v float64) board.Edit { return w.changePlacement(true, func(p *board.Placement) { set(p, v) }) }
	}
	h.x = w.newNumber(" %", 2, 1, "How far right of the middle, in per cent of the height of the frame.", byHand(func(p *board.Placement, v float64) { p.At.X = v / 100 }))
	h.y = w.newNumber(" %", 2, 1, "How far below the middle, in per cent of the height of the frame.", byHand(func(p *board.Placement, v float64) { p.At.Y = v / 100 }))
	h.by = w.newNumber(" %", 2, 1, "How large, in per cent of the picture fitted.", byHand(func(p *board.Placement, v float64) { p.Scale = v / 100 }))
	h.turn = w.newNumber("°", 2, 1, "How far it is turned, clockwise.", byHand(func(p *board.Placement, v float64) { p.Turn = v }))
	h.others = []*hintedButton{
		w.hinted("Replace…", nil, widget.LowImportance, "Give this panel another picture", w.replacePicture).by("Replace picture…"),
		w.hinted("In another program…", nil, widget.LowImportance, "Open the picture, or a blank sheet with the sketch on it, in a paint program, and take back what is saved there", w.openOutside).by(outsideName),
	}
	h.root = scrolling(&cardRows{left: []cardRow{
		newCardRow("Picture", fits),
		newCardRow("Place", shared([]float32{0, 1, 0, 1}, centred(small("x")), h.x, centred(small("y")), h.y)),
		newCardRow("Scale", shared([]float32{1, 0, 1}, h.by, padded(2, 0, centred(small("Turn"))), h.turn)),
		newCardRow("", container.NewHBox(h.flip, h.back, layout.NewSpacer())),
	}, right: []cardRow{
		newCardRow("File", container.NewHBox(h.others[0], h.others[1])),
		newCardRow("", h.size),
	}})
	return h
}

// present shows how the picture of the chosen panel lies.
func (h *placeHalf) present(changeable bool) {
	w := h.w
	p, has := h.tool.placement(), w.hasPicture()
	can := changeable && has
	for f, b := range h.fits {
		b.Importance = widget.LowImportance
		if f == p.Fit && has {
			b.Importance = widget.MediumImportance
		}
		setEnabled(&b.Button, can)
		b.Refresh()
	}
	h.flip.Importance = widget.LowImportance
	if p.Flip {
		h.flip.Importance = widget.MediumImportance
	}
	h.flip.Refresh()
	setEnabled(&h.flip.Button, can)
	setEnabled(&h.back.Button, can && p != (board.Placement{}))
	scale := p.Times()
	size, known := h.tool.size()
	if known {
		scale = picture.AsByHand(p, size, w.board.Aspect).Scale
	}
	h.x.show(100 * p.At.X)
	h.y.show(100 * p.At.Y)
	h.by.show(100 * scale)
	h.turn.show(p.Turn)
	for _, f := range []*numberField{h.x, h.y, h.by, h.turn} {
		enable(&f.Entry, can)
	}
	setEnabled(&h.others[0].Button, changeable)
	setEnabled(&h.others[1].Button, changeable)
	switch {
	case !has:
		setText(h.size, "This panel has no picture.")
	case known:
		setText(h.size, fmt.Sprintf("%d x %d pixels", size.X, size.Y))
	default:
		setText(h.size, "")
		h.tool.box() // asks for it
	}
}

// enable lets a field be typed in, or not.
func enable(e *widget.Entry, on bool) {
	if on == e.Disabled() {
		if on {
			e.Enable()
		} else {
			e.Disable()
		}
	}
}

// fitPicture brings the pictures of the chosen panels to the frame in one of the
// ways; by hand they begin as they lie.
func (w *window) fitPicture(f board.Fitting) {
	if !w.hasPicture() {
		return
	}
	if f == board.ByHand {
		w.do(w.changePlacement(true, func(*board.Placement) {}))
	} else {
		w.do(w.changePlacement(false, func(p *board.Placement) { *p = board.Placement{Fit: f, Flip: p.Flip} }))
	}
	w.desk.CloseEdit()
}

// flipPicture changes left and right over.
func (w *window) flipPicture() {
	if w.hasPicture() {
		w.do(w.changePlacement(false, func(p *board.Placement) { p.Flip = !p.Flip }))
		w.desk.CloseEdit()
	}
}
