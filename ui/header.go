package ui

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"stillbeat/board"
)

// header is the row at the top: the film's title, its frame rate and step,
// and the four things one does with a film.
type header struct {
	title *field
	rate  *rateField
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
	h.rate = newRateField(func(s string) {
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
		fixedWidth(92, h.rate), centred(small("fps")), fixedWidth(112, h.step))
	h.root = band(paperDark, padded(10, 6, container.NewBorder(nil, nil, w.pages.tabRow(),
		container.NewHBox(left, fixedWidth(12, layout.NewSpacer()), right), h.title)))
	return h
}

// Present shows the film's settings.
func (h *header) Present(b board.Board) {
	h.title.put(b.Title)
	h.rate.put(b.Rate.String())
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

// rateField takes a frame rate, picked or typed.
type rateField struct {
	widget.SelectEntry
	done func(string)
	hint hint
}

func newRateField(done func(string)) *rateField {
	r := &rateField{done: done}
	r.ExtendBaseWidget(r)
	names := make([]string, len(board.Rates))
	for i, x := range board.Rates {
		names[i] = x.String()
	}
	r.SetOptions(names)
	r.OnSubmitted = done
	r.OnChanged = func(s string) {
		// A rate picked from the list comes whole while the cursor is
		// elsewhere; one typed is taken when the field is left.
		if !r.typing() {
			done(s)
		}
	}
	return r
}

func (r *rateField) typing() bool {
	c := fyne.CurrentApp().Driver().CanvasForObject(r)
	return c != nil && c.Focused() == fyne.Focusable(r)
}

func (r *rateField) put(s string) {
	if r.Text != s {
		r.SetText(s)
	}
}

// FocusLost takes what was typed.
func (r *rateField) FocusLost() {
	r.SelectEntry.FocusLost()
	r.done(r.Text)
}
