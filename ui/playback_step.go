package ui

import "stillbeat/board"

// hearHere has a snippet of the sound at the playhead heard, if that is asked
// for.
func (w *window) hearHere() {
	if !w.transport.kept.Silent && w.playing == nil {
		w.player.Scrub(w.board.Rate.Seconds(w.at))
	}
}

// sayNoBars says what is missing for whatever goes by bars.
func (w *window) sayNoBars() {
	w.foot.Say(withKeys("It is not known where bars start. At the first beat of one, choose “"+barsName+"”", w.keys.of(barsName)))
}

// stepBar goes to the next start of a bar, or the one before.
func (w *window) stepBar(by int) {
	bars := barFrames(w.board)
	if len(bars) == 0 {
		w.sayNoBars()
		return
	}
	to := board.Frame(0)
	if by > 0 {
		to = w.lastFrame()
		for i := len(bars) - 1; i >= 0 && bars[i] > w.at; i-- {
			to = min(to, bars[i])
		}
	} else {
		for _, f := range bars {
			if f < w.at {
				to = f
			}
		}
	}
	w.seek(to)
}

// stepSecond goes so many seconds on.
func (w *window) stepSecond(by float64) {
	w.seek(w.board.Rate.Nearest(w.board.Rate.Seconds(w.at) + by))
}
