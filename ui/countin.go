package ui

import (
	"fmt"
	"sync/atomic"

	"stillbeat/board"
)

// cue is a count-in: clicks alone, up to the moment at which the sound begins.
type cue struct {
	until float64      // seconds of the sound
	beats []board.Beat // ascending, before that
}

// cued is a sound that can be counted in: up to the end of a cue it is silent
// but for the cue's clicks.
type cued struct {
	board.Sound
	clicker
	cue *atomic.Pointer[cue]
}

func newCued(under board.Sound, level *loudness, c *atomic.Pointer[cue]) *cued {
	return &cued{under, newClicker(under.Rate(), level), c}
}

func (c *cued) Read(dst [][]float32, at int) {
	c.Sound.Read(dst, at)
	now := c.cue.Load()
	if now == nil {
		return
	}
	n := c.Place(now.until) - at
	if n <= 0 {
		return
	}
	for _, ch := range dst {
		clear(ch[:min(n, len(ch))])
	}
	c.mix(dst, at, now.beats) // the last of them may die away in the sound
}

// quietBefore is how long it is quiet before the first click, in seconds: the
// very first of what a sound device is given can be lost.
const quietBefore = 0.2

// countIn sets up the clicks before frame f of the film and returns the second
// at which to play: that of the frame itself without a count-in.
func (w *window) countIn(f board.Frame, bars int) float64 {
	from, offset := w.board.Rate.Seconds(f), w.board.SongOffset()
	t := from - offset
	if beat := w.board.BeatAt(f); beat >= 0 && w.board.BeatFrame(beat) == f {
		t = w.board.Grid.Beats[beat].Time // which the frame meets as well as it can
	}
	beats := w.board.Grid.CountIn(t, bars)
	if len(beats) == 0 {
		w.cue.Store(nil)
		return from
	}
	w.cue.Store(&cue{from - offset, beats})
	return offset + beats[0].Time - quietBefore
}

// counting shows the count-in at second t of the film and reports whether it
// is under way; the picture stands.
func (w *window) counting(t float64) bool {
	now := w.cue.Load()
	if now == nil {
		return false
	}
	t -= w.board.SongOffset()
	if t >= now.until {
		w.cue.Store(nil) // what comes before can be played again, with its sound
		w.showFrame(w.at)
		return false
	}
	n := 0
	for n < len(now.beats) && now.beats[n].Time <= t+1e-6 {
		n++
	}
	if n == 0 {
		return true
	}
	beat := now.beats[n-1]
	for _, v := range w.viewers() {
		o := v.over.now
		o.note, o.sign = fmt.Sprintf("count-in: %d of %d", n, len(now.beats)), noBeat
		if w.aids.Dot && t-beat.Time < signSeconds {
			if o.sign = onBeat; beat.Bar {
				o.sign = onBar
			}
		}
		v.Aid(o)
	}
	return true
}
