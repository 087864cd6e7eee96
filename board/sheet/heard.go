package sheet

import (
	"stillbeat/board"
)

// heard is what is heard on a frame.
type heard struct {
	bar, beat int // from 1, 0: none
	accent    Accent
}

// hear returns what is heard on each frame on which something is. Of several
// beats on one frame the one that starts a bar counts, else the first.
func hear(b board.Board, least float64) map[board.Frame]heard {
	out := map[board.Frame]heard{}
	bar, place := 0, 0
	for i, beat := range b.Grid.Beats {
		if place++; beat.Bar {
			bar, place = bar+1, 1
		}
		f := b.BeatFrame(i)
		if h := out[f]; h.beat == 0 || beat.Bar {
			h.bar, h.beat = bar, place
			if beat.Bar {
				h.accent |= Downbeat
			}
			out[f] = h
		}
	}
	for _, o := range b.Grid.Onsets {
		if o.Strength >= least {
			f := b.Rate.Nearest(b.SongOffset() + o.Time)
			h := out[f]
			h.accent |= Onset
			out[f] = h
		}
	}
	return out
}
