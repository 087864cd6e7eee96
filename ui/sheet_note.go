package ui

import (
	"strings"

	"fyne.io/fyne/v2"

	"stillbeat/board"
)

// sheetNote is the small field in which a note on a frame is written, over the
// row it is of.
type sheetNote struct {
	field
	p     *sheetPage
	frame board.Frame
	shown string // what the film says
}

func newSheetNote(p *sheetPage) *sheetNote {
	n := &sheetNote{p: p}
	n.setUp("note on this frame", 2)
	n.ExtendBaseWidget(n)
	n.OnDone = func() { n.close(true) }
	n.Hide()
	return n
}

// openNote opens the field on the row of the playhead.
func (p *sheetPage) openNote() {
	w, v, n := p.w, p.view, p.note
	row := v.rowOf(v.at)
	switch {
	case row < 0:
		w.foot.Say("The playhead is on no frame: there is nothing to write on.")
		return
	case w.desk.ReadOnly() != nil:
		w.foot.Say(sentence(w.desk.ReadOnly().Error()))
		return
	}
	w.stop()
	n.close(true)
	p.roll.Reveal(v.y(row), sheetRowH)
	n.frame = notedFrame(w.board, w.starts, v.rows[row].Frame, v.rows[row].Frames)
	n.shown = w.board.NotesOn(n.frame, w.starts)
	n.put(n.shown)
	n.place(v, row, p.roll.top)
	n.Show()
	w.win.Canvas().Focus(n)
	n.selectAll()
	w.foot.Hint("Return sets the note, Shift+Return begins a line, Escape leaves it as it was.")
}

// notedFrame returns the first frame of a row on which there is a note, else
// the first.
func notedFrame(b board.Board, starts []board.Frame, f, n board.Frame) board.Frame {
	for at := f; at < f+n; at++ {
		if b.NotesOn(at, starts) != "" {
			return at
		}
	}
	return f
}

// place puts the field over the notes of a row, within the sheet.
func (n *sheetNote) place(v *sheetView, row int, top float64) {
	c := v.column(noteCell)
	wide := max(c.right-c.x, min(300, v.width-8))
	x := max(4, min(c.x, v.width-wide-4))
	size := fyne.NewSize(textUnits(float32(wide)), n.MinSize().Height)
	y := textUnits(float32(v.y(row)-top)) - 3
	y = max(0, min(y, textUnits(float32(v.height))-size.Height-2))
	n.Move(fyne.NewPos(textUnits(float32(x)), y))
	n.Resize(size)
}

// close takes the field away; take has the film keep what was written.
func (n *sheetNote) close(take bool) {
	if !n.Visible() {
		return
	}
	n.Hide()
	w, text, changed := n.p.w, strings.TrimSpace(n.Text), n.Text != n.shown
	if w.win.Canvas().Focused() == fyne.Focusable(n) {
		w.win.Canvas().Unfocus()
	}
	w.foot.Hint("")
	if take && changed {
		w.do(board.SetFrameNote(n.frame, text))
		w.desk.CloseEdit()
	}
}

// TypedKey sets the note on Return and leaves it as it was on Escape.
func (n *sheetNote) TypedKey(e *fyne.KeyEvent) {
	switch {
	case e.Name == fyne.KeyEscape:
		n.close(false)
	case (e.Name == fyne.KeyReturn || e.Name == fyne.KeyEnter) && modifiers()&shift != 0:
		n.TypedRune('\n')
	case e.Name == fyne.KeyReturn || e.Name == fyne.KeyEnter:
		n.close(true)
	default:
		n.field.TypedKey(e)
	}
}
