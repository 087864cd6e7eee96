package ui

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"stillbeat/board"
)

// deck is the row under the viewer: transport and where the playhead is.
type deck struct {
	play  *hintedButton
	clock *canvas.Text
	place *canvas.Text
	root  fyne.CanvasObject
}

func newDeck(w *window) *deck {
	d := &deck{clock: heading(""), place: small("")}
	d.clock.TextStyle.Monospace = true
	icon := func(r fyne.Resource, hint string, do func()) *hintedButton {
		return w.hinted("", r, widget.LowImportance, hint, do)
	}
	d.play = w.hinted("", theme.MediaPlayIcon(), widget.HighImportance, "Play or pause: Space", w.togglePlay)
	buttons := container.NewHBox(
		icon(theme.MediaSkipPreviousIcon(), "To the start: Home", func() { w.seek(0) }),
		icon(theme.MediaFastRewindIcon(), "To the panel before: Up. A frame back: Left", func() { w.stepPanel(-1) }),
		d.play,
		icon(theme.MediaFastForwardIcon(), "To the next panel: Down. A frame on: Right", func() { w.stepPanel(1) }),
		icon(theme.MediaSkipNextIcon(), "To the end: End", func() { w.seek(w.lastFrame()) }),
	)
	d.root = band(paperDark, padded(10, 4, container.NewHBox(
		buttons, layout.NewSpacer(), centred(d.place), fixedWidth(10, layout.NewSpacer()), centred(d.clock))))
	return d
}

// Present shows where frame f is.
func (d *deck) Present(b board.Board, starts []board.Frame, numbers []string, f board.Frame) {
	setText(d.clock, b.Rate.Timecode(f))
	words := fmt.Sprintf("frame %d", f)
	if b.OnGrid() {
		// A beat counts from the frame nearest to it.
		t := b.Rate.Seconds(f) + 0.5/b.Rate.Float() - b.SongOffset()
		if beat := beatAt(b.Grid, t); beat >= 0 {
			if bar, place := barAndBeat(b.Grid, beat); bar > 0 {
				words = fmt.Sprintf("bar %d, beat %d · ", bar, place) + words
			} else {
				words = fmt.Sprintf("beat %d · ", place) + words
			}
		}
	}
	if i := board.PanelAt(starts, f); i >= 0 {
		words = fmt.Sprintf("panel %s · ", numbers[i]) + words
	}
	setText(d.place, words)
}

// Playing puts the sign on the button right.
func (d *deck) Playing(on bool) {
	icon := theme.MediaPlayIcon()
	if on {
		icon = theme.MediaPauseIcon()
	}
	d.play.SetIcon(icon)
}

// beatAt returns the beat that is sounding at t seconds of song, -1 before the
// first.
func beatAt(g board.Grid, t float64) int {
	lo, hi := 0, len(g.Beats)
	for lo < hi {
		mid := (lo + hi) / 2
		if g.Beats[mid].Time > t+1e-6 {
			hi = mid
		} else {
			lo = mid + 1
		}
	}
	return lo - 1
}
