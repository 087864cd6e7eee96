package ui

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"stillbeat/board"
)

// header is the row at the top: the film's title, its frame rate, step
// and shape, and the four things one does with a film, as many as there is room for.
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
	h.share = w.hinted("Share…", nil, widget.HighImportance, "Write the film as a file for others: film, pictures, page, lists", w.shareDialog).by("Share animatic…")
	more := []fyne.CanvasObject{
		w.hinted("Song…", nil, widget.MediumImportance, "Bring in a song and listen to it", w.openSong).by("Bring in a song…"),
		w.hinted("Pictures…", nil, widget.MediumImportance, "Add pictures after the chosen panel", w.addPictures).by("Add pictures…"),
		h.snap}
	settings := container.NewHBox(
		fixedWidth(92, h.rate), centred(small("fps")), fixedWidth(112, h.step), fixedWidth(92, h.shape))
	h.root = band(paperDark, padded(10, 6, container.New(headerLayout{}, append([]fyne.CanvasObject{w.pages.tabRow(), h.title, settings, h.share}, more...)...)))
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

// headerLayout lays side by side the tabs of the pages, the title, which takes
// what is left, settings, more buttons, and at the end the button to share.
// Where there is no room the more buttons go, from the left: menus and keys
// have them too.
type headerLayout struct{}

// headerGap is between settings and buttons, roomyTitle how wide the title is
// where a button need not go for it.
const headerGap, roomyTitle = 12, 150

func (headerLayout) MinSize(o []fyne.CanvasObject) (s fyne.Size) {
	for k, each := range o {
		m := each.MinSize()
		s.Height = max(s.Height, m.Height)
		if k < 4 {
			s.Width += m.Width + theme.Padding()
		}
	}
	s.Width += headerGap - theme.Padding()
	return s
}

func (headerLayout) Layout(o []fyne.CanvasObject, s fyne.Size) {
	tabs, title, settings, share, more := o[0], o[1], o[2], o[3], o[4:]
	pad, right := theme.Padding(), s.Width
	put := func(each fyne.CanvasObject, x, width float32) {
		each.Move(fyne.NewPos(x, 0))
		each.Resize(fyne.NewSize(width, s.Height))
	}
	atEnd := func(each fyne.CanvasObject) {
		width := each.MinSize().Width
		right -= width
		put(each, right, width)
		right -= pad
	}
	atEnd(share)
	left := tabs.MinSize().Width + pad
	room := right - left - max(title.MinSize().Width, textUnits(roomyTitle)) - settings.MinSize().Width - pad - headerGap
	for k := len(more) - 1; k >= 0; k-- {
		room -= more[k].MinSize().Width + pad
		setVisible(more[k], room >= 0)
		if room >= 0 {
			atEnd(more[k])
		}
	}
	right -= headerGap
	atEnd(settings)
	put(tabs, 0, left-pad)
	put(title, left, right-left)
}
