package ui

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"
)

// historyDialog lists what was done, newest last; one can go to any of it.
func (w *window) historyDialog() {
	past := w.desk.Past()
	var box *dialog.CustomDialog
	list := newKeyList(func() int { return len(past.Steps) }, func() fyne.CanvasObject {
		return container.NewBorder(nil, nil, fixedWidth(24, small("")), nil, widget.NewLabel(""))
	}, func(i widget.ListItemID, o fyne.CanvasObject) {
		name := o.(*fyne.Container).Objects[0].(*widget.Label)
		words := past.Steps[i].Name
		if i == 0 {
			words = "as it was opened"
		}
		name.TextStyle.Bold = i == past.At
		name.Importance, name.TextStyle.Italic = widget.MediumImportance, false
		if i > past.At { // taken back
			name.Importance, name.TextStyle.Italic = widget.LowImportance, true
		}
		name.SetText(fmt.Sprintf("%d  %s", i, words))
	})
	chosen := past.At
	list.OnSelected = func(i widget.ListItemID) { chosen = i }
	goTo := func() {
		box.Hide()
		w.goToStep(chosen)
	}
	list.OnTake, list.OnLeave = goTo, func() { box.Hide() }
	box = dialog.NewCustomWithoutButtons("What was done", band(paper, padded(8, 4, list)), w.win)
	box.SetButtons(buttons(quiet("Cancel", func() { box.Hide() }), strong("Go there", goTo)))
	box.Resize(fyne.NewSize(460, min(560, w.win.Canvas().Size().Height*0.85)))
	box.Show()
	list.Select(past.At)
	list.ScrollTo(past.At)
	w.win.Canvas().Focus(list)
}

// goToStep undoes or redoes up to a step of the past.
func (w *window) goToStep(i int) {
	for w.desk.Past().At > i && w.desk.Undo() {
	}
	for w.desk.Past().At < i && w.desk.Redo() {
	}
}
