package ui

import (
	"fmt"

	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"

	"stillbeat/board"
)

// tapping is a run of taps along with the song.
type tapping struct {
	taps []float64 // seconds of song that were heard at each
}

// tap notes that the beat is now. The first one starts the song if it does
// not play; the run ends when playing stops.
func (w *window) tap() {
	if w.playing == nil {
		w.foot.Say(fmt.Sprintf("Tap %s on each beat; %s ends it.", w.keys.of("Tap the beat while it plays"), w.keys.of("Play or pause")))
		w.play(0)
		return
	}
	if w.counting(w.player.Position()) {
		return // this tap counts in
	}
	if w.tapping == nil {
		w.tapping = &tapping{}
	}
	w.tapping.taps = append(w.tapping.taps, w.player.Position()-w.board.SongOffset())
	n := len(w.tapping.taps)
	if n < 2 {
		w.foot.Say("1 tap")
		return
	}
	first, last := w.tapping.taps[0], w.tapping.taps[n-1]
	w.foot.Say(fmt.Sprintf("%d taps, about %.0f BPM", n, 60*float64(n-1)/(last-first)))
}

// endTapping offers what was tapped.
func (w *window) endTapping() {
	run := w.tapping
	w.tapping = nil
	if run == nil || len(run.taps) < board.MinTaps {
		return
	}
	var onsets []float64
	for _, o := range w.board.Grid.Onsets {
		onsets = append(onsets, o.Time)
	}
	steady, err := board.FitTaps(run.taps, board.TapOptions{Reference: onsets})
	if err != nil {
		w.foot.Say(sentence(err.Error()))
		return
	}
	follow, followErr := board.FitTaps(run.taps, board.TapOptions{Reference: onsets, Follow: true})
	box := dialog.NewCustomWithoutButtons("What you tapped", container.NewVBox(
		canvasText(fmt.Sprintf("%d of %d taps keep count: %.2f BPM, give or take %s.",
			steady.Used, len(run.taps), steady.Tempo, milliseconds(steady.Spread))),
		small(latenessWords(steady)),
	), w.win)
	lay := func(fit board.TapFit) func() {
		return func() {
			box.Hide()
			w.do(board.LayTaps(fit))
		}
	}
	following := quiet("Follow the taps", lay(follow))
	setEnabled(following, followErr == nil)
	box.SetButtons(buttons(quiet("Throw them away", box.Hide), following,
		strong(fmt.Sprintf("Steady %.2f BPM", steady.Tempo), lay(steady))))
	box.Show()
}

func latenessWords(fit board.TapFit) string {
	switch {
	case fit.Matched == 0:
		return "How late the taps were could not be measured: slide the beats by ear afterwards."
	case fit.Late >= 0:
		return fmt.Sprintf("They were %s late against the song; that is taken off.", milliseconds(fit.Late))
	}
	return fmt.Sprintf("They were %s early against the song; that is taken off.", milliseconds(-fit.Late))
}

func milliseconds(sec float64) string {
	return fmt.Sprintf("%.0f ms", 1000*sec)
}
