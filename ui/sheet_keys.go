package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"
)

const (
	lowImportance    = widget.LowImportance
	mediumImportance = widget.MediumImportance
)

// Names of the commands of the sheet.
const (
	rowAFrame     = "The sheet: a row a frame"
	rowAnExposure = "The sheet: a row an exposure"
	noteOnFrame   = "Note on this frame…"
	printSheet    = "Print the exposure sheet…"
	sheetAsTable  = "Write the exposure sheet as CSV…"
)

// sheetCommands say what a row of the exposure sheet is for.
func (w *window) sheetCommands() []*command {
	p := w.sheet
	return []*command{
		{menu: "View", name: rowAFrame, do: func() { w.pages.Show(w.sheetPage); p.setExposures(false) }, ticked: func() bool { return !p.view.exposures }},
		{menu: "View", name: rowAnExposure, do: func() { w.pages.Show(w.sheetPage); p.setExposures(true) }, ticked: func() bool { return p.view.exposures }},
	}
}

// noteCommand writes on the frame at the playhead.
func (w *window) noteCommand() *command {
	return &command{menu: "Panel", name: noteOnFrame, near: nearPanel, do: func() {
		w.pages.Show(w.sheetPage)
		w.sheet.openNote()
	}, can: func() bool { return len(w.board.Panels) > 0 }}
}

// typedKey does what a key is for on the sheet only and reports whether it was
// one of those.
func (p *sheetPage) typedKey(name fyne.KeyName, held fyne.KeyModifier) bool {
	v := p.view
	row, page := max(0, v.rowOf(v.at)), max(1, int((p.roll.height-sheetHeadH)/sheetRowH)-1)
	if v.rowOf(v.at) < 0 && v.at > 0 { // at the end of the film
		row = len(v.rows)
	}
	if held != 0 {
		return false
	}
	switch name {
	case fyne.KeyReturn, fyne.KeyEnter:
		p.openNote()
		return true
	case fyne.KeyUp:
		row--
	case fyne.KeyDown:
		row++
	case fyne.KeyPageUp:
		row -= page
	case fyne.KeyPageDown:
		row += page
	case fyne.KeyHome:
		row = 0
	case fyne.KeyEnd:
		row = len(v.rows) - 1
	default:
		return false
	}
	if len(v.rows) > 0 {
		v.seek(max(0, min(row, len(v.rows)-1)))
	}
	return true
}
