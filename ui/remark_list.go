package ui

import (
	"fmt"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"stillbeat/board"
)

// newRemarkRow makes a row of the list: the flag, who wrote it and where, what
// became of it, and below the beginning of its words.
func newRemarkRow() fyne.CanvasObject {
	lines := container.New(layout.NewCustomPaddedVBoxLayout(-11), valueLine(), valueLine())
	return container.NewBorder(nil, nil, centredObject(widget.NewIcon(nil)), padded(barRoom, 0, centred(small(""))), lines)
}

func (f *remarkFace) showRow(i widget.ListItemID, o fyne.CanvasObject) {
	if i >= len(f.rows) {
		return
	}
	r, parts := f.rows[i], o.(*fyne.Container).Objects
	lines := parts[0].(*fyne.Container).Objects
	icon := parts[1].(*fyne.Container).Objects
	for _, each := range icon {
		if sign, ok := each.(*widget.Icon); ok {
			sign.SetResource(remarkSigns[r.State])
		}
	}
	setText(parts[2].(*fyne.Container).Objects[0].(*fyne.Container).Objects[1].(*canvas.Text), remarkWords[r.State])
	who, words := lines[0].(*widget.Label), lines[1].(*widget.Label)
	who.TextStyle.Bold = r.At >= 0 && f.w.timeline.view.isSelected(r.At)
	who.SetText(f.place(r) + " · " + r.Author)
	words.SetText(firstWords(r.Text))
}

// onFilm returns the notes that are not loose, of all or of the open ones, in
// the order of the film.
func (f *remarkFace) onFilm() []board.PlacedRemark {
	var out []board.PlacedRemark
	for _, r := range f.w.timeline.view.remarks {
		if r.At >= 0 && f.fits(r) {
			out = append(out, r)
		}
	}
	return out
}

// fits reports whether a note is one of those to be shown.
func (f *remarkFace) fits(r board.PlacedRemark) bool {
	return !f.onlyOpen || r.State == board.RemarkOpen
}

// sortRows lists the notes on the chosen panels first, then those on others in
// the order of the film, then the loose ones.
func (f *remarkFace) sortRows() {
	var mine, others []board.PlacedRemark
	for _, r := range f.w.timeline.view.remarks {
		switch {
		case !f.fits(r):
		case r.At >= 0 && f.first[r.Panel]:
			mine = append(mine, r)
		default:
			others = append(others, r)
		}
	}
	f.rows = append(mine, others...)
}

// follow notes which panels are chosen. A choice that going through the list
// made does not sort it anew under the pointer.
func (f *remarkFace) follow() {
	set := f.w.selection()
	if f.going {
		f.own = set
		return
	}
	if f.own != nil && slices.Equal(f.own, set) {
		return
	}
	f.own, f.first = nil, map[board.PanelID]bool{}
	for _, i := range set {
		f.first[f.w.board.Panels[i].ID] = true
	}
}

// present brings the face in line with the film.
func (f *remarkFace) present() {
	if f.face == nil || f.w.faces == nil || f.w.faces.up != f.face {
		return
	}
	f.follow()
	f.sortRows()
	all := f.w.timeline.view.remarks
	setVisible(f.body, len(all) > 0)
	setVisible(f.empty, len(all) == 0)
	if len(all) == 0 {
		return
	}
	setVisible(f.none, len(f.rows) == 0)
	open := 0
	for _, r := range all {
		if r.State == board.RemarkOpen {
			open++
		}
	}
	setText(f.count, fmt.Sprintf("%d, %d open", len(all), open))
	f.open1.Importance = widget.LowImportance
	if f.onlyOpen {
		f.open1.Importance = widget.MediumImportance
	}
	f.open1.Refresh()
	f.fill = true
	defer func() { f.fill = false }()
	f.list.Refresh()
	if k := slices.IndexFunc(f.rows, func(r board.PlacedRemark) bool { return r.ID == f.at }); k >= 0 {
		f.list.Select(k)
		f.list.ScrollTo(k)
	} else {
		f.list.UnselectAll()
	}
	f.presentDetail()
}

// presentDetail shows the chosen note in full.
func (f *remarkFace) presentDetail() {
	r, ok := f.chosen()
	if f.detail.Visible() != ok {
		setVisible(f.detail, ok)
		f.body.Refresh()
	}
	if !ok {
		return
	}
	f.head.SetText(f.headWords(r))
	if f.words.Text != r.Text {
		f.words.SetText(r.Text)
		f.scroll.ScrollToTop()
	}
	setVisible(f.reply, r.Answer != "")
	if f.reply.Text != "Answer: "+r.Answer {
		f.reply.SetText("Answer: " + r.Answer)
	}
	setVisible(f.accept, r.State == board.RemarkOpen)
	setVisible(f.tick, r.State != board.RemarkDone)
	setVisible(f.back, r.State != board.RemarkOpen)
	for _, b := range []*hintedButton{f.accept, f.tick, f.back, f.reply1, f.out} {
		setEnabled(&b.Button, f.w.desk.ReadOnly() == nil)
	}
}
