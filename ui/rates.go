package ui

import (
	"fmt"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"

	"stillbeat/board"
)

// ratesDialog shows how well each frame rate meets the beats.
func (w *window) ratesDialog() {
	rates := slices.Clone(board.ShootingRates)
	if !slices.Contains(rates, w.board.Rate) {
		rates = append(rates, w.board.Rate)
	}
	grid := container.NewGridWithColumns(5)
	cell := func(s string, bold bool) *canvas.Text {
		t := canvasText(s)
		t.TextStyle.Bold = bold
		grid.Add(t)
		return t
	}
	for _, s := range []string{"fps", "worst, ms", "mean, ms", "limits kept", "beats on whole frames at"} {
		cell(s, true)
	}
	for _, row := range board.SyncTable(w.board, rates) {
		film := row.Rate == w.board.Rate
		name := row.Rate.String()
		if film {
			name += "  this film"
		}
		cell(name, film)
		cell(fmt.Sprintf("%.1f", row.Worst), film)
		cell(fmt.Sprintf("%.1f", row.Mean), film)
		kept := row.Kept()
		text := cell(fmt.Sprintf("%d of %d", kept, len(row.Keeps)), film)
		if kept == len(row.Keeps) {
			tinted(text, green)
		}
		cell(fmt.Sprintf("%.2f BPM (%d frames)", row.Tempo, row.Beat), film)
	}
	notes := container.NewVBox(small("How far the frame nearest to a beat is from it. The limits of sound against picture:"))
	for _, l := range board.SyncLimits {
		notes.Add(small(fmt.Sprintf("%s: %.0f ms early, %.0f ms late", l.Name, l.Early, l.Late)))
	}
	box := dialog.NewCustom("Frame rates for this music", "Close", container.NewVBox(grid, padded(0, 8, notes)), w.win)
	box.Resize(fyne.NewSize(min(760, w.win.Canvas().Size().Width*0.9), 0))
	box.Show()
}
