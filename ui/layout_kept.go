package ui

import (
	"encoding/json"
	"slices"

	"fyne.io/fyne/v2"

	"stillbeat/board"
)

// arrangement is how the window was left. The program keeps it in its own
// settings, apart from the films.
type arrangement struct {
	Width   float32      `json:"width"` // of the window, its menu too
	Height  float32      `json:"height"`
	Rows    float64      `json:"rows"`    // share of the timeline
	Columns float64      `json:"columns"` // share of the viewer
	Look    string       `json:"look"`
	Text    int          `json:"text"` // per cent
	Onsets  float64      `json:"onsets"`
	Target  board.Target `json:"target"`
	Lead    board.Frame  `json:"lead"` // frames
	Push    bool         `json:"push"`
}

// arrangementKey is where the program keeps it.
const arrangementKey = "arrangement"

// usualArrangement is that of the first time.
func usualArrangement() arrangement {
	return arrangement{Rows: 0.38, Columns: 0.66, Look: looks[0].name, Text: 100, Target: board.ToBeat}
}

// readArrangement reads one that was kept; what makes no sense in it is as the
// first time.
func readArrangement(data string) arrangement {
	usual := usualArrangement()
	a := usual
	if json.Unmarshal([]byte(data), &a) != nil {
		return usual
	}
	share := func(v *float64, usual float64) {
		if !(*v > 0 && *v < 1) {
			*v = usual
		}
	}
	share(&a.Rows, usual.Rows)
	share(&a.Columns, usual.Columns)
	a.Look = lookNamed(a.Look).name
	a.Text = nearestText(a.Text)
	if a.Onsets != strongOnset && a.Onsets != noOnsets {
		a.Onsets = 0
	}
	if a.Target != "" && !slices.Contains(board.Targets, a.Target) {
		a.Target = usual.Target
	}
	a.Lead = max(-maxLead, min(a.Lead, maxLead))
	return a
}

// nearestText returns the size of text that can be set nearest to a percentage.
func nearestText(percent int) int {
	best := 100
	for _, s := range textSizes {
		if max(s-percent, percent-s) < max(best-percent, percent-best) {
			best = s
		}
	}
	return best
}

// takeArrangement puts the window as it was left, all but its size.
func (w *window) takeArrangement() {
	a := readArrangement(w.app.Preferences().String(arrangementKey))
	w.rows.Offset, w.columns.Offset = a.Rows, a.Columns
	w.timeline.view.onsets, w.timeline.target, w.timeline.pushing, w.lead = a.Onsets, a.Target, a.Push, a.Lead
	refreshMenus(w.menu, w.commands)
}

// keepArrangement has the program remember how the window is.
func (w *window) keepArrangement() {
	size := w.win.Canvas().Size()
	data, err := json.Marshal(arrangement{
		Width: size.Width, Height: size.Height, Rows: w.rows.Offset, Columns: w.columns.Offset,
		Look: worn.name, Text: textPercent,
		Onsets: w.timeline.view.onsets, Target: w.timeline.target, Lead: w.lead, Push: w.timeline.pushing,
	})
	if err == nil {
		w.app.Preferences().SetString(arrangementKey, string(data))
	}
}

// wearKept dresses the program as it was left; the window is made in it.
func wearKept(app fyne.App) {
	a := readArrangement(app.Preferences().String(arrangementKey))
	worn, textPercent = lookNamed(a.Look), a.Text
	redress()
}

// keptSize returns the size a new window gets: the one it was left with, as
// far as the screen has room for it.
func keptSize(app fyne.App, usual, room fyne.Size) fyne.Size {
	a := readArrangement(app.Preferences().String(arrangementKey))
	if !(a.Width >= 400 && a.Height >= 300) {
		return usual
	}
	return fyne.NewSize(min(a.Width, room.Width), min(a.Height, room.Height))
}
