package ui

import (
	"fmt"

	"fyne.io/fyne/v2"

	"stillbeat/board"
)

// remarkWords are what the states of a note are called.
var remarkWords = map[board.RemarkState]string{board.RemarkOpen: "open", board.RemarkAccepted: "accepted", board.RemarkDone: "done"}

// remarkSigns are flags, one for each state: whole, hollow with a dot, hollow
// with a tick. The timeline paints the same ones.
var remarkSigns = map[board.RemarkState]fyne.Resource{
	board.RemarkOpen:     sign("note-open", `<path d="M4 3h2v18H4zM6 3h14v11H6z"/>`),
	board.RemarkAccepted: sign("note-accepted", `<path d="M4 3h2v18H4zM6 3h14v11H6V12h12V5H6zM10 6.500h4v4h-4z"/>`),
	board.RemarkDone:     sign("note-done", `<path d="M4 3h2v18H4zM6 3h14v11H6V12h12V5H6zM8.200 8l1.300-1.300 2 2 4-4 1.300 1.300-5.300 5.300z"/>`),
}

// signRemarks is the icon of the face with them.
const signRemarks = `<svg xmlns="http://www.w3.org/2000/svg" width="24" height="24"><path d="M3 4h18v12h-9l-5 5v-5H3zM5 6v8h4v2.200L11.200 14H19V6zM7 7.800h10v1.500H7zM7 10.800h7v1.500H7z"/></svg>`

// Measures of a flag, in units of text.
const (
	flagPole = 16.0
	flagW    = 13.0
	flagH    = 10.0
	flagNear = 15.0 // those that are nearer than this share one flag
)

// paintFlag draws the flag of a note, or of several that stand together, its
// pole on x with its foot at y. It returns where it ends.
func paintFlag(p pen, state board.RemarkState, n int, x, y float64) float64 {
	words, wide := "", flagW
	if n > 1 {
		words = fmt.Sprint(n)
		wide += p.width(9, true, words) + 3
	}
	top := y - flagPole
	p.fill(x-2, top-1, x+wide+1, top+flagH+1, paperLight)
	p.fill(x-2, top+flagH, x+2, y, paperLight)
	p.fill(x-0.8, top, x+0.8, y, ink)
	p.fill(x, top, x+wide, top+flagH, ink)
	c, mid := paperLight, x+flagW/2+0.5
	if state != board.RemarkOpen {
		p.fill(x+1.5, top+1.5, x+wide-1.5, top+flagH-1.5, paperLight)
		c = ink
	}
	switch state {
	case board.RemarkAccepted:
		p.fill(mid-1.7, top+3.3, mid+1.7, top+6.7, ink)
	case board.RemarkDone:
		p.stroke(mid-3.4, top+5, mid-1, top+7.2, 1.7, 0, green)
		p.stroke(mid-1, top+7.2, mid+3.6, top+2.6, 1.7, 0, green)
	default:
		p.fill(mid-0.9, top+2, mid+0.9, top+5.6, paperLight)
		p.fill(mid-0.9, top+6.6, mid+0.9, top+8.2, paperLight)
	}
	if n > 1 {
		p.text(x+flagW, top+8.3, 9, true, c, words)
	}
	return x + wide
}
