package board

import "slices"

// What becomes of remarks when panels do: they go along with their panel; with
// its second part, when it is split behind them; with what it is joined into.
// A panel that is gone leaves them loose, so that undoing it brings them back.

// remarksSplit returns the remarks of the board after panel i was cut in two at
// frame f, the second part of which is next.
func (b Board) remarksSplit(i int, f Frame, next PanelID, starts []Frame) []Remark {
	return b.remarksWith(func(r *Remark) {
		if r.Panel == b.Panels[i].ID && b.remarkFrame(*r, i, starts) >= f {
			r.Panel, r.After = next, max(0, r.After-b.Rate.Seconds(f-starts[i]))
		}
	})
}

// remarksJoined returns the remarks of the board after panels from to before to
// became the one at from.
func (b Board) remarksJoined(from, to int, starts []Frame) []Remark {
	at := b.places()
	return b.remarksWith(func(r *Remark) {
		if i, there := at[r.Panel]; there && i >= from && i < to {
			r.After = b.Rate.Seconds(b.remarkFrame(*r, i, starts) - starts[from])
			r.Panel = b.Panels[from].ID
		}
	})
}

func (b Board) remarksWith(change func(*Remark)) []Remark {
	out := slices.Clone(b.Remarks)
	for i := range out {
		change(&out[i])
	}
	return out
}
