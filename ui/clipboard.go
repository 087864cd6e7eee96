package ui

import (
	"context"
	"encoding/json"
	"fmt"

	"stillbeat/board"
	"stillbeat/board/desk"
)

// copiedPanels is what stands on the clipboard as text: the panels, their
// holds, and the film whose pictures they show.
type copiedPanels struct {
	Stillbeat string        `json:"stillbeat"` // copiedKind
	Film      string        `json:"film"`      // path
	Panels    []board.Panel `json:"panels"`
	Holds     []board.Frame `json:"holds"` // at Rate
	Rate      string        `json:"rate"`

	Moves []board.ObjectMove `json:"moves,omitempty"` // of objects, in the panels
}

const copiedKind = "panels 1"

// copyPanels puts the chosen panels on the clipboard.
func (w *window) copyPanels() {
	set := w.selection()
	c := copiedPanels{Stillbeat: copiedKind, Film: w.desk.File(), Rate: w.board.Rate.String(), Moves: w.board.MovesOf(set)}
	holds := w.board.Holds()
	for _, i := range set {
		c.Panels = append(c.Panels, w.board.Panels[i])
		c.Holds = append(c.Holds, holds[i])
	}
	data, err := json.Marshal(c)
	if err != nil {
		w.trouble("The panels were not copied", err)
		return
	}
	w.app.Clipboard().SetContent(string(data))
	w.foot.Say(fmt.Sprintf("Copied %d %s.", len(set), plural(int64(len(set)), "panel")))
}

func (w *window) cutPanels() {
	w.copyPanels()
	w.takeOut(board.CloseUp)
}

// maxCopied is the longest text looked at, in bytes.
const maxCopied = 64 << 20

// readCopied reads the clipboard; ok is false if no panels are on it.
func readCopied(text string) (c copiedPanels, ok bool) {
	if len(text) > maxCopied || json.Unmarshal([]byte(text), &c) != nil {
		return c, false
	}
	return c, c.Stillbeat == copiedKind && len(c.Panels) > 0 && len(c.Panels) == len(c.Holds)
}

// pastePanels puts the panels on the clipboard after the chosen ones. Those of
// another film bring their pictures along; holds keep their seconds. Paths of
// files are brought in as if those were dropped.
func (w *window) pastePanels() {
	text := w.app.Clipboard().Content()
	c, ok := readCopied(text)
	if !ok {
		if paths := pathsIn(text); len(paths) > 0 {
			w.bringFiles(paths)
			return
		}
		w.foot.Say("There are neither panels nor paths of pictures on the clipboard.")
		return
	}
	if r, err := board.ParseRate(c.Rate); err == nil && r != w.board.Rate {
		var at board.Frame
		for i, h := range c.Holds {
			end := at + h
			c.Holds[i] = max(1, w.board.Rate.Nearest(r.Seconds(end))-w.board.Rate.Nearest(r.Seconds(at)))
			at = end
		}
	}
	at := len(w.board.Panels)
	if set := w.selection(); len(set) > 0 {
		at = set[len(set)-1] + 1
	}
	d := w.desk
	w.jobs.Run("Pasting panels", func(ctx context.Context, p desk.Progress) error {
		if c.Film == d.File() {
			return nil
		}
		return d.BorrowPictures(ctx, c.Film, c.Panels, p)
	}, func(err error) {
		switch {
		case d != w.desk:
		case err != nil:
			w.trouble("The panels were not pasted", err)
		default:
			n := len(w.board.Panels)
			w.do(board.Paste(min(at, n), c.Panels, c.Holds, c.Moves...))
			if len(w.board.Panels) > n {
				w.choosePut(min(at, n), len(c.Panels))
			}
		}
	})
}
