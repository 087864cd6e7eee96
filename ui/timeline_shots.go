package ui

import (
	"cmp"
	"fmt"
	"slices"

	"stillbeat/board"
)

const (
	bracketH = 15.0 // the row of shots and scenes, where there are any
	fitH     = 13.0 // the strip that shows how the cuts sit on the music
)

// hasShots reports whether shots or scenes are marked.
func (v *timelineView) hasShots() bool { return len(v.shots) > 2 }

// bracketBand returns the height the row of brackets takes.
func (v *timelineView) bracketBand() float64 {
	if v.hasShots() {
		return bracketH
	}
	return 0
}

// paintBrackets draws a bracket over each shot in sight, with its number, and
// a heavier start where a scene begins.
func (v *timelineView) paintBrackets(p pen) {
	if !v.hasShots() {
		return
	}
	y := v.lineY() + lineH/2 - 2
	scene := map[int]bool{}
	for _, i := range v.scenes {
		scene[i] = true
	}
	last := -100.0
	for k := 0; k+1 < len(v.shots); k++ {
		x0, x1 := v.frameX(v.starts[v.shots[k]])+1, v.frameX(v.starts[v.shots[k+1]])-1
		if x1 < 0 || x1-last < 2 {
			continue
		}
		if x0 > v.width {
			break
		}
		last = x1
		w, c := 1.2, inkSoft
		if scene[v.shots[k]] && len(v.scenes) > 2 {
			w, c = 2.4, ink
		}
		p.fill(x0, y, x1, y+1, inkSoft)
		p.fill(x0, y, x0+w, y+bracketH-2, c)
		p.fill(x1-1.2, y, x1, y+5, inkSoft)
		if name := v.bracketName(v.shots[k], scene[v.shots[k]]); p.width(10, false, name)+10 < x1-max(x0, 0) {
			at := p.text(max(x0, 0)+5, y+11, 10, true, c, name)
			if h := v.board.Panels[v.shots[k]].Heading; h != "" && isLatin(h) && at+8+p.width(10, false, h) < x1 {
				p.text(at+6, y+11, 10, false, inkSoft, h)
			}
		}
	}
}

// isLatin reports whether the font of the figures has all the letters.
func isLatin(s string) bool {
	for _, r := range s {
		if r > 0x52f { // up to Cyrillic
			return false
		}
	}
	return true
}

// bracketName names a shot: "Shot 3", or "Scene 2 · shot 3" where one begins.
func (v *timelineView) bracketName(first int, scene bool) string {
	n := v.named[first]
	if scene && len(v.scenes) > 2 {
		return fmt.Sprintf("Scene %s · shot %s", n.Scene, n.Shot)
	}
	return "Shot " + n.Shot
}

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

// paintMarkers draws a flag over the waveform for each marker in sight, with
// its name where there is room. The rulers stay free for their figures; of
// flags that would cover one another only the poles are drawn.
func (v *timelineView) paintMarkers(p pen) {
	top, last := v.waveTop(), -100.0
	frames, of := v.markerFrames()
	for k, f := range frames {
		x, room := v.frameX(f), v.width
		if k+1 < len(frames) {
			room = v.frameX(frames[k+1]) - x
		}
		if x < -120 || x > v.width || x-last < 2 {
			continue
		}
		p.fill(x-0.6, top, x+0.6, v.waveBottom(), ink)
		name := v.board.Markers[of[k]].Name
		w := p.width(10, true, name) + 9
		switch {
		case isLatin(name) && name != "" && room > w:
			p.fill(x, top, x+w, top+14, ink)
			p.text(x+4, top+10.5, 10, true, paperLight, name)
		case room > 3:
			p.shape(ink, x, top, x+min(9, room-1), top+4, x, top+8)
		}
		last = x
	}
}

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
