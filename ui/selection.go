package ui

import (
	"slices"

	"stillbeat/board"
)

// The panels chosen are the one the card shows (chosen) and any others, kept
// by their ids so that they stay chosen when panels before them come and go.

// selection returns the chosen panels in order.
func (w *window) selection() []int {
	var out []int
	for i, p := range w.board.Panels {
		if i == w.chosen || w.also[p.ID] {
			out = append(out, i)
		}
	}
	return out
}

// selectSet chooses panels; the card shows the one given.
func (w *window) selectSet(set []int, lead int) {
	if lead < 0 || lead >= len(w.board.Panels) {
		return
	}
	w.also = map[board.PanelID]bool{}
	for _, i := range set {
		if i >= 0 && i < len(w.board.Panels) && i != lead {
			w.also[w.board.Panels[i].ID] = true
		}
	}
	w.chosen = lead
	w.showSelection(true)
}

// showSelection brings timeline, card and menus in line with what is chosen.
func (w *window) showSelection(reveal bool) {
	w.timeline.SetChosen(w.chosen, w.selection(), reveal)
	w.pages.SetChosen(reveal)
	w.faces.Present()
	w.replan()
	refreshMenus(w.menu, w.commands)
}

// choose makes panel i the only chosen one and takes the playhead to it.
func (w *window) choose(i int) {
	if i < 0 || i >= len(w.board.Panels) {
		return
	}
	w.pivot = i
	w.selectSet(nil, i)
	if board.PanelAt(w.starts, w.at) != i || w.playing != nil {
		f := w.starts[i]
		w.goTo(f, true)
		if w.playing != nil {
			w.playing.moved, w.playing.once = true, span{}
		}
	}
}

// chooseTo chooses the run from the panel chosen alone last to panel i.
func (w *window) chooseTo(i int) {
	n := len(w.board.Panels)
	if i < 0 || i >= n {
		return
	}
	pivot := max(0, min(w.pivot, n-1))
	var run []int
	for k := min(pivot, i); k <= max(pivot, i); k++ {
		run = append(run, k)
	}
	w.selectSet(run, i)
}

// chooseAlso adds panel i to the chosen ones, or takes it away again.
func (w *window) chooseAlso(i int) {
	if i < 0 || i >= len(w.board.Panels) {
		return
	}
	set := w.selection()
	k, found := slices.BinarySearch(set, i)
	if !found {
		w.pivot = i
		w.selectSet(append(set, i), i)
		return
	}
	set = slices.Delete(set, k, k+1)
	if len(set) > 0 {
		lead := w.chosen
		if lead == i {
			lead = set[min(k, len(set)-1)]
		}
		w.selectSet(set, lead)
	}
}

// chooseAll chooses all panels; on the wall, all that were found.
func (w *window) chooseAll() {
	if found := w.wall.foundNow(); len(found) > 0 {
		lead := found[0]
		if slices.Contains(found, w.chosen) {
			lead = w.chosen
		}
		w.selectSet(found, lead)
		return
	}
	var all []int
	for i := range w.board.Panels {
		all = append(all, i)
	}
	w.selectSet(all, max(0, w.chosen))
}

// chooseBy moves the end of the chosen run to the panel before or after.
func (w *window) chooseBy(by int) { w.chooseTo(w.chosen + by) }

// choosePlaying makes the panel that is up the chosen one, at the end of the
// film the last, unless several are chosen, or one is being written on.
func (w *window) choosePlaying() {
	if i := board.PanelAt(w.starts, min(w.at, w.starts[len(w.starts)-1]-1)); i >= 0 && i != w.chosen && len(w.also) == 0 && !w.card.Writing() {
		w.chosen, w.pivot = i, i
		w.showSelection(false)
	}
}

// keepSelection drops what is gone from the chosen panels.
func (w *window) keepSelection(before board.Board) {
	n := len(w.board.Panels)
	if w.chosen >= 0 && w.chosen < len(before.Panels) {
		if at := w.board.Index(before.Panels[w.chosen].ID); at >= 0 {
			w.chosen = at
		}
	}
	w.chosen = min(w.chosen, n-1)
	if len(w.also) == 0 {
		return
	}
	left := map[board.PanelID]bool{}
	for i, p := range w.board.Panels {
		if w.also[p.ID] && i != w.chosen {
			left[p.ID] = true
		}
	}
	w.also = left
}

// onSelection edits the chosen panels.
func (w *window) onSelection(edit func(set []int) board.Edit) {
	if set := w.selection(); len(set) > 0 {
		w.do(edit(set))
	}
}

// fitSelection shows the chosen panels from the first to the last.
func (w *window) fitSelection() {
	if set := w.selection(); len(set) > 0 {
		if w.wall.up() {
			w.wall.wall.Reveal(w.chosen)
			return
		}
		from, to := w.starts[set[0]], w.starts[set[len(set)-1]+1]
		w.timeline.Fit(w.board.Rate.Seconds(from), w.board.Rate.Seconds(to))
	}
}
