package ui

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"stillbeat/board/motion"
)

// layOutTable makes the list of the exposures, with a line that names the
// columns.
func (f *motionFace) layOutTable() fyne.CanvasObject {
	w := f.w
	f.list = newKeyList(func() int {
		if t, ok := f.table(); ok {
			return len(t.Rows)
		}
		return 0
	}, newMotionRow, func(i widget.ListItemID, o fyne.CanvasObject) {
		if t, ok := f.table(); ok && i < len(t.Rows) {
			fillMotionRow(o, motionRow(t, i, w.board.Rate.Timecode(t.Rows[i].Frame)))
		}
	})
	f.list.OnSelected = func(i widget.ListItemID) {
		if t, ok := f.table(); ok && !f.fill && i < len(t.Rows) {
			w.seek(t.Rows[i].Frame)
			w.foot.Hint(motionRow(t, i, "")[3])
		}
	}
	f.list.OnTake, f.list.OnLeave = func() { w.win.Canvas().Unfocus() }, func() { w.win.Canvas().Unfocus() }
	head := newMotionRow()
	fillMotionRow(head, [4]string{"Exposure", "mm", "Step", "What happens"})
	return container.NewBorder(head, nil, nil, nil, f.list)
}

// newMotionRow makes a line of the table: when, where, the step, what happens.
func newMotionRow() fyne.CanvasObject {
	cell := func(align fyne.TextAlign) *widget.Label {
		l := widget.NewLabel("")
		l.Alignment, l.Truncation = align, fyne.TextTruncateEllipsis
		return l
	}
	return container.NewBorder(nil, nil, container.NewHBox(fixedWidth(92, cell(fyne.TextAlignLeading)),
		fixedWidth(62, cell(fyne.TextAlignTrailing)), fixedWidth(52, cell(fyne.TextAlignTrailing))), nil, cell(fyne.TextAlignLeading))
}

func fillMotionRow(o fyne.CanvasObject, words [4]string) {
	row := o.(*fyne.Container).Objects
	left := row[1].(*fyne.Container).Objects
	for i := range 3 {
		left[i].(*fyne.Container).Objects[0].(*widget.Label).SetText(words[i])
	}
	row[0].(*widget.Label).SetText(words[3])
}

// motionRow is exposure i in words: its time code, its place, the step to it,
// and what happens, on which beat, and what is wrong from there on.
func motionRow(t motion.Table, i int, when string) [4]string {
	r := t.Rows[i]
	var what []string
	if r.Moment != "" {
		what = append(what, r.Moment)
	}
	if r.Beat != "" {
		what = append(what, r.Beat)
	}
	for _, g := range t.Findings {
		before := i == 0 || t.Rows[i-1].Frame < g.Frame
		if last := i == len(t.Rows)-1; before && (g.Frame <= r.Frame || last) {
			what = append(what, "! "+g.Reason)
		}
	}
	step := ""
	if i > 0 {
		step = motion.Tenths(r.Step)
	}
	return [4]string{when, motion.Tenths(r.Along), step, strings.Join(what, ", ")}
}

// showTable brings the list in line, with the exposure on screen chosen.
func (f *motionFace) showTable(t motion.Table) {
	if !f.tableUp {
		return
	}
	f.list.UnselectAll()
	for i, r := range t.Rows {
		if r.Frame <= f.w.at && (i+1 == len(t.Rows) || t.Rows[i+1].Frame > f.w.at) {
			if _, within := t.At(f.w.at); within {
				f.list.Select(i)
			}
		}
	}
	f.list.Refresh()
}

// moved follows the playhead.
func (f *motionFace) moved() {
	if f.w.playing != nil || f.w.faces == nil || f.w.faces.up != f.face {
		return
	}
	if t, ok := f.table(); ok {
		f.fill = true
		f.showTable(t)
		f.fill = false
		f.w.surface.Refresh()
	}
}
