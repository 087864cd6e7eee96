package ui

import (
	"fmt"

	"stillbeat/audio/play"
	"stillbeat/board"
)

// span is a passage of the film, from a frame to before another.
type span struct{ from, to board.Frame }

func (s span) empty() bool            { return s.to <= s.from }
func (s span) has(f board.Frame) bool { return f >= s.from && f < s.to }

// loopKind says what is played round and round.
type loopKind int

const (
	loopNone loopKind = iota
	loopFilm
	loopChosen
	loopBar
	loopMarked
	loopKinds // how many there are
)

// Words for the kinds of loop, in commands and on the deck.
var loopNames = [loopKinds]string{"Loop nothing", "Loop the film", "Loop the chosen panels", "Loop the bar", "Loop the marked range"}
var loopShort = [loopKinds]string{"", "film", "chosen", "bar", "marked"}

// aroundCut is how long before and after a cut is played, in seconds.
const aroundCut = 1.5

// transport is how the film is played, apart from where.
type transport struct {
	kept    keptTransport
	speed   float64
	loop    loopKind
	last    loopKind // looped last, for switching on again
	began   board.Frame
	in, out float64 // the marks, seconds of film; 0 for none
}

// passage returns what is to be looped now; empty for nothing.
func (w *window) passage() span {
	film := span{0, w.lastFrame()}
	switch w.transport.loop {
	case loopFilm:
		return film
	case loopChosen:
		if set := w.selection(); len(set) > 0 {
			return span{w.starts[set[0]], w.starts[set[len(set)-1]+1]}
		}
	case loopBar:
		if len(barFrames(w.board)) > 0 {
			return barAround(w.board, w.at, film.to)
		}
	case loopMarked:
		return markedSpan(w.board.Rate, w.transport.in, w.transport.out, film.to)
	}
	return span{}
}

// barFrames returns the frames nearest to which bars start.
func barFrames(b board.Board) []board.Frame {
	var out []board.Frame
	for _, beat := range b.Grid.Beats {
		if f := b.Rate.Nearest(b.SongOffset() + beat.Time); beat.Bar && f >= 0 {
			out = append(out, f)
		}
	}
	return out
}

// barAround returns the bar frame f is in: what is before the first and after
// the last counts as one. end is the film's.
func barAround(b board.Board, f, end board.Frame) span {
	s := span{0, end}
	for _, bar := range barFrames(b) {
		if bar <= f {
			s.from = bar
		} else {
			s.to = min(s.to, bar)
			break
		}
	}
	return s
}

// markedSpan returns the range between the marks; where one is missing it is
// the start or the end of the film.
func markedSpan(rate board.FrameRate, in, out float64, end board.Frame) span {
	if in == 0 && out == 0 {
		return span{}
	}
	s := span{rate.Nearest(in), end}
	if out > 0 {
		s.to = min(end, rate.Nearest(out))
	}
	return s
}

// manner returns what the player is told, and the loop in it.
func (w *window) manner(once span) (span, play.Manner) {
	m := play.Manner{Speed: w.transport.speed, Bends: w.transport.kept.Bends}
	var loop span
	if once.empty() {
		loop = w.passage()
	}
	if loop.empty() {
		return span{}, m
	}
	m.From, m.To = w.board.Rate.Seconds(loop.from), w.board.Rate.Seconds(loop.to)
	return loop, m
}

// setLoop sets what is looped, while it plays too.
func (w *window) setLoop(k loopKind) {
	t := &w.transport
	if k != loopNone {
		t.last = k
	}
	t.loop = k
	w.showTransport()
	if k == loopNone {
		w.foot.Say("Playing goes on to the end.")
	} else if k == loopBar && len(barFrames(w.board)) == 0 {
		w.sayNoBars()
	} else if s := w.passage(); s.empty() {
		w.foot.Say("There is nothing to loop there yet: set In and Out marks, or choose panels.")
	} else {
		w.foot.Say(fmt.Sprintf("%s: frames %d to %d, round and round.", loopNames[k], s.from, s.to-1))
	}
}

// toggleLoop switches the loop used last on or off: the marked range if there
// are marks, else the chosen panels.
func (w *window) toggleLoop() {
	t := &w.transport
	switch {
	case t.loop != loopNone:
		w.setLoop(loopNone)
	case t.last != loopNone:
		w.setLoop(t.last)
	case t.in > 0 || t.out > 0:
		w.setLoop(loopMarked)
	default:
		w.setLoop(loopChosen)
	}
}

// playAroundCut plays once from before the start of the chosen panel to after
// it, and goes back to the cut. Asked for again meanwhile, it is the same cut.
func (w *window) playAroundCut() {
	if w.chosen < 0 {
		return
	}
	if p := w.playing; p != nil && !p.once.empty() {
		w.stopBack()
	}
	w.stop()
	cut := w.starts[w.chosen]
	at := w.board.Rate.Seconds(cut)
	around := span{max(0, w.board.Rate.Nearest(at-aroundCut)), min(w.lastFrame(), w.board.Rate.Nearest(at+aroundCut))}
	w.goTo(around.from, true)
	w.playFrom(around, 0)
	w.transport.began = cut
}
