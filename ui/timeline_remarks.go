package ui

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2/driver/desktop"

	"stillbeat/board"
)

// remarkFlag is a flag on the timeline: of one note, or of several that stand
// close together.
type remarkFlag struct {
	x     float64
	first int // of the placed notes
	n     int
	state board.RemarkState // of the one that is most to be done
}

// remarkRank orders states by how much is still to be done.
var remarkRank = map[board.RemarkState]int{board.RemarkOpen: 2, board.RemarkAccepted: 1, board.RemarkDone: 0}

// remarkX returns where a note stands that is not loose: also while a start is
// dragged and the notes go along.
func (v *timelineView) remarkX(r board.PlacedRemark) float64 {
	return v.frameX(v.board.NoteFrame(r.At, board.FrameNote{After: r.After}, v.starts))
}

// flags returns the flags in sight, from left to right.
func (v *timelineView) flags() []remarkFlag {
	out := v.flagRoom[:0]
	for k, r := range v.remarks {
		if r.At < 0 || r.At >= len(v.board.Panels) {
			break // loose ones come last
		}
		x := v.remarkX(r)
		if x < -40 {
			continue
		}
		if x > v.width {
			break
		}
		if last := len(out) - 1; last >= 0 && x-out[last].x < flagNear {
			out[last].n++
			if remarkRank[r.State] > remarkRank[out[last].state] {
				out[last].state = r.State
			}
			continue
		}
		out = append(out, remarkFlag{x, k, 1, r.State})
	}
	v.flagRoom = out
	return out
}

// paintRemarks draws the flags of the notes of others at the foot of the
// waveform. Where the next one leaves no room the count is left out.
func (v *timelineView) paintRemarks(p pen) {
	flags := v.flags()
	for k, f := range flags {
		n := f.n
		if k+1 < len(flags) && flags[k+1].x-f.x < flagW+16 {
			n = 1
		}
		paintFlag(p, f.state, n, f.x, v.waveBottom())
	}
}

// remarkAt returns the flag at (x, y).
func (v *timelineView) remarkAt(x, y float64) (remarkFlag, bool) {
	if y < v.waveBottom()-flagPole-1 || y >= v.waveBottom() {
		return remarkFlag{}, false
	}
	flags := v.flags()
	for k := len(flags) - 1; k >= 0; k-- {
		if f := flags[k]; x >= f.x-2 && x <= f.x+flagW+1 {
			return f, true
		}
	}
	return remarkFlag{}, false
}

// remarkHint says what a flag stands for.
func (v *timelineView) remarkHint(f remarkFlag) string {
	r := v.remarks[f.first]
	if f.n > 1 {
		return fmt.Sprintf("%d notes of others from frame %d on. A click goes to the first.", f.n, r.Frame)
	}
	return remarkSaid(r)
}

// remarkSaid says a note in a line.
func remarkSaid(r board.PlacedRemark) string {
	return fmt.Sprintf("Note of %s, %s: %s", r.Author, remarkWords[r.State], firstWords(r.Text))
}

// firstWords returns the beginning of a text in one line.
func firstWords(s string) string {
	const most = 90
	s = strings.Join(strings.Fields(beginning(s)), " ")
	if r := []rune(s); len(r) > most {
		return string(r[:most]) + "…"
	}
	return s
}

// tapRemark goes to the note whose flag is at (x, y), if there is one.
func (t *timeline) tapRemark(x, y float64) bool {
	f, found := t.view.remarkAt(x, y)
	if found && t.OnRemark != nil {
		t.OnRemark(t.view.remarks[f.first].ID)
	}
	return found
}

// hoverRemark says what the flag under the pointer stands for.
func (t *timeline) hoverRemark(x, y float64) {
	f, found := t.view.remarkAt(x, y)
	now := ""
	if found {
		t.cursor = desktop.PointerCursor
		now = t.view.remarkHint(f)
	}
	if now != t.flagHint {
		t.flagHint = now
		if t.OnHint != nil {
			t.OnHint(now)
		}
	}
}
