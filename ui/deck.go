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
	icon := func(r fyne.Resource, do func(), names ...string) *hintedButton {
		return w.hinted("", r, widget.LowImportance, "", do).by(names...)
	}
	d.play = w.hinted("", theme.MediaPlayIcon(), widget.HighImportance, "", w.togglePlay).by("Play or pause")
	buttons := container.NewHBox(
		icon(theme.MediaSkipPreviousIcon(), func() { w.seek(0) }, "To the start"),
		icon(theme.MediaFastRewindIcon(), func() { w.stepPanel(-1) }, "To the panel before", "A frame back"),
		d.play,
		icon(theme.MediaFastForwardIcon(), func() { w.stepPanel(1) }, "To the next panel", "A frame on"),
		icon(theme.MediaSkipNextIcon(), func() { w.seek(w.lastFrame()) }, "To the end"),
	)
	d.root = band(paperDark, padded(10, 4, container.NewHBox(
		buttons, layout.NewSpacer(), centred(d.place), fixedWidth(10, layout.NewSpacer()), centred(d.clock))))
	return d
}

// Present shows where frame f is.
func (d *deck) Present(b board.Board, starts []board.Frame, numbers []string, f board.Frame) {
	setText(d.clock, b.Rate.Timecode(f))
	words := fmt.Sprintf("frame %d", f)
	if beat := b.BeatWords(f); beat != "" {
		words = beat + " · " + words
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
