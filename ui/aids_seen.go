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

// otherRate is the rate a film is compared with first: 12, at which most is
// shot that is not shot at 24 (common practice).
func otherRate(film board.FrameRate) board.FrameRate {
	if film == seenRates[1] {
		return seenRates[2]
	}
	return seenRates[1]
}

// caption says the rate, how panel i is exposed, and how many photographs of it
// a second takes.
func (s *seen) caption(i int) string {
	step := s.board.StepOf(i)
	name := fmt.Sprintf("on %ds", step)
	if step >= 1 && step <= len(stepNames) {
		name = stepNames[step-1]
	}
	return fmt.Sprintf("%s fps %s: %.3g photographs a second", s.board.Rate, name, s.board.Rate.Float()/float64(step))
}

// sayPair says in the foot what is side by side.
func (w *window) sayPair() {
	if w.paired {
		w.foot.Say(withKeys(fmt.Sprintf("%s fps beside %s. Another rate", w.board.Rate, w.seen.board.Rate), w.keys.of(seeRates)))
	} else {
		w.foot.Say(fmt.Sprintf("Seen at the film's own %s frames a second.", w.board.Rate))
	}
}

// seeRates is the name of the command for the next rate.
const seeRates = "See it at 8, 12 or 24 fps"

// seeNextRate goes on to the next rate and, after the last, back to the film's
// own; where that is beside it already, to the first.
func (w *window) seeNextRate() {
	if w.paired {
		r := nextSeenRate(w.board.Rate, w.seen)
		if r == nil {
			r = nextSeenRate(w.board.Rate, nil)
		}
		w.seen = seenAs(w.desk.Pictures, w.board, *r)
		w.sayPair()
	} else if r := nextSeenRate(w.board.Rate, w.seen); r != nil {
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
		return seeRates
	}
	return fmt.Sprintf("%s: now at %s", seeRates, w.seen.board.Rate)
}

// followSeen brings what is seen in line with the film.
func (w *window) followSeen() {
	if w.seen == nil {
		return
	}
	rate := w.seen.board.Rate
	if rate == w.board.Rate {
		if !w.paired {
			w.seen = nil
			return
		}
		rate = otherRate(rate)
	}
	w.seen = seenAs(w.desk.Pictures, w.board, rate)
}

// sights returns the film as it is seen: at its own rate, at another, or both,
// its own first.
func (w *window) sights() []*seen {
	own := &seen{w.board, w.starts, w.film}
	switch {
	case w.seen == nil:
		return []*seen{own}
	case w.paired:
		return []*seen{own, w.seen}
	}
	return []*seen{w.seen}
}
