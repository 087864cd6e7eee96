package ui

import (
	"os"
	"path/filepath"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"stillbeat/board/file"
)

const (
	recentKey = "recent films" // of the program's own settings
	maxRecent = 20
)

// remember puts the film on the desk at the head of those opened lately; the
// welcome offers the others.
func (w *window) remember() {
	defer w.welcome.Lately()
	path, err := filepath.Abs(w.desk.Path())
	if w.desk.Path() == "" || err != nil {
		return
	}
	list := slices.DeleteFunc(w.app.Preferences().StringList(recentKey), func(p string) bool { return p == path })
	list = append([]string{path}, list...)
	w.app.Preferences().SetStringList(recentKey, list[:min(len(list), maxRecent)])
}

// recentFilms returns the films opened lately that are still there, newest
// first, without the one on the desk.
func (w *window) recentFilms() []string {
	var out []string
	here, _ := filepath.Abs(w.desk.Path())
	for _, p := range w.app.Preferences().StringList(recentKey) {
		if info, err := os.Stat(p); err == nil && info.Mode().IsRegular() && p != here {
			out = append(out, p)
		}
	}
	return out
}

// filmName is a film's file name without the ending.
func filmName(path string) string { return strings.TrimSuffix(filepath.Base(path), file.Ext) }

// recentDialog offers the films opened lately.
func (w *window) recentDialog() {
	films := w.recentFilms()
	if len(films) == 0 {
		w.foot.Say("No other film was opened lately.")
		return
	}
	var box *dialog.CustomDialog
	chosen := 0
	open := func() {
		box.Hide()
		w.leave(func() { w.openFilm(films[chosen]) })
	}
	list := newKeyList(func() int { return len(films) }, func() fyne.CanvasObject {
		name := widget.NewLabel("")
		name.Truncation = fyne.TextTruncateEllipsis
		return container.NewBorder(nil, nil, nil, small(""), name)
	}, func(i widget.ListItemID, o fyne.CanvasObject) {
		row := o.(*fyne.Container).Objects
		row[0].(*widget.Label).SetText(filmName(films[i]))
		setText(row[1].(*canvas.Text), shortened(filepath.Dir(films[i]), textUnits(340), textUnits(12)))
	})
	list.OnSelected = func(i widget.ListItemID) { chosen = i }
	list.OnTake = open
	list.OnLeave = func() { box.Hide() }
	box = dialog.NewCustomWithoutButtons("Films opened lately", band(paper, padded(8, 4, list)), w.win)
	box.SetButtons(buttons(quiet("Cancel", box.Hide), strong("Open", open)))
	box.Resize(fyne.NewSize(640, min(520, w.win.Canvas().Size().Height*0.8)))
	box.Show()
	list.Select(0)
	w.win.Canvas().Focus(list)
}
