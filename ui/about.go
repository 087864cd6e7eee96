package ui

import (
	"context"

	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"

	"stillbeat/board/desk"
)

func (w *window) showAbout() {
	dialog.ShowCustom("Stillbeat", "Close", container.NewVBox(
		canvasText("Settles what happens, for how many frames and on which beat,"),
		canvasText("before the first photograph of a stop-motion film is taken."),
		padded(0, 6, small("BSD-3-Clause. The libraries it stands on are named in DEVELOPERS.md.")),
	), w.win)
}

// demoWork makes the demo film and leaves its path.
func (w *window) demoWork(path *string) func(context.Context, desk.Progress) error {
	return func(context.Context, desk.Progress) (err error) {
		*path, err = w.demo()
		return err
	}
}
