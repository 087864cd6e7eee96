package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"
)

// heading is a line that names a part of the window.
func heading(s string) *canvas.Text { return written(s, ink, 16, true) }

// small is a line of less weight.
func small(s string) *canvas.Text { return written(s, inkSoft, 12, false) }

// label names a field.
func label(s string) fyne.CanvasObject {
	t := small(s)
	return padded(2, 7, t)
}

// centred puts a line in the middle of the height it is given, at the left.
func centred(t *canvas.Text) fyne.CanvasObject {
	return container.NewVBox(layout.NewSpacer(), t, layout.NewSpacer())
}

func setText(t *canvas.Text, s string) {
	if t.Text != s {
		t.Text = s
		t.Refresh()
	}
}

// quiet is a button that stays in the background.
func quiet(text string, do func()) *widget.Button {
	b := widget.NewButton(text, do)
	b.Importance = widget.LowImportance
	return b
}
