package ui

import "stillbeat/board"

const fitH = 13.0 // the strip that shows how the cuts sit on the music

// fights reports whether a cut so many milliseconds off the beat is against the
// music; half is half a frame in milliseconds.
func fights(ms, half float64) bool {
	return ms > half+0.01 || ms < -max(half+0.01, board.LeadUnnoticed)
}

// paintFit draws, above the line, how each cut sits on the music: a dot on it,
// a bar up where the picture comes early and down where it comes late, the
// longer the further. A hollow red one fights the music: it is off by more than
// half a frame, and not just early by what nobody notices.
func (v *timelineView) paintFit(p pen) {
	if !v.board.OnGrid() || len(v.board.Panels) == 0 {
		return
	}
	mid := v.waveBottom() + fitH/2
	half := 500 / v.board.Rate.Float() // ms
	last := -100.0
	for i := 1; i < len(v.starts); i++ {
		x := v.frameX(v.starts[i])
		if x < -4 || x > v.width+4 || x-last < 3 {
			continue
		}
		last = x
		ms, ok := v.board.OffBeat(v.starts, i)
		off := max(ms, -ms)
		switch {
		case !ok:
		case off <= half+0.01:
			p.disc(x, mid, 1.8, green)
		default:
			h := min(fitH/2, 2.5+off/40)
			y0, y1 := mid, mid+h
			if ms < 0 {
				y0, y1 = mid-h, mid
			}
			if fights(ms, half) {
				p.fill(x-2, y0, x+2, y1, red)
				p.fill(x-1, y0+1, x+1, y1-1, paper)
			} else {
				p.fill(x-1.2, y0, x+1.2, y1, green)
			}
		}
	}
}
