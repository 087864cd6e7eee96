package ui

import (
	"time"

	"fyne.io/fyne/v2"

	"stillbeat/board"
)

// playback is one stretch of playing: at each refresh of the screen it asks
// the player where the sound is and shows the frame that is up then.
type playback struct {
	ticker *fyne.Animation
	end    board.Frame
}

// refresh is how much later than it is chosen a picture is seen, in seconds:
// it is painted at this refresh of the screen and shown at the next.
const refresh = 1. / 60

// togglePlay starts and stops.
func (w *window) togglePlay() {
	if w.playing != nil {
		w.stop()
		return
	}
	w.play(w.aids.CountIn)
}

// play starts, after so many bars of clicks.
func (w *window) play(countIn int) {
	if w.lastFrame() == 0 {
		w.foot.Say("There is nothing to play yet: bring in a song or add pictures.")
		return
	}
	if w.at >= w.lastFrame() {
		w.seek(0)
	}
	if w.board.Song != nil && w.desk.Sound() == nil && !w.jobs.Busy() {
		w.tuned = tuning{} // opening it was stopped or failed: try again
		w.tune()
	}
	p := &playback{end: w.lastFrame()}
	p.ticker = fyne.NewAnimation(time.Hour, func(float32) { w.tick(p) })
	p.ticker.RepeatCount = fyne.AnimationRepeatForever
	w.playing = p
	w.player.Play(w.countIn(w.at, countIn))
	p.ticker.Start()
	w.deck.Playing(true)
}

// stop stops playing where it is.
func (w *window) stop() {
	if w.playing == nil {
		return
	}
	w.playing.ticker.Stop()
	w.playing = nil
	w.cue.Store(nil)
	w.showFrame(w.at)
	w.player.Stop()
	w.deck.Playing(false)
	w.foot.Present(w.board, w.starts, w.soundWords())
	w.choosePlaying()
	w.endTapping()
}

func (w *window) tick(p *playback) {
	if w.playing != p || !w.player.Playing() { // a song is just being put in
		return
	}
	t := w.player.Position() + refresh
	if w.counting(t) {
		return
	}
	f := w.board.Rate.At(t)
	if f >= w.lastFrame() {
		w.goTo(w.lastFrame(), true)
		w.stop()
		return
	}
	switch {
	case f != w.at:
		w.goTo(f, true)
	case w.seen != nil: // whose frames may be shorter than the film's
		w.showPicture(t)
	}
}

// seek moves the playhead; while playing, the sound goes on from there.
func (w *window) seek(f board.Frame) {
	f = max(0, min(f, w.lastFrame()))
	w.goTo(f, false)
	if w.playing != nil {
		w.cue.Store(nil)
		w.player.Play(w.board.Rate.Seconds(f))
		return
	}
	w.choosePlaying()
}

func (w *window) goTo(f board.Frame, follow bool) {
	w.at = f
	w.timeline.SetPlayhead(f, follow)
	w.wall.wall.SetPlayhead(f, follow)
	w.showFrame(f)
}

// showFrame shows frame f of the film in the viewer and below it.
func (w *window) showFrame(f board.Frame) {
	w.deck.Present(w.board, w.starts, w.numbers, f)
	w.showPicture(w.board.Rate.Seconds(f))
}

// dueBy returns the panel up to which pictures are drawn ahead of panel i:
// those due within two seconds, six at least and forty at most.
func (w *window) dueBy(i int) int {
	soon := w.starts[i] + board.Frame(2*w.board.Rate.Nominal())
	n := i + 7
	for n < len(w.board.Panels) && n < i+40 && w.starts[n] < soon {
		n++
	}
	return min(n, len(w.board.Panels))
}
