package ui

import (
	"fmt"
	"slices"
	"strings"

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
	loop  *hintedButton
	speed *hintedButton
	clock *canvas.Text
	place *canvas.Text
	parts []string // of the place, the least one last
	room  float32  // for the place
	root  fyne.CanvasObject
}

func newDeck(w *window) *deck {
	d := &deck{clock: heading(""), place: small("")}
	d.clock.TextStyle.Monospace = true
	d.place.Alignment = fyne.TextAlignTrailing
	icon := func(r fyne.Resource, do func(), names ...string) *hintedButton {
		return w.hinted("", r, widget.LowImportance, "", do).by(names...)
	}
	d.play = w.hinted("", theme.MediaPlayIcon(), widget.HighImportance, "", w.togglePlay).by("Play or pause")
	buttons := container.NewHBox(
		icon(theme.MediaSkipPreviousIcon(), func() { w.seek(0) }, "To the start"),
		icon(theme.MediaFastRewindIcon(), func() { w.stepPanel(-1) }, "To the panel before", "A frame back"),
		d.play,
		icon(theme.MediaStopIcon(), w.stopBack, "Stop: back to where it began"),
		icon(theme.MediaFastForwardIcon(), func() { w.stepPanel(1) }, "To the next panel", "A frame on"),
		icon(theme.MediaSkipNextIcon(), func() { w.seek(w.lastFrame()) }, "To the end"),
	)
	d.loop = w.hinted("", theme.MediaReplayIcon(), widget.LowImportance, "What is played round and round", func() {
		w.menuOf(d.loop, append(loopNames[:], "In mark at the playhead", "Out mark at the playhead", "Take the marks away"))
	}).by("Loop on or off")
	d.speed = w.hinted("", nil, widget.LowImportance, "How fast it plays", func() {
		var names []string
		for _, s := range speeds {
			names = append(names, speedName(s))
		}
		w.menuOf(d.speed, append(names, "The pitch goes with the speed"))
	})
	buttons.Add(d.loop)
	buttons.Add(d.speed)
	d.PresentTransport(w.transport)
	d.root = band(paperDark, padded(10, 4, container.NewBorder(nil, nil,
		buttons, container.NewHBox(fixedWidth(10, layout.NewSpacer()), centred(d.clock)), container.New(placeLayout{d}, d.place))))
	return d
}

// Present shows where frame f is.
func (d *deck) Present(b board.Board, starts []board.Frame, numbers []string, f board.Frame) {
	setText(d.clock, b.Rate.Timecode(f))
	parts := []string{fmt.Sprintf("frame %d", f)}
	if beat := b.BeatWords(f); beat != "" {
		parts = append(parts, beat)
	}
	if i := board.PanelAt(starts, f); i >= 0 {
		parts = append(parts, "panel "+numbers[i])
	}
	slices.Reverse(parts)
	d.parts = parts
	d.fitPlace()
}

// fitPlace writes as many parts of the place as there is room for.
func (d *deck) fitPlace() {
	for i := range d.parts {
		words := strings.Join(d.parts[i:], " · ")
		if i == len(d.parts)-1 || fyne.MeasureText(words, d.place.TextSize, d.place.TextStyle).Width <= d.room {
			setText(d.place, words)
			return
		}
	}
}

// placeLayout gives the place the room that is left, at the right.
type placeLayout struct{ d *deck }

func (l placeLayout) MinSize(objects []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(textUnits(64), objects[0].MinSize().Height)
}

func (l placeLayout) Layout(objects []fyne.CanvasObject, s fyne.Size) {
	l.d.room = s.Width
	l.d.fitPlace()
	h := objects[0].MinSize().Height
	objects[0].Move(fyne.NewPos(0, (s.Height-h)/2))
	objects[0].Resize(fyne.NewSize(s.Width, h))
}

// PresentTransport shows what is looped and how fast it plays.
func (d *deck) PresentTransport(t transport) {
	d.loop.SetText(loopShort[t.loop])
	d.loop.Importance = widget.LowImportance
	if t.loop != loopNone {
		d.loop.Importance = widget.MediumImportance
	}
	d.loop.Refresh()
	d.speed.SetText(speedWords(t.speed))
}

// Playing puts the sign on the button right.
func (d *deck) Playing(on bool) {
	icon := theme.MediaPlayIcon()
	if on {
		icon = theme.MediaPauseIcon()
	}
	d.play.SetIcon(icon)
}
