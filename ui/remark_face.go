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
)

// remarkFace is the side of the card with the notes that others made on the
// film: a list of them, and the chosen one in full.
type remarkFace struct {
	*face
	w        *window
	rows     []board.PlacedRemark // as listed
	at       string               // id of the note that is chosen, "" for none
	first    map[board.PanelID]bool
	own      []int // the choice of panels that going through the list made
	going    bool  // that is under way
	fill     bool  // the list is being brought in line
	onlyOpen bool

	count                                  *canvas.Text
	list                                   *keyList
	head, words, reply                     *widget.Label
	open1, accept, reply1, tick, back, out *hintedButton
	detail, body, empty, none              fyne.CanvasObject
	scroll                                 *container.Scroll
}

// newRemarkFace makes the face.
func (w *window) newRemarkFace() *face {
	f := &remarkFace{w: w, count: small("")}
	w.remarks = f
	f.list = newKeyList(func() int { return len(f.rows) }, newRemarkRow, f.showRow)
	f.list.OnSelected = func(i widget.ListItemID) {
		if !f.fill {
			f.goThrough(i)
		}
	}
	f.list.OnLeave = func() { w.win.Canvas().Unfocus() }
	f.list.OnTake = func() {
		if f.list.at < len(f.rows) {
			f.goThrough(f.list.at)
		}
	}
	button := func(text, words, by string, do func()) *hintedButton {
		return w.hinted(text, nil, widget.LowImportance, words, do).by(by)
	}
	f.open1 = button("Open only", "Leave out the notes that are accepted or done", openRemarksName, f.filter)
	take := w.hinted("", theme.FolderOpenIcon(), widget.LowImportance, "Take files of notes that came back", w.pickRemarks).by(takeRemarksName)
	f.accept = button("Accept", "It will be followed", acceptRemarkName, func() { f.do(board.AcceptRemark) })
	f.reply1 = button("Answer…", "Write an answer beside it", answerRemarkName, f.answer)
	f.tick = button("Tick off", "It is done", tickRemarkName, func() { f.do(board.TickRemark) })
	f.back = button("Reopen", "It is open again", reopenRemarkName, func() { f.do(board.ReopenRemark) })
	f.out = button("Remove", "Take it out of the film; its file does not bring it back", removeRemarkName, func() { f.do(board.RemoveRemark) })
	f.layOut(take)
	f.face = &face{name: remarksName, hint: "What those who looked at the film noted on it", sign: signRemarks,
		key: fyne.KeyF8, mod: ctrl, root: f.root(), present: f.present}
	return f.face
}

// layOut puts the parts of the face together.
func (f *remarkFace) layOut(take fyne.CanvasObject) {
	f.head, f.words, f.reply = wrapping(), wrapping(), wrapping()
	f.head.TextStyle.Bold, f.reply.TextStyle.Italic = true, true
	f.scroll = container.NewVScroll(container.New(layout.NewCustomPaddedVBoxLayout(-8), f.words, f.reply))
	tools := container.NewHBox(f.accept, f.tick, f.back, f.reply1, f.out)
	f.detail = band(paperLight, container.NewBorder(container.New(layout.NewCustomPaddedVBoxLayout(0), rule(), f.head), container.NewHScroll(tools), nil, nil, container.New(layout.NewCustomPaddedLayout(-8, 0, 0, 0), f.scroll)))
	top := container.NewBorder(nil, nil, heading(remarksName), container.NewHBox(f.open1, take), padded(6, 0, centred(f.count)))
	f.none = container.NewCenter(small("None of the notes is open."))
	f.body = container.NewBorder(top, nil, nil, nil, container.New(remarkPage{}, container.NewStack(f.list, f.none), f.detail))
	words := wrapping()
	words.Alignment = fyne.TextAlignCenter
	words.SetText("Nobody has noted anything on this film yet.\n\nShare it as a page to look at, and send that. Who looks at it notes on its frames and saves a file of notes, which you take here.")
	f.empty = container.NewVScroll(container.NewVBox(words, container.NewCenter(
		f.w.hinted(takeRemarksName, nil, widget.MediumImportance, "Choose the files that came back, or drop them on the window", f.w.pickRemarks).by(takeRemarksName))))
}

func (f *remarkFace) root() fyne.CanvasObject {
	return band(paper, padded(12, 8, container.NewStack(f.body, f.empty)))
}

func wrapping() *widget.Label {
	l := widget.NewLabel("")
	l.Wrapping = fyne.TextWrapWord
	return l
}

// remarkPage lays the list over the chosen note or, where it is wide, beside it.
type remarkPage struct{}

// MinSize is small: both parts scroll.
func (remarkPage) MinSize(o []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(textUnits(200), textUnits(120))
}

func (remarkPage) Layout(o []fyne.CanvasObject, s fyne.Size) {
	list, detail := o[0], o[1]
	list.Move(fyne.NewPos(0, 0))
	switch {
	case !detail.Visible():
		list.Resize(s)
	case s.Width >= wideCard:
		w := s.Width * 0.45
		list.Resize(fyne.NewSize(w-8, s.Height))
		detail.Move(fyne.NewPos(w, 0))
		detail.Resize(fyne.NewSize(s.Width-w, s.Height))
	default:
		h := s.Height * 0.42
		list.Resize(fyne.NewSize(s.Width, h-4))
		detail.Move(fyne.NewPos(0, h))
		detail.Resize(fyne.NewSize(s.Width, s.Height-h))
	}
}

// chosen returns the note that is chosen.
func (f *remarkFace) chosen() (board.PlacedRemark, bool) {
	for _, r := range f.w.timeline.view.remarks {
		if f.at != "" && r.ID == f.at {
			return r, true
		}
	}
	return board.PlacedRemark{}, false
}

// place says where a note stands: "Panel 3 · 00:00:02:05". The author comes
// after it: a name in a script from right to left would turn the figures about.
func (f *remarkFace) place(r board.PlacedRemark) string {
	rate := f.w.board.Rate
	if r.At < 0 {
		return "Loose, was at " + rate.Timecode(rate.Nearest(r.Was))
	}
	return "Panel " + f.w.numbers[r.At] + " · " + rate.Timecode(r.Frame)
}

// headWords says of the chosen note where it stands, who wrote it and what
// became of it.
func (f *remarkFace) headWords(r board.PlacedRemark) string {
	frame := ""
	if r.At >= 0 {
		frame = fmt.Sprintf(", frame %d", r.Frame)
	}
	return f.place(r) + frame + " · " + r.Author + " · " + remarkWords[r.State]
}
