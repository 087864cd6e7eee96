package ui

import (
	"fmt"
	"slices"

	"fyne.io/fyne/v2"
)

// lookCommands is the part of the View menu on looks and the size of text.
func (w *window) lookCommands() []*command {
	c := []*command{{menu: "View"}}
	for _, l := range looks {
		c = append(c, &command{menu: "View", name: "Look: " + l.name, do: func() { w.wear(l, textPercent) },
			ticked: func() bool { return worn == l }})
	}
	return append(c, []*command{
		{menu: "View"},
		{menu: "View", name: "Larger text", key: fyne.KeyPlus, mod: ctrl, do: func() { w.stepText(1) },
			can: func() bool { return textPercent < textSizes[len(textSizes)-1] }},
		{menu: "View", name: "Smaller text", key: fyne.KeyMinus, mod: ctrl, do: func() { w.stepText(-1) },
			can: func() bool { return textPercent > textSizes[0] }},
		{menu: "View", name: "Usual size of text", key: digit(0), mod: ctrl, do: func() { w.wear(worn, 100) },
			can: func() bool { return textPercent != 100 }},
	}...)
}

// stepText goes by so many steps along the sizes of text.
func (w *window) stepText(by int) {
	i, _ := slices.BinarySearch(textSizes, textPercent)
	w.wear(worn, textSizes[max(0, min(i+by, len(textSizes)-1))])
	w.foot.Say(fmt.Sprintf("Text at %d %% of its usual size.", textPercent))
}

// wear dresses the window in a look and a size of text, and keeps both.
func (w *window) wear(l *look, percent int) {
	worn, textPercent = l, percent
	redress()
	w.app.Settings().SetTheme(newPaperTheme()) // redraws and lays out all there is
	refreshMenus(w.menu, w.commands)
	w.keepArrangement()
}
