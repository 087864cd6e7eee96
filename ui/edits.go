package ui

import (
	"fmt"

	"stillbeat/board"
)

// snapAll moves all starts onto the music at once.
func (w *window) snapAll(t board.Target) {
	before := w.starts
	if err := w.desk.Do(board.Snap(board.SnapOptions{To: t})); err != nil {
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
	w.foot.Say(fmt.Sprintf("All starts are on %s: %d moved, the furthest by %d %s.",
		targetName(t), moved, most, plural(int64(most), "frame")))
}

func (w *window) duplicate() {
	w.onChosen(func(i int) board.Edit { return board.Duplicate([]int{i}) }, 1)
}

// onChosen edits the chosen panel and chooses the one next places on.
func (w *window) onChosen(edit func(int) board.Edit, next int) {
	i := w.chosen
	if i < 0 {
		return
	}
	w.do(edit(i))
	w.choose(min(i+next, len(w.board.Panels)-1))
}

func (w *window) deletePanel() {
	w.onChosen(func(i int) board.Edit { return board.Delete([]int{i}) }, 0)
}

func (w *window) movePanel(by int) {
	if to := w.chosen + by; to >= 0 && to < len(w.board.Panels) {
		w.onChosen(func(i int) board.Edit { return board.Move([]int{i}, to+max(0, by)) }, by)
	}
}

func (w *window) addBlank() {
	at := w.chosen + 1
	w.do(board.Insert(at, make([]board.Panel, 1), 2))
	w.choose(at)
}

func (w *window) split() {
	if i := board.PanelAt(w.starts, w.at); i >= 0 {
		w.do(board.Split(i, w.at))
		w.choosePlaying()
	}
}

// nudge moves the chosen panel's start by whole frames. An anchored start
// stays anchored: its offset moves, so the picture leads or trails the beat.
func (w *window) nudge(by board.Frame) {
	if w.chosen < 1 {
		return
	}
	s := w.board.Panels[w.chosen].Start
	if s.Anchored() && w.board.OnGrid() {
		s.Anchor.Offset += by
	} else {
		s = board.Free(w.board.Rate.Seconds(w.starts[w.chosen] + by))
	}
	w.do(board.SetStart(w.chosen, s))
}

// nudgeBeat moves the chosen panel's start to the next beat each way, or by
// a second where there is no music.
func (w *window) nudgeBeat(by int) {
	if w.chosen < 1 {
		return
	}
	if !w.board.OnGrid() {
		w.nudge(board.Frame(by) * board.Frame(w.board.Rate.Nominal()))
		return
	}
	if to, ok := w.beatFrom(w.starts[w.chosen], by); ok {
		w.do(board.SetStart(w.chosen, to.Start))
	}
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

// toggleAnchor frees an anchored start where it is, and anchors a free one to
// the beat nearest to it.
func (w *window) toggleAnchor() {
	i := w.chosen
	if i < 1 || !w.board.OnGrid() {
		return
	}
	b := w.board
	s := board.Free(b.Rate.Seconds(w.starts[i]))
	if !b.Panels[i].Start.Anchored() {
		room, _ := b.Room(i)
		l, ok := board.NearestLanding(b.Landings(board.ToBeat), w.starts[i], b.Frames())
		if !ok || !room.Contains(l.Frame) {
			w.foot.Say("There is no beat between the panels on either side.")
			return
		}
		s = l.Start
	}
	w.do(board.SetStart(i, s))
}

func (w *window) songHere() { w.do(board.SlideSong(w.board.Rate.Seconds(w.at))) }

func (w *window) stepPanel(by int) {
	if n := len(w.board.Panels); n > 0 {
		i := board.PanelAt(w.starts, w.at)
		if i < 0 {
			i = n
		}
		w.choose(max(0, min(n-1, i+by)))
	}
}

func (w *window) stepBeat(by int) {
	if l, ok := w.beatFrom(w.at, by); ok {
		w.seek(l.Frame)
	} else if !w.board.OnGrid() {
		w.seek(w.at + board.Frame(by)*board.Frame(w.board.Rate.Nominal()))
	} else if by < 0 {
		w.seek(0)
	}
}

// toggleClick puts a click on the beats over the song, to judge them by ear.
func (w *window) toggleClick() {
	w.clicking = !w.clicking
	w.tune()
	refreshMenus(w.menu, w.commands)
}

// strongOnset is the strength from which an onset is worth a landing.
const strongOnset = 0.4

// showOnsets shows the onsets of at least the given strength.
func (w *window) showOnsets(least float64) {
	w.timeline.view.onsets = least
	w.timeline.Refresh()
	refreshMenus(w.menu, w.commands)
}
