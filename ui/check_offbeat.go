package ui

import (
	"slices"

	"stillbeat/board"
	"stillbeat/board/check"
)

// offBeatID names what the check finds of start i, len(b.Panels) for the end.
func offBeatID(b board.Board, i int) string {
	if i < len(b.Panels) {
		return check.IDOf(check.OffBeat, b.Panels[i].ID)
	}
	return check.IDOf(check.OffBeat, 0)
}

// furthestOff returns the start that fights the music most and was not
// dismissed, -1 for none.
func furthestOff(b board.Board, starts []board.Frame) int {
	worst, most := -1, 0.0
	half := 500 / b.Rate.Float()
	for i := 1; i < len(starts); i++ {
		ms, ok := b.OffBeat(starts, i)
		if ok && fights(ms, half) && max(ms, -ms) > most && !slices.Contains(b.Dismissed, offBeatID(b, i)) {
			worst, most = i, max(ms, -ms)
		}
	}
	return worst
}

// toOffBeat goes to the start that fights the music most, and to what the
// check has to say of it.
func (w *window) toOffBeat() {
	i := furthestOff(w.board, w.starts)
	if i < 0 {
		w.foot.Say("Every cut sits on the music, or was dismissed in the check.")
		return
	}
	if i < len(w.board.Panels) {
		w.choose(i)
	}
	w.seek(min(w.starts[i], w.lastFrame()))
	w.check.show(offBeatID(w.board, i))
}

// show shows a finding, as soon as the film is looked over.
func (p *checkPage) show(id string) {
	p.held, p.at, p.reveal = id, -1, true
	if !p.up() {
		p.w.pages.Show(p.tabPage)
		return
	}
	p.Present()
}
