package ui

import (
	"fmt"

	"stillbeat/board"
	"stillbeat/board/picture"
)

// seenRates are the rates at which a film can be seen.
var seenRates = []board.FrameRate{{Num: 8, Den: 1}, {Num: 12, Den: 1}, {Num: 24, Den: 1}}

// seen is the film as it would be at another frame rate. The film itself does
// not change.
type seen struct {
	board  board.Board
	starts []board.Frame
	film   *picture.Film
}

// seenAs returns the film at another rate.
func seenAs(pics *picture.Cache, b board.Board, rate board.FrameRate) *seen {
	b.Rate = rate
	return &seen{b, b.Starts(), picture.NewFilm(pics, b)}
}

// nextSeenRate returns the rate after one, nil after the last, leaving out the
// film's own.
func nextSeenRate(film board.FrameRate, now *seen) *board.FrameRate {
	past := now == nil
	for i := range seenRates {
		r := &seenRates[i]
		switch {
		case !past:
			past = now.board.Rate == *r
		case *r != film:
			return r
		}
	}
	return nil
}

// seeNextRate goes on to the next rate and, after the last, back to the film's
// own.
func (w *window) seeNextRate() {
	if r := nextSeenRate(w.board.Rate, w.seen); r != nil {
		w.seen = seenAs(w.desk.Pictures, w.board, *r)
		w.foot.Say(fmt.Sprintf("Seen as it would be at %s frames a second; the film stays at %s.", r, w.board.Rate))
	} else {
		w.seen = nil
		w.foot.Say(fmt.Sprintf("Seen at the film's own %s frames a second.", w.board.Rate))
	}
	w.showFrame(w.at)
	refreshMenus(w.menu, w.commands)
}

func (w *window) seenLabel() string {
	if w.seen == nil {
		return "See it at 8, 12 or 24 fps"
	}
	return fmt.Sprintf("See it at 8, 12 or 24 fps: now at %s", w.seen.board.Rate)
}

// followSeen brings what is seen in line with the film.
func (w *window) followSeen() {
	if w.seen == nil {
		return
	}
	if w.seen.board.Rate == w.board.Rate {
		w.seen = nil
		return
	}
	w.seen = seenAs(w.desk.Pictures, w.board, w.seen.board.Rate)
}

// onView returns the film as it is seen.
func (w *window) onView() (board.Board, []board.Frame, *picture.Film) {
	if w.seen != nil {
		return w.seen.board, w.seen.starts, w.seen.film
	}
	return w.board, w.starts, w.film
}
