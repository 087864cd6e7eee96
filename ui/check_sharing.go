package ui

import (
	"context"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"stillbeat/board"
	"stillbeat/board/check"
	"stillbeat/board/desk"
)

// cautionBeforeSharing looks for flashing in the background, and returns what
// tells of it in the dialog that shares the film: nothing is seen of that until
// some is found. What comes too late for the dialog is said in the foot. grown
// is called when the words need room.
func (w *window) cautionBeforeSharing(grown func()) fyne.CanvasObject {
	sign := container.NewVBox(container.New(widthLayout(20), iconOf(check.Danger)))
	place, words := wrappedLine(), wrappedLine()
	place.TextStyle.Bold = true
	root := container.NewBorder(nil, nil, sign, nil, fixedWidth(420, container.NewVBox(place, words)))
	root.Hide()
	tell := func(r check.Report) {
		where, cautions := flashingPlace(w.board, r.Findings), check.Cautions(r.Findings)
		if len(cautions) == 0 {
			return
		}
		place.SetText(where)
		words.SetText(cautions[0] + " " + check.Screening)
		root.Show()
		grown()
		if w.win.Canvas().Overlays().Top() == nil {
			w.foot.Say(where + " " + cautions[0])
		}
	}
	f, pictures := w.check.run.film(), w.check.run.cache()
	if w.check.run.Fresh() {
		tell(w.check.report)
		return root
	}
	var report check.Report
	w.jobs.Run("Looking for flashing", func(ctx context.Context, p desk.Progress) (err error) {
		report, err = lookOver(ctx, f, pictures, p)
		return err
	}, func(err error) {
		if err == nil && f.desk == w.desk {
			tell(report)
		}
	})
	return root
}

// flashingPlace says where the film flashes first: "Panel 12 begins flashing …".
func flashingPlace(b board.Board, all []check.Finding) string {
	for _, f := range all {
		if f.Caution != "" {
			return whole(f) + " It is at " + b.Rate.Timecode(f.Span.Start) + "."
		}
	}
	return ""
}
