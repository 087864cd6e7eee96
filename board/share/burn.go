package share

import (
	"strings"

	"stillbeat/board"
	"stillbeat/board/picture"
)

// Burn says what stands over the pictures that are written. The zero value is
// nothing.
type Burn struct {
	Words board.BurnIn
	Note  bool   // the panel's note, and those on its frames until the next
	Mark  string // words of one's own, at the top
	Safe  bool   // the boxes that are safe for action and for titles
}

// over returns what stands over frame n of the film.
func (r *reel) over(n board.Frame) picture.Burn {
	burn := r.opts.Burn
	if burn == (Burn{}) {
		return picture.Burn{}
	}
	out := picture.Burn{Mark: burn.Mark, Safe: burn.Safe}
	if burn.Words != (board.BurnIn{}) {
		out.Panel, out.Place = r.board.BurnIn(burn.Words, r.starts, r.numbers, n)
	}
	if burn.Note {
		out.Note = r.note(n)
	}
	return out
}

// note returns what is noted on the panel that is up at frame n, and on the
// last of its frames that has a note.
func (r *reel) note(n board.Frame) string {
	i := board.PanelAt(r.starts, n)
	if i < 0 {
		return ""
	}
	p, on := r.board.Panels[i], board.Frame(-1)
	for _, note := range p.Notes() {
		if f := r.board.NoteFrame(i, note, r.starts); f <= n {
			on = f
		}
	}
	text := p.Note
	if on >= 0 {
		text += "\n" + r.board.NotesOn(on, r.starts)
	}
	return strings.TrimSpace(text)
}
