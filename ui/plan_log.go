package ui

import (
	"fmt"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"stillbeat/board"
	"stillbeat/board/sheet"
)

const stillHint = "Nothing stirs in it: one photograph lasts for all of the hold."

// stillCommand marks the chosen panels as still, or takes the mark back.
func (w *window) stillCommand() *command {
	still := func() bool { return w.chosen >= 0 && w.board.Panels[w.chosen].Still }
	return &command{menu: "Panel", name: "Still: one photograph for all of the hold", near: nearPanel, do: func() {
		on := !still()
		w.onSelection(func(set []int) board.Edit { return board.SetStill(set, on) })
	}, can: func() bool { return w.chosen >= 0 }, ticked: still}
}

// logDialog asks what a spell of shooting gave.
func (p *planPage) logDialog() {
	w := p.w
	shot, exposures, minutes := newField("its number", 1), newField("how many", 1), newField("without the set-up", 1)
	if s := p.view.chosen; s >= 0 {
		shot.SetText(sheet.ShotNames(w.board)[s])
	}
	w.ask("Log a spell of shooting", "Log it", []askRow{{"Exposures", exposures}, {"Minutes", minutes}, {"Shot", shot},
		{"", small("The pace is learnt from all of the log, unless one is written.")}}, func() error {
		n, err := strconv.Atoi(strings.TrimSpace(exposures.Text))
		if err != nil {
			return fmt.Errorf("%.40q is not a number of exposures", exposures.Text)
		}
		m, err := strconv.ParseFloat(strings.ReplaceAll(strings.TrimSpace(minutes.Text), ",", "."), 64)
		if err != nil {
			return fmt.Errorf("%.40q is not a number of minutes", minutes.Text)
		}
		return w.desk.Do(board.Log(board.Logged{Shot: strings.TrimSpace(shot.Text), Exposures: n, Minutes: m}))
	})
}

// logWords says what an entry of the log holds.
func logWords(l board.Logged) string {
	words := fmt.Sprintf("%d %s in %s min, %.3g each", l.Exposures, plural(int64(l.Exposures), "exposure"), inNumbers(l.Minutes), l.Minutes/float64(l.Exposures))
	if l.Shot != "" {
		words = "Shot " + l.Shot + ": " + words
	}
	return words
}

// loggedDialog lists the log, the last entry first; a button takes one out.
func (p *planPage) loggedDialog() {
	w := p.w
	entries := func() []board.Logged { return w.board.Planning().Log }
	var box *dialog.CustomDialog
	var list *keyList
	list = newKeyList(func() int { return len(entries()) }, func() fyne.CanvasObject {
		out := widget.NewButton("Take out", nil)
		out.Importance = lowImportance
		return container.NewBorder(nil, nil, nil, out, widget.NewLabel(""))
	}, func(i widget.ListItemID, o fyne.CanvasObject) {
		row, at := o.(*fyne.Container).Objects, len(entries())-1-i
		if at < 0 {
			return
		}
		row[0].(*widget.Label).SetText(logWords(entries()[at]))
		setEnabled(row[1].(*widget.Button), w.desk.ReadOnly() == nil)
		row[1].(*widget.Button).OnTapped = func() {
			w.do(board.RemoveLog(at))
			if len(entries()) == 0 {
				box.Hide()
				return
			}
			list.UnselectAll()
			list.Refresh()
		}
	})
	list.OnTake, list.OnLeave = func() { box.Hide() }, func() { box.Hide() }
	box = dialog.NewCustomWithoutButtons("What was logged", band(paper, padded(8, 4, list)), w.win)
	box.SetButtons(buttons(strong("Close", func() { box.Hide() })))
	box.Resize(fyne.NewSize(520, min(420, w.win.Canvas().Size().Height*0.8)))
	box.Show()
	w.win.Canvas().Focus(list)
}
