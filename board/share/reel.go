package share

import "stillbeat/board"

// reel says which panel is up when. Every share asks it, so that all of them
// agree with each other and, through board.PanelAt, with the window.
type reel struct {
	panels []board.Panel
	starts []board.Frame
}

func newReel(b board.Board) reel { return reel{b.Panels, b.Starts()} }

// panelAt returns the index of the panel up at frame f of the film.
func (r reel) panelAt(f board.Frame) int { return board.PanelAt(r.starts, f) }

// frames returns the length of the film.
func (r reel) frames() board.Frame { return r.starts[len(r.starts)-1] }

// cuts returns, ascending, the frames at which another picture comes up; the
// first is 0. Panels in a row that share a picture are one.
func (r reel) cuts() []int64 {
	var out []int64
	for i, p := range r.panels {
		if i == 0 || p.Picture != r.panels[i-1].Picture {
			out = append(out, int64(r.starts[i]))
		}
	}
	return out
}
