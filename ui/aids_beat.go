package ui

import (
	"time"

	"stillbeat/board"
)

// beatSign is what the picture says about the beat.
type beatSign int

const (
	noBeat beatSign = iota
	onBeat
	onBar // the first of a bar
)

const (
	signSeconds  = 0.12 // how long the dot is seen
	flashSeconds = 0.24 // how long a flash takes to fade
	// flashApart is the least time from one flash to the next: leading edges
	// 360 ms apart are acceptable by ITU-R BT.1702, and fewer than three come
	// in a second (WCAG 2.2, success criterion 2.3.1).
	flashApart = 360 * time.Millisecond
)

// beatSignAt returns the sign of frame f, that of its beat for a moment from
// the frame nearest to the beat on.
func beatSignAt(b board.Board, f board.Frame) beatSign {
	beat := b.BeatAt(f)
	if beat < 0 {
		return noBeat
	}
	from, lit := b.BeatFrame(beat), max(1, b.Rate.Nearest(signSeconds))
	if beat+1 < len(b.Grid.Beats) {
		lit = max(1, min(lit, b.BeatFrame(beat+1)-from-1)) // it goes out between two
	}
	switch {
	case f-from >= lit:
		return noBeat
	case b.Grid.Beats[beat].Bar:
		return onBar
	}
	return onBeat
}

// flash lights the picture's border on the beats.
type flash struct {
	beat int         // that lit it last or would have, from 1; 0 for none
	age  board.Frame // of that beat when it was asked last
	lit  bool
	at   time.Time // when it was lit last
}

// Glow returns how bright the border is at frame f, which is shown at a time:
// 0 to 1, and less on beats that start no bar. However the playhead runs, it
// is not lit again within flashApart. Where beats come closer than that, only
// those that start a bar light it.
func (x *flash) Glow(b board.Board, f board.Frame, now time.Time) float64 {
	beat := b.BeatAt(f)
	if beat < 0 {
		x.beat, x.lit = 0, false
		return 0
	}
	age := f - b.BeatFrame(beat)
	if beat+1 != x.beat || age < x.age {
		x.lit = b.Rate.Seconds(age) < signSeconds && flashes(b.Grid, beat) && now.Sub(x.at) >= flashApart
		if x.lit {
			x.at = now
		}
	}
	x.beat, x.age = beat+1, age
	left := 1 - b.Rate.Seconds(age)/flashSeconds
	switch {
	case !x.lit || left <= 0:
		return 0
	case b.Grid.Beats[beat].Bar:
		return left
	}
	return 0.6 * left
}

// flashes reports whether a beat is one for a flash.
func flashes(g board.Grid, beat int) bool {
	if g.Beats[beat].Bar {
		return true
	}
	apart := flashApart.Seconds()
	return (beat == 0 || g.Beats[beat].Time-g.Beats[beat-1].Time >= apart) &&
		(beat+1 == len(g.Beats) || g.Beats[beat+1].Time-g.Beats[beat].Time >= apart)
}
