package ui

import (
	"cmp"
	"fmt"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"

	"stillbeat/board"
)

// cut is a start that is off the music.
type cut struct {
	start int // panel, or len(Panels) for the end
	ms    float64
}

// worstCuts returns the starts that fight the music, the furthest off first.
func worstCuts(b board.Board, starts []board.Frame) []cut {
	var out []cut
	half := 500 / b.Rate.Float()
	for i := 1; i < len(starts); i++ {
		if ms, ok := b.OffBeat(starts, i); ok && fights(ms, half) {
			out = append(out, cut{i, ms})
		}
	}
	slices.SortStableFunc(out, func(a, c cut) int { return -cmp.Compare(max(a.ms, -a.ms), max(c.ms, -c.ms)) })
	return out
}

// words describes a cut: "Panel 7 starts 132 ms (3.2 frames) late".
func (c cut) words(b board.Board, numbers []string) string {
	what := "The film ends"
	if c.start < len(numbers) {
		what = "Panel " + numbers[c.start] + " starts"
	}
	off, how := c.ms, "late"
	if off < 0 {
		off, how = -off, "early"
	}
	return fmt.Sprintf("%s %.0f ms (%.1f frames) %s", what, off, off*b.Rate.Float()/1000, how)
}

// worstDialog lists the cuts that fight the music: a click goes there, a
// button puts the start on its nearest beat.
func (w *window) worstDialog() {
	cuts := worstCuts(w.board, w.starts)
	if len(cuts) == 0 {
		w.foot.Say("Every cut sits on the music.")
		return
	}
	var box *dialog.CustomDialog
	var list *keyList
	count := widget.NewLabel("")
	list = newKeyList(func() int { return len(cuts) }, func() fyne.CanvasObject {
		mend := widget.NewButton("Put on the beat", nil)
		mend.Importance = widget.LowImportance
		return container.NewBorder(nil, nil, nil, mend, widget.NewLabel(""))
	}, func(i widget.ListItemID, o fyne.CanvasObject) {
		row, c := o.(*fyne.Container).Objects, cuts[i]
		row[0].(*widget.Label).SetText(c.words(w.board, w.numbers))
		row[1].(*widget.Button).OnTapped = func() { w.mendCut(c.start); refreshCuts(w, &cuts, list, count) }
	})
	list.OnSelected = func(i widget.ListItemID) {
		w.seek(w.starts[cuts[i].start])
		w.timeline.reveal(w.board.Rate.Seconds(w.at))
		if cuts[i].start < len(w.board.Panels) {
			w.choose(cuts[i].start)
		}
	}
	list.OnTake, list.OnLeave = func() { box.Hide() }, func() { box.Hide() }
	refreshCuts(w, &cuts, list, count)
	box = dialog.NewCustomWithoutButtons("Cuts that fight the music", container.NewBorder(count, nil, nil, nil, band(paper, padded(8, 4, list))), w.win)
	box.SetButtons(buttons(
		quiet("Put all on the beat", func() {
			for _, c := range cuts {
				w.mendCut(c.start)
			}
			refreshCuts(w, &cuts, list, count)
		}),
		strong("Close", func() { box.Hide() })))
	box.Resize(fyne.NewSize(560, min(480, w.win.Canvas().Size().Height*0.8)))
	box.Show()
	w.win.Canvas().Focus(list)
}

func refreshCuts(w *window, cuts *[]cut, list *keyList, count *widget.Label) {
	*cuts = worstCuts(w.board, w.starts)
	n := len(*cuts)
	count.SetText(fmt.Sprintf("%d of %d %s fight the music. Early by less than %d ms is not noticed.", n, len(w.starts)-1, plural(int64(len(w.starts)-1), "cut"), board.LeadUnnoticed))
	list.UnselectAll()
	list.Refresh()
}

// mendCut puts a start on the beat nearest to it that its neighbours leave
// room for.
func (w *window) mendCut(i int) { w.do(board.PutOnBeat(i)) }
