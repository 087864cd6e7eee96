package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
)

// askForm lays out the rows of a small dialog and returns the first field.
func askForm(rows []askRow) (form *fyne.Container, first *field) {
	form = container.New(layout.NewFormLayout())
	for _, r := range rows {
		form.Add(label(r.label))
		form.Add(r.field)
		if f, ok := r.field.(*field); ok && first == nil {
			first = f
		}
	}
	return form, first
}
