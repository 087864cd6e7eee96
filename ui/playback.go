package ui

import (
	"time"

	"fyne.io/fyne/v2"

	"stillbeat/audio/play"
	"stillbeat/board"
	"stillbeat/board/picture"
)

// playback is one stretch of playing: at each refresh of the screen it asks
// the player where the sound is and shows the frame that is up then.
type playback struct {
	ticker *fyne.Animation
	once   span        // played through once, without a loop; empty: the film
	manner play.Manner // what the player was told
	loop   span        // of it, in frames; empty for none
	moved  bool        // the sound is to go on from the playhead
	silent bool        // it is said that nothing can be heard
}

// togglePlay starts and pauses.
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
	if loop := w.passage(); !loop.empty() && !loop.has(w.at) {
		w.goTo(loop.from, true)
	} else if w.at >= w.lastFrame() {
		w.goTo(0, true)
	}
	w.playFrom(span{}, countIn)
}

// playFrom plays from the playhead on: once to the end of a span, or as the
// loop is set, after so many bars of clicks.
func (w *window) playFrom(once span, countIn int) {
	w.transport.began = w.at
	if unopened := w.board.Song != nil && w.desk.Sound() == nil; (unopened || w.player.Trouble() != nil) && !w.jobs.Busy() {
		w.lookForSound() // opening it was stopped or failed: try again
	}
	p := &playback{once: once}
	p.ticker = fyne.NewAnimation(time.Hour, func(float32) { w.tick(p) })
	p.ticker.RepeatCount = fyne.AnimationRepeatForever
	w.playing = p
	w.sound(p, countIn)
	p.ticker.Start()
	w.deck.Playing(true)
	w.faces.takeTool()
}

// lookForSound gives the player its sound anew; where it had no device, it
// looks for one.
func (w *window) lookForSound() {
	w.tuned = tuning{}
	w.tune()
}

// sound has the player go on from the playhead, in the manner that is set now,
// after so many bars of clicks.
func (w *window) sound(p *playback, countIn int) {
	p.moved = false
	p.loop, p.manner = w.manner(p.once)
	w.player.SetManner(p.manner)
	w.player.Play(w.countIn(w.at, countIn))
}

// replan has the sound go on as it is set now, if that is another manner than
// it plays in.
func (w *window) replan() {
	if p := w.playing; p != nil {
		if _, m := w.manner(p.once); m != p.manner {
			p.moved = true
		}
	}
}

// stop stops playing where it is.
func (w *window) stop() {
	if w.playing == nil {
		return
	}
	w.playing.ticker.Stop()
	w.playing = nil
	w.cue.Store(nil)
	w.goTo(w.at, true)
	w.player.Stop()
	w.deck.Playing(false)
	w.faces.takeTool()
	w.foot.Present(w.board, w.starts, w.soundWords())
	w.choosePlaying()
	w.endTapping()
}

// stopBack stops, and goes back to where playing began.
func (w *window) stopBack() {
	w.stop()
	w.goTo(min(w.transport.began, w.lastFrame()), true)
	w.choosePlaying()
}

func (w *window) tick(p *playback) {
	if w.playing != p || !w.player.Playing() { // a song is just being put in
		return
	}
	if p.moved { // once a refresh, however quick the keys are
		w.sound(p, 0)
		return
	}
	if err := w.player.Trouble(); (err != nil) != p.silent {
		p.silent = err != nil
		w.foot.Present(w.board, w.starts, w.soundWords())
		refreshMenus(w.menu, w.commands)
		if p.silent {
			w.foot.Say(sentence(err.Error() + "; playing goes on by the clock"))
		} else {
			w.foot.Say("The sound is back.")
		}
	}
	w.paint.end(time.Now())
	t := w.player.PositionIn(w.paint.lead())
	if w.counting(t) {
		return
	}
	f := w.board.Rate.At(t)
	switch {
	case !p.loop.empty():
		f = min(f, p.loop.to-1)
	case !p.once.empty() && f >= p.once.to:
		w.stopBack()
		return
	case f >= w.lastFrame():
		w.goTo(w.lastFrame(), true)
		w.stop()
		return
	}
	switch {
	case f != w.at:
		w.paint.begin(time.Now())
		w.goTo(f, true)
		w.post(func() { w.paint.end(time.Now()) }) // the toolkit paints before it looks at it
	case w.seen != nil: // whose frames may be shorter than the film's
		w.showPicture(t)
	}
}

// seek moves the playhead, and the timeline with it; while playing, the sound
// goes on from there.
func (w *window) seek(f board.Frame) { w.seekOn(f, true) }

// scrub moves it as the pointer does that drags it, over a timeline that stays.
func (w *window) scrub(f board.Frame) { w.seekOn(f, false) }

func (w *window) seekOn(f board.Frame, follow bool) {
	w.goTo(max(0, min(f, w.lastFrame())), follow)
	if w.playing != nil {
		w.cue.Store(nil)
		w.playing.moved, w.playing.once = true, span{}
		return
	}
	w.choosePlaying()
	w.hearHere()
}

func (w *window) goTo(f board.Frame, follow bool) {
	w.at = f
	if w.rest(time.Now()); !w.resting {
		w.timeline.SetPlayhead(f, follow)
		w.wall.wall.SetPlayhead(f, follow)
		w.pages.Moved()
	}
	w.showFrame(f)
}

// showFrame shows frame f of the film in the viewer and below it.
func (w *window) showFrame(f board.Frame) {
	if !w.resting {
		w.deck.Present(w.board, w.starts, w.numbers, f)
	}
	if p := w.playing; p != nil && !p.loop.empty() && p.loop.to-f < board.Frame(2*w.board.Rate.Nominal()) {
		w.aheadOf(p.loop.from)
	}
	w.showPicture(w.board.Rate.Seconds(f))
}

// aheadOf has the pictures drawn from frame f on, to which a loop is about to
// turn back.
func (w *window) aheadOf(f board.Frame) {
	t := w.board.Rate.Seconds(f)
	for _, s := range w.sights() {
		f := s.board.Rate.Nearest(t)
		if i := board.PanelAt(s.starts, f); i >= 0 {
			due := append([]picture.Shot{s.film.Shot(f)}, dueShots(s, i, f)...)
			for _, v := range w.viewers() {
				v.Ahead(due) // twins are as large
			}
		}
	}
}
