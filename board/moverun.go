package board

import (
	"slices"
)

// What becomes of objects' moves when panels do: a move goes on over those of
// its panels that stay, and is gone with the last of them. Panels put between
// its panels belong to it; a hit goes along with the panel it falls in.

// movesWithout returns the moves of the board without the chosen panels.
func (b Board) movesWithout(chosen []int) (out []ObjectMove) {
	if len(b.Moves) == 0 {
		return nil
	}
	gone := func(i int) bool { _, found := slices.BinarySearch(chosen, i); return found }
	at := b.places()
	for _, m := range b.Moves {
		first, last := at[m.First], at[m.Last]
		for first <= last && gone(first) {
			first++
		}
		for first <= last && gone(last) {
			last--
		}
		if first <= last {
			m.First, m.Last = b.Panels[first].ID, b.Panels[last].ID
			out = append(out, m)
		}
	}
	return out
}

// movesMoved returns the moves of the board after the chosen panels went
// before panel before, given the panels in their new order. A move that goes
// with all its panels, or within which they change places, keeps them; else
// those that were taken out leave it.
func (b Board) movesMoved(chosen []int, before int, panels []Panel) []ObjectMove {
	without := map[MoveID]ObjectMove{}
	for _, m := range b.movesWithout(chosen) {
		without[m.ID] = m
	}
	old, now := b.places(), Board{Panels: panels}.places()
	out := slices.Clone(b.Moves)
	for i, m := range out {
		first, last := old[m.First], old[m.Last]
		trimmed, some := without[m.ID]
		if !some || before >= first && before <= last+1 {
			at := make([]int, 0, last-first+1)
			for _, p := range b.Panels[first : last+1] {
				at = append(at, now[p.ID])
			}
			m.First, m.Last = panels[slices.Min(at)].ID, panels[slices.Max(at)].ID
		} else {
			m.First, m.Last = trimmed.First, trimmed.Last
		}
		out[i] = m
	}
	return out
}

// movesJoined returns the moves of the board after panels from to before to
// became the one at from.
func (b Board) movesJoined(from, to int) []ObjectMove {
	out, at := slices.Clone(b.Moves), b.places()
	joined := func(id PanelID) PanelID {
		if i := at[id]; i >= from && i < to {
			return b.Panels[from].ID
		}
		return id
	}
	for i := range out {
		out[i].First, out[i].Last = joined(out[i].First), joined(out[i].Last)
	}
	return out
}

// movesSplit returns the moves of the board after panel id was cut in two, the
// second part of which is next.
func (b Board) movesSplit(id, next PanelID) []ObjectMove {
	out := slices.Clone(b.Moves)
	for i := range out {
		if out[i].Last == id {
			out[i].Last = next
		}
	}
	return out
}

// MovesOf returns the moves of which all panels are chosen, to be pasted with
// them: see Paste. The time of each hit counts from where the move's panels
// start.
func (b Board) MovesOf(set []int) (out []ObjectMove) {
	chosen := slices.Compact(slices.Sorted(slices.Values(set)))
	at, starts := b.places(), b.Starts()
	for _, m := range b.Moves {
		within := true
		for i := at[m.First]; i <= at[m.Last]; i++ {
			_, found := slices.BinarySearch(chosen, i)
			within = within && found
		}
		if within {
			from := b.Rate.Seconds(starts[at[m.First]])
			m.Keys = slices.Clone(m.Keys)
			out = append(out, m.withHits(func(s Start) Start { s.Time = b.instant(s) - from; return s }))
		}
	}
	return out
}

// movesPasted returns the board's moves and those that came with panels from
// elsewhere, as MovesOf gives them; ids leads from the panels' old ids to their
// new ones on b. A move whose panels did not come is left out.
func (b Board) movesPasted(moves []ObjectMove, ids map[PanelID]PanelID) ([]ObjectMove, error) {
	out, next := slices.Clone(b.Moves), b.nextMove()
	starts, at := b.Starts(), b.places()
	for _, m := range moves {
		first, ok := ids[m.First]
		last, also := ids[m.Last]
		if !ok || !also {
			continue
		}
		if err := m.check(); err != nil {
			return nil, err
		}
		for _, h := range m.Hits {
			if err := b.checkStart(h.Start); err != nil {
				return nil, err
			}
		}
		begins := starts[at[first]]
		m = m.withHits(func(s Start) Start {
			f := begins + b.Rate.Nearest(s.Time)
			return b.landed(f, s, reach(f, 0, 0, nil))
		})
		m.ID, m.First, m.Last = next, first, last
		m.Keys = slices.Clone(m.Keys)
		out, next = append(out, m), next+1
	}
	return emptied(out), nil
}

// hitsAlong returns the moves of b, an arrangement of the panels of old, with
// each hit as far from the start of its panel as it was: on the beat or the
// part of one that is there, as starts of panels find theirs.
func (b Board) hitsAlong(old Board) []ObjectMove {
	if len(b.Moves) == 0 {
		return b.Moves
	}
	was, is := old.Starts(), b.Starts()
	before, at := old.places(), b.places()
	out := slices.Clone(b.Moves)
	for i, m := range out {
		first, last := before[m.First], before[m.Last]
		out[i] = m.withHits(func(s Start) Start {
			f, in := old.Frame(s), first
			if k := PanelAt(was, f); k >= first && k <= last {
				in = k
			}
			now, there := at[old.Panels[in].ID]
			if !there || is[now] == was[in] {
				return s
			}
			f += is[now] - was[in]
			return b.landed(f, s, reach(f, 0, 0, nil))
		})
	}
	return out
}
