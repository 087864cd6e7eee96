package ui

import (
	"fmt"
	"slices"

	"stillbeat/board"
	"stillbeat/board/motion"
)

// addMove gives an object a ready move in the chosen panels.
func (w *window) addMove(r motion.Ready) {
	set := w.selection()
	if len(set) == 0 {
		return
	}
	f := w.motion
	w.win.Canvas().Unfocus()
	w.pages.Show(w.timelinePage)
	w.faces.Show(f.face)
	m := r.Move
	m.First, m.Last = w.board.Panels[set[0]].ID, w.board.Panels[set[len(set)-1]].ID
	n := len(w.board.Moves)
	w.desk.CloseEdit()
	w.do(board.AddObjectMove(m))
	w.desk.CloseEdit()
	if len(w.board.Moves) == n+1 {
		f.pick(w.board.Moves[n].ID)
		w.foot.Say(capital(r.Name) + ": " + r.About + ".")
	}
}

// hasMove reports whether a move is shown.
func (f *motionFace) hasMove() bool { return f.w.chosen >= 0 && f.id != 0 }

func (w *window) removeMove() {
	if f := w.motion; f.hasMove() {
		w.win.Canvas().Unfocus()
		w.do(board.RemoveObjectMove(f.id))
	}
}

// takePanel takes the number of the panel in which the move begins, or ends.
func (f *motionFace) takePanel(number string, first bool) {
	w := f.w
	t, ok := f.table()
	if !ok {
		return
	}
	i := slices.Index(w.numbers, number)
	if i < 0 {
		w.foot.Say(fmt.Sprintf("There is no panel %.20q.", number))
		return
	}
	id := w.board.Panels[i].ID
	if first && id != t.Move.First || !first && id != t.Move.Last {
		f.change(func(m *board.ObjectMove) {
			if first {
				m.First = id
			} else {
				m.Last = id
			}
		})
	}
}

// moveOverChosen has the move in the chosen panels.
func (w *window) moveOverChosen() {
	set := w.selection()
	if len(set) > 0 && w.motion.hasMove() {
		w.motion.change(func(m *board.ObjectMove) {
			m.First, m.Last = w.board.Panels[set[0]].ID, w.board.Panels[set[len(set)-1]].ID
		})
	}
}

// turnKey chooses the next key of the path, or the one before.
func (f *motionFace) turnKey(by int) {
	if t, ok := f.table(); ok {
		n := len(t.Move.Keys)
		f.pickKey((f.key + by + n) % n)
	}
}

func (f *motionFace) pickKey(k int) {
	if k != f.key {
		f.w.win.Canvas().Unfocus()
		f.key = k
		f.present()
		f.w.surface.Refresh()
	}
}

// addKey puts a key half way to the next one, after the last as far again.
func (f *motionFace) addKey() {
	t, ok := f.table()
	if !ok {
		return
	}
	k, keys := f.key, t.Move.Keys
	var at board.Spot
	if k+1 < len(keys) {
		at = between(keys[k], keys[k+1], 0.5)
	} else {
		at = between(keys[k-1], keys[k], 2)
	}
	f.change(func(m *board.ObjectMove) {
		m.Keys = slices.Insert(m.Keys, k+1, at)
		shiftHits(m, k, 1)
	})
	f.pickKey(k + 1)
}

// removeKey takes the chosen key out of the path.
func (f *motionFace) removeKey() {
	k := f.key
	f.change(func(m *board.ObjectMove) {
		if len(m.Keys) <= 2 {
			return
		}
		m.Keys = slices.Delete(m.Keys, k, k+1)
		if m.Manner.Spaced() {
			m.Hits = slices.DeleteFunc(m.Hits, func(h board.Hit) bool { return h.Moment == k })
			shiftHits(m, k, -1)
		}
	})
}

// shiftHits moves the hits on keys after key k along.
func shiftHits(m *board.ObjectMove, k, by int) {
	for i := range m.Hits {
		if m.Manner.Spaced() && m.Hits[i].Moment > k {
			m.Hits[i].Moment += by
		}
	}
}

// between returns the spot a part of the way from one to another.
func between(a, b board.Spot, u float64) board.Spot {
	mid := func(x, y float64) float64 { return rounded(x+(y-x)*u, 1) }
	return board.Spot{X: mid(a.X, b.X), Y: mid(a.Y, b.Y), Height: mid(a.Height, b.Height)}
}

// hitHere puts the moment chosen on the beat nearest to the playhead, or where
// there are none on the frame there.
func (f *motionFace) hitHere() {
	k := f.moment.SelectedIndex()
	if !f.hasMove() || k < 0 {
		return
	}
	start := f.w.beatHere()
	f.change(func(m *board.ObjectMove) {
		m.Hits = slices.DeleteFunc(m.Hits, func(h board.Hit) bool { return h.Moment == k })
		m.Hits = append(m.Hits, board.Hit{Moment: k, Start: start})
	})
}

// hitFree lets the moment chosen take its own time.
func (f *motionFace) hitFree() {
	if k := f.moment.SelectedIndex(); f.hasMove() && k >= 0 {
		f.change(func(m *board.ObjectMove) {
			m.Hits = slices.DeleteFunc(m.Hits, func(h board.Hit) bool { return h.Moment == k })
		})
	}
}

// hitBy puts the moment chosen on the next place in the music, or the one
// before; where it is on none yet, on the one at the playhead.
func (f *motionFace) hitBy(by int) {
	t, ok := f.table()
	k := f.moment.SelectedIndex()
	at := slices.IndexFunc(t.Move.Hits, func(h board.Hit) bool { return h.Moment == k })
	if !ok || k < 0 || at < 0 {
		f.hitHere()
		return
	}
	b := f.w.board
	now := b.Frame(t.Move.Hits[at].Start)
	places := b.Landings(f.w.musicTarget())
	if by < 0 {
		slices.Reverse(places)
	}
	next := slices.IndexFunc(places, func(l board.Landing) bool { return by > 0 && l.Frame > now || by < 0 && l.Frame < now })
	if next < 0 {
		f.w.foot.Say("There is no further place in the music.")
		return
	}
	f.change(func(m *board.ObjectMove) { m.Hits[at].Start = places[next].Start })
	f.w.seek(places[next].Frame)
}

// musicTarget returns what dragged starts land on, beats where they are free.
func (w *window) musicTarget() board.Target {
	if w.timeline.target == "" {
		return board.ToBeat
	}
	return w.timeline.target
}

// beatHere returns the place in the music next to the playhead that dragged
// starts land on too; without one the playhead's own.
func (w *window) beatHere() board.Start {
	best, least := board.Free(w.board.Rate.Seconds(w.at)), board.Frame(w.board.Rate.Nominal())
	for _, l := range w.board.Landings(w.musicTarget()) {
		if d := max(l.Frame-w.at, w.at-l.Frame); d < least {
			best, least = l.Start, d
		}
	}
	return best
}
