package ui

import (
	"fmt"
	"slices"

	"stillbeat/board"
)

// snap moves starts onto the music at once: the chosen ones if there are
// several, else all.
func (w *window) snap(t board.Target) {
	o := board.SnapOptions{To: t, Lead: w.lead}
	what := "All starts are"
	if len(w.also) > 0 {
		o.Panels, what = w.selection(), "The chosen starts are"
	}
	before := w.starts
	if err := w.desk.Do(board.Snap(o)); err != nil {
		w.foot.Say(sentence(err.Error()))
		return
	}
	moved, most := 0, board.Frame(0)
	for i, f := range w.starts {
		if d := max(f-before[i], before[i]-f); d > 0 {
			moved++
			most = max(most, d)
		}
	}
	lead := ""
	if w.lead != 0 {
		lead = fmt.Sprintf(", %d %s ahead", w.lead, plural(int64(w.lead), "frame"))
	}
	w.foot.Say(fmt.Sprintf("%s on %s%s: %d moved, the furthest by %d %s.",
		what, targetName(t), lead, moved, most, plural(int64(most), "frame")))
}

func (w *window) duplicate() {
	set := w.selection()
	if len(set) == 0 {
		return
	}
	w.do(board.Duplicate(set))
	w.choosePut(set[len(set)-1]+1, len(set))
}

// choosePut chooses n panels just put from panel at on.
func (w *window) choosePut(at, n int) {
	run := make([]int, n)
	for i := range run {
		run[i] = at + i
	}
	w.choose(at)
	w.selectSet(run, at)
}

// takeOut deletes the chosen panels and chooses the one after them.
func (w *window) takeOut(edit func(set []int) board.Edit) {
	set := w.selection()
	if len(set) == 0 {
		return
	}
	w.also = nil
	w.do(edit(set))
	w.choose(min(set[0], len(w.board.Panels)-1))
}

// movePanel moves the chosen panels one place along.
func (w *window) movePanel(by int) {
	set := w.selection()
	if len(set) == 0 {
		return
	}
	before := set[0] + by
	if by > 0 {
		before = set[len(set)-1] + 1 + by
	}
	w.movePanels(w.chosen, before)
}

// movePanels puts panel i, and the others chosen if it is one of them, before
// another.
func (w *window) movePanels(i, before int) {
	if before < 0 || before > len(w.board.Panels) {
		return
	}
	set := w.selection()
	if !slices.Contains(set, i) {
		set = []int{i}
	}
	if before >= set[0] && before <= set[len(set)-1]+1 && set[len(set)-1]-set[0]+1 == len(set) {
		return // where they are
	}
	w.do(board.Move(set, before))
}

// addBlank puts a blank panel before or after the chosen ones.
func (w *window) addBlank(before bool) {
	at := w.chosen + 1
	if set := w.selection(); len(set) > 0 {
		at = set[len(set)-1] + 1
		if before {
			at = set[0]
		}
	}
	w.do(board.Insert(at, make([]board.Panel, 1), every))
	w.choose(at)
}

func (w *window) join() {
	set := w.selection()
	if len(set) == 1 && set[0]+1 < len(w.board.Panels) {
		set = append(set, set[0]+1) // with the next
	}
	if len(set) > 0 {
		w.also = nil
		w.do(board.Join(set))
		w.choose(set[0])
	}
}

func (w *window) split() {
	if i := board.PanelAt(w.starts, w.at); i >= 0 {
		w.do(board.Split(i, w.at))
		w.choosePlaying()
	}
}

func (w *window) nudge(by board.Frame) {
	w.onSelection(func(set []int) board.Edit { return board.Nudge(set, by) })
}

func (w *window) nudgeBeat(by int) {
	w.onSelection(func(set []int) board.Edit { return board.NudgeBeats(set, by) })
}

func (w *window) beatFrom(f board.Frame, by int) (board.Landing, bool) {
	ls := w.board.Landings(board.ToBeat)
	for i := range ls {
		if by < 0 {
			i = len(ls) - 1 - i
		}
		if by > 0 && ls[i].Frame > f || by < 0 && ls[i].Frame < f {
			return ls[i], true
		}
	}
	return board.Landing{}, false
}

// toggleAnchor frees the chosen starts where they are if one of them follows
// the music, else it anchors them to the beats nearest to them.
func (w *window) toggleAnchor() {
	set := w.selection()
	for _, i := range set {
		if i > 0 && w.board.Panels[i].Start.Anchored() {
			w.do(board.SetFree(set))
			return
		}
	}
	if len(set) > 0 {
		w.do(board.Snap(board.SnapOptions{To: board.ToBeat, Panels: set, Lead: w.lead, Shortest: 1}))
	}
}

func (w *window) songHere() { w.do(board.SlideSong(w.board.Rate.Seconds(w.at))) }

func (w *window) stepPanel(by int) {
	if n := len(w.board.Panels); n > 0 {
		i := board.PanelAt(w.starts, w.at)
		if i < 0 {
			i = n
		}
		w.choose(max(0, min(n-1, i+by)))
		w.hearHere()
	}
}

func (w *window) stepBeat(by int) {
	if l, ok := w.beatFrom(w.at, by); ok {
		w.seek(l.Frame)
	} else if !w.board.OnGrid() {
		w.seek(w.at + board.Frame(by)*board.Frame(w.board.Rate.Nominal()))
	} else if by < 0 {
		w.seek(0)
	} else {
		w.seek(w.lastFrame())
	}
}

// toggleClick puts a click on the beats over the song, to judge them by ear.
func (w *window) toggleClick() {
	w.clicking = !w.clicking
	w.tune()
	refreshMenus(w.menu, w.commands)
}

// Least strengths of the onsets shown.
const (
	strongOnset = 0.4 // from here on an onset is worth a landing
	noOnsets    = 2   // no onset is so strong
)

// showOnsets shows the onsets of at least the given strength.
func (w *window) showOnsets(least float64) {
	w.timeline.view.onsets = least
	w.timeline.Refresh()
	refreshMenus(w.menu, w.commands)
}
