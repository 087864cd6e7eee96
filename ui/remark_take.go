package ui

import (
	"context"
	"errors"
	"fmt"
	"strings"

	"fyne.io/fyne/v2/dialog"

	"stillbeat/board"
	"stillbeat/board/desk"
	"stillbeat/board/review"
)

// isNotes reports whether a file that was dropped is to be taken for notes of
// others. Browsers write a number into the name of one that was there already.
func isNotes(ext string) bool { return ext == ".json" }

// pickRemarks asks which files of notes to take.
func (w *window) pickRemarks() {
	w.pick(pickRequest{title: "Take notes of others", extensions: []string{".json"}, kind: "notes", several: true}, w.bringRemarks)
}

// bringRemarks reads files of notes as a job and takes those that are on this
// film, in one step to undo. What was refused is told in one list; notes that
// seem to be on another film are asked about.
func (w *window) bringRemarks(paths []string) {
	if len(paths) == 0 {
		return
	}
	d, b := w.desk, w.board
	var mine, others []review.File
	var bad []error
	var alien error
	w.jobs.Run("Reading notes", func(ctx context.Context, p desk.Progress) error {
		for k, path := range paths {
			if ctx.Err() != nil {
				return ctx.Err()
			}
			f, err := review.Open(path)
			switch {
			case err != nil:
				bad = append(bad, err)
			case f.Film.Is(b):
				mine = append(mine, f)
			default:
				others = append(others, f)
				_, _, alien = review.Take(b, f, false)
			}
			p(float64(k+1) / float64(len(paths)))
		}
		return nil
	}, func(err error) {
		if d != w.desk {
			return
		}
		if err == nil && len(mine) > 0 {
			err = w.takeRemarks(mine)
		}
		if err = errors.Join(append(bad, err)...); err != nil {
			w.trouble("Notes that were not taken", err)
		}
		if len(others) > 0 {
			w.askOtherFilm(others, alien)
		}
	})
}

// askOtherFilm asks whether to take notes that seem to be on another film: the
// panels may all have been changed since, and the title too.
func (w *window) askOtherFilm(files []review.File, alien error) {
	words := sentence(alien.Error())
	if len(files) > 1 {
		words = fmt.Sprintf("%d files have notes that seem to be on another film.", len(files))
	}
	var box *dialog.CustomDialog
	box = dialog.NewCustomWithoutButtons("Notes on another film?", small(words), w.win)
	box.SetButtons(buttons(quiet("Leave them", func() { box.Hide() }), strong("Take them all the same", func() {
		box.Hide()
		if err := w.takeRemarks(files); err != nil {
			w.trouble("Notes that were not taken", err)
		}
	})))
	box.Show()
}

// takeRemarks takes the notes of several files at once and tells what came of
// it.
func (w *window) takeRemarks(files []review.File) error {
	var all []board.Remark
	for _, f := range files {
		list, err := f.Remarks()
		if err != nil {
			return err
		}
		all = append(all, list...)
	}
	out, n, err := w.board.WithRemarks(all)
	if err != nil {
		return err
	}
	if n.New+n.Changed+n.Gone == 0 {
		w.foot.Say(takenWords(n, 0))
		return nil
	}
	w.desk.CloseEdit()
	if err := w.desk.Do(board.TakeRemarks(all)); err != nil {
		return err
	}
	w.desk.CloseEdit()
	w.remarks.turnTo()
	w.foot.Say(takenWords(n, looseOf(out, all)))
	return nil
}

// looseOf counts those of a list that have no panel in the film.
func looseOf(b board.Board, list []board.Remark) int {
	brought := make(map[string]bool, len(list))
	for _, r := range list {
		brought[r.ID] = true
	}
	n := 0
	for _, p := range b.PlacedRemarks() {
		if p.At < 0 && brought[p.ID] {
			n++
		}
	}
	return n
}

// takenWords says what came of taking notes: "2 new notes, 1 changed; 1 is
// loose: its panel is gone."
func takenWords(n board.TakenRemarks, loose int) string {
	var parts []string
	if n.New > 0 {
		parts = append(parts, fmt.Sprintf("%d new %s", n.New, plural(int64(n.New), "note")))
	}
	for _, part := range []struct {
		n    int
		what string
	}{{n.Changed, "changed"}, {n.Gone, "taken back by their authors"}, {n.Known, "there already"},
		{n.Foreign, "left out: the film has notes of others by the same ids"}} {
		if part.n > 0 {
			parts = append(parts, fmt.Sprintf("%d %s", part.n, part.what))
		}
	}
	if len(parts) == 0 {
		return "There are no notes in it."
	}
	words := "Notes of others: " + strings.Join(parts, ", ")
	switch {
	case loose == 1:
		words += "; 1 is loose: its panel is gone"
	case loose > 1:
		words += fmt.Sprintf("; %d are loose: their panels are gone", loose)
	}
	return words + "."
}
