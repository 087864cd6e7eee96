package ui

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"stillbeat/board"
)

// sheetPage is the page of the window with the exposure sheet.
type sheetPage struct {
	w     *window
	view  *sheetView
	roll  *roll
	note  *sheetNote
	loose bool // the sheet was scrolled away by hand while playing: it does not follow

	facts              *canvas.Text
	frames, each       *hintedButton // a row a frame, a row an exposure
	print, csv, noting *hintedButton
	root               fyne.CanvasObject
}

func newSheetPage(w *window) *sheetPage {
	p := &sheetPage{w: w, view: &sheetView{}, facts: small("")}
	p.view.OnSeek = func(f board.Frame) { p.loose = false; w.seek(f) }
	p.view.OnNote = p.openNote
	p.roll = newRoll(p.view)
	p.roll.OnHint = func(s string) { w.foot.Hint(s) }
	p.roll.OnScroll = func() {
		p.loose = w.playing != nil
		p.note.close(true)
	}
	p.note = newSheetNote(p)
	p.frames = w.hinted("A row a frame", nil, 0, "Each frame of the film has a row", func() { p.setExposures(false) }).by(rowAFrame)
	p.each = w.hinted("An exposure", nil, 0, "Each photograph has a row, however long it holds", func() { p.setExposures(true) }).by(rowAnExposure)
	p.noting = w.hinted("Note…", nil, lowImportance, "Write a note on the frame at the playhead", p.openNote).by(noteOnFrame)
	p.print = w.hinted("Print as PDF…", nil, lowImportance, "The sheet on paper, to be filled in at the table", p.printDialog).by(printSheet)
	p.csv = w.hinted("Write as CSV…", nil, lowImportance, "The sheet as a table for spreadsheets", p.csvDialog).by(sheetAsTable)
	row := container.NewHBox(p.frames, p.each, padded(8, 0, centred(p.facts)), layout.NewSpacer(), p.noting, p.print, p.csv)
	bar := band(paperDark, padded(10, 3, row))
	over := container.New(freeLayout{}, p.note)
	p.root = container.NewBorder(container.NewVBox(bar, rule()), nil, nil, nil, container.NewStack(p.roll, over))
	p.mark()
	return p
}

// freeLayout leaves objects where they are put.
type freeLayout struct{}

func (freeLayout) MinSize([]fyne.CanvasObject) fyne.Size { return fyne.Size{} }
func (freeLayout) Layout([]fyne.CanvasObject, fyne.Size) {}

// page is the sheet's as one of the window's.
func (p *sheetPage) page() *page {
	return &page{name: "Sheet", hint: "What is on each frame, in rows", key: fyne.KeyF4, root: p.root,
		present: p.Present, typed: p.typedKey, moved: p.moved, says: sheetHint, showing: func(up bool) {
			p.note.close(true)
			p.roll.Up(up)
		}}
}

// Present brings the page in line with the film.
func (p *sheetPage) Present() {
	p.note.close(false)
	v := p.view
	v.setBoard(p.w.board)
	p.moved()
	p.roll.To(p.roll.top)
	p.sayFacts()
	any := len(v.rows) > 0
	for _, b := range []*hintedButton{p.print, p.csv} {
		setEnabled(&b.Button, any)
	}
	setEnabled(&p.noting.Button, any && p.w.desk.ReadOnly() == nil)
}

func (p *sheetPage) sayFacts() {
	b := p.w.board
	n := b.Exposures()
	setText(p.facts, fmt.Sprintf("%d %s · %d %s", b.Frames(), plural(int64(b.Frames()), "frame"), n, plural(n, "exposure")))
}

// setExposures shows a row for each exposure, or for each frame; the playhead
// stays where it is in sight.
func (p *sheetPage) setExposures(on bool) {
	v := p.view
	if v.exposures == on {
		return
	}
	p.note.close(true)
	off := p.rowTop() - p.roll.top
	v.setExposures(on)
	p.roll.To(p.rowTop() - off)
	p.moved()
	p.mark()
	refreshMenus(p.w.menu, p.w.commands)
}

// rowTop returns where the row of the playhead begins.
func (p *sheetPage) rowTop() float64 { return p.view.y(max(0, p.view.rowOf(p.view.at))) }

func (p *sheetPage) mark() {
	for b, on := range map[*hintedButton]bool{p.frames: !p.view.exposures, p.each: p.view.exposures} {
		b.Importance = lowImportance
		if on {
			b.Importance = mediumImportance
		}
		b.Refresh()
	}
}

// moved marks the row of the playhead and brings it into sight, after a leap
// with what comes before and after it; while playing it stays at a third of the
// height and the sheet runs by, unless it was scrolled away by hand.
func (p *sheetPage) moved() {
	v := p.view
	was := v.rowOf(v.at)
	v.at = p.w.at
	row := v.rowOf(v.at)
	if row < 0 { // at the end of the film
		p.roll.Refresh()
		return
	}
	y := v.y(row)
	if p.w.playing == nil || p.roll.Sees(y, sheetRowH) {
		p.loose = false
	}
	top := p.roll.top
	leap := p.roll.height > 0 && (y < top-p.roll.height/3 || y > top+p.roll.height*4/3)
	switch {
	case p.loose:
	case p.w.playing != nil || leap:
		p.roll.top = max(0, min(y-float64(int(p.roll.height/3/sheetRowH))*sheetRowH, v.long()-p.roll.height))
	default:
		p.roll.Reveal(y, sheetRowH)
	}
	if row != was || top != p.roll.top {
		p.roll.Refresh()
	}
}
