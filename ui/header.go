package ui

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"stillbeat/board"
)

// header is the row at the top: the film's title, its frame rate, step
// and shape, and the four things one does with a film.
type header struct {
	title *field
	rate  *pickField
	shape *pickField
	step  *hintedSelect
	snap  *hintedButton
	share *hintedButton
	root  fyne.CanvasObject
}

var stepNames = []string{"on ones", "on twos", "on threes", "on fours"}

func newHeader(w *window) *header {
	h := &header{title: newField("Title of the film", 1)}
	h.title.hint = w.hints("The title of the film: it stands on what is shared")
	h.title.OnChanged = func(s string) {
		if s != w.board.Title {
			w.do(board.SetTitle(s))
		}
	}
	h.title.OnDone = func() { w.desk.CloseEdit() }
	h.rate = newPickField(board.Rates, func(s string) {
		r, err := board.ParseRate(s)
		switch {
		case err != nil:
			w.foot.Say(sentence(err.Error()))
			h.rate.put(w.board.Rate.String())
		case r != w.board.Rate:
			w.do(board.SetRate(r))
		}
	})
	h.rate.hint = w.hints("Frames a second: picked or typed, times stay as they are")
	h.shape = newPickField(board.Aspects, func(s string) {
		if err := w.setShape(s); err != nil {
			w.foot.Say(sentence(err.Error()))
			h.shape.put(w.board.Aspect.String())
		}
	})
	h.shape.hint = w.hints("The shape of the film's picture: picked, or typed as 1.85:1")
	h.step = newHintedSelect(w.hints("How long each photograph holds: on twos it is two frames"), stepNames, func(string) {
		if n := h.step.SelectedIndex() + 1; n >= 1 && n != w.board.Step {
			w.do(board.SetStep(n))
			w.win.Canvas().Unfocus()
		}
	})
	h.snap = w.hinted("Snap to beats", nil, widget.MediumImportance,
		"Move all starts, or those chosen, onto the beats, as little as possible", func() { w.snap(board.ToBeat) }).by("Snap to beats")
	h.share = w.hinted("Share…", nil, widget.HighImportance, "Write the animatic as MP4", w.shareDialog).by("Share animatic…")
	right := container.NewHBox(
		w.hinted("Song…", nil, widget.MediumImportance, "Bring in a song and listen to it", w.openSong).by("Bring in a song…"),
		w.hinted("Pictures…", nil, widget.MediumImportance, "Add pictures after the chosen panel", w.addPictures).by("Add pictures…"),
		h.snap, h.share)
	left := container.NewHBox(
		fixedWidth(92, h.rate), centred(small("fps")), fixedWidth(112, h.step), fixedWidth(92, h.shape))
	h.root = band(paperDark, padded(10, 6, container.NewBorder(nil, nil, w.pages.tabRow(),
		container.NewHBox(left, fixedWidth(12, layout.NewSpacer()), right), h.title)))
	return h
}

// Present shows the film's settings.
func (h *header) Present(b board.Board) {
	h.title.put(b.Title)
	h.rate.put(b.Rate.String())
	h.shape.put(b.Aspect.String())
	if b.Step >= 1 && b.Step <= len(stepNames) {
		h.step.SetSelectedIndex(b.Step - 1)
	} else {
		h.step.PlaceHolder = fmt.Sprintf("on %ds", b.Step)
		h.step.ClearSelected()
	}
	setEnabled(&h.snap.Button, b.OnGrid() && len(b.Panels) > 0)
	setEnabled(&h.share.Button, len(b.Panels) > 0)
}

func setEnabled(b *widget.Button, on bool) {
	if on == b.Disabled() {
		if on {
			b.Enable()
		} else {
			b.Disable()
		}
	}
}
