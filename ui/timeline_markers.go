package ui

import (
	"cmp"
	"slices"

	"stillbeat/board"
)

const markerText = 10.0

// markerFrames returns the frames of the markers, in the order of time, and
// which marker each is of.
func (v *timelineView) markerFrames() (frames []board.Frame, of []int) {
	of = make([]int, len(v.board.Markers))
	at := make([]board.Frame, len(of))
	for i, m := range v.board.Markers {
		of[i], at[i] = i, v.board.Frame(m.Start)
	}
	slices.SortStableFunc(of, func(a, b int) int { return cmp.Compare(at[a], at[b]) })
	for _, i := range of {
		frames = append(frames, at[i])
	}
	return frames, of
}

// markerFlag is the flag of a marker in sight.
type markerFlag struct {
	x, room float64 // to the next one
	name    string
	w       float64 // of the flag with its name; 0: there is no room for it
}

// markerFlags returns those in sight, from left to right; of flags that would
// cover one another the first alone.
func (v *timelineView) markerFlags(p pen) (out []markerFlag) {
	last := -100.0
	frames, of := v.markerFrames()
	for k, f := range frames {
		m := markerFlag{x: v.frameX(f), room: v.width, name: v.board.Markers[of[k]].Name}
		if k+1 < len(frames) {
			m.room = v.frameX(frames[k+1]) - m.x
		}
		if m.x < -120 || m.x > v.width || m.x-last < 2 {
			continue
		}
		last = m.x
		if w := wordsWidth(p, markerText, true, m.name) + 9; m.name != "" && m.room > w {
			m.w = w
		}
		out = append(out, m)
	}
	return out
}

// paintMarkers draws a flag over the waveform for each marker in sight, with
// its name where there is room. The rulers stay free for their figures.
func (v *timelineView) paintMarkers(p pen) {
	top := v.waveTop()
	for _, m := range v.markerFlags(p) {
		p.fill(m.x-0.6, top, m.x+0.6, v.waveBottom(), ink)
		switch {
		case m.w > 0:
			p.fill(m.x, top, m.x+m.w, top+14, ink)
			if isLatin(m.name) {
				p.text(m.x+4, top+10.5, markerText, true, paperLight, m.name)
			}
		case m.room > 3:
			p.shape(ink, m.x, top, m.x+min(9, m.room-1), top+4, m.x, top+8)
		}
	}
}
