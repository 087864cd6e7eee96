// Package review reads the notes that people wrote on a review page of a film
// (board/share/page) and brings them to the film. FORMAT.md and
// notes.schema.json describe the files.
//
// A file of notes comes from outside: it is bounded before it is read, its
// texts are plain text alone, and one that breaks a rule does nothing.
package review

import (
	"errors"
	"fmt"

	"stillbeat/board"
)

// Format and Version mark a file of notes.
const (
	Format  = "stillbeat notes"
	Version = 1
)

// Ending is that of the names of such files.
const Ending = ".notes.json"

// Limits of a file of notes.
const (
	MaxBytes = 16 << 20
	MaxNotes = 2000
)

// Errors of files that cannot be taken.
var (
	ErrNotNotes  = errors.New("these are not notes on a film")
	ErrNewer     = errors.New("these notes were written for a newer version of Stillbeat")
	ErrOtherFilm = errors.New("these notes are on another film")
)

// Film tells which film notes are on, and how it was then.
type Film struct {
	Title  string      `json:"title,omitempty"`
	Rate   string      `json:"rate"`             // frames a second, exact: "24", "24000/1001"
	Frames board.Frame `json:"frames"`           // its length
	Prints []string    `json:"prints,omitempty"` // by which it is known: see PrintsOf
}

// Note is a note as its author wrote it.
type Note struct {
	ID      string        `json:"id"`
	Author  string        `json:"author"`
	Written int64         `json:"written"`         // milliseconds since 1970, UTC
	Frame   board.Frame   `json:"frame"`           // of the film as it was
	Panel   board.PanelID `json:"panel,omitempty"` // the panel that was up; 0: there was none
	In      board.Frame   `json:"in,omitempty"`    // frames after the panel's start
	Text    string        `json:"text,omitempty"`
	Gone    bool          `json:"gone,omitempty"` // the author took it back
}

// File is what a file of notes holds.
type File struct {
	Format  string `json:"format"`
	Version int    `json:"version"`
	Film    Film   `json:"film"`
	Notes   []Note `json:"notes"`
}

// Take returns the edit that brings a file's notes to b, and what it will do.
// It returns ErrOtherFilm if the file is on another film and anyway is false.
func Take(b board.Board, f File, anyway bool) (board.Edit, board.TakenRemarks, error) {
	if !anyway && !f.Film.Is(b) {
		return board.Edit{}, board.TakenRemarks{}, f.Film.other()
	}
	list, err := f.Remarks()
	if err != nil {
		return board.Edit{}, board.TakenRemarks{}, err
	}
	_, n, err := b.WithRemarks(list)
	return board.TakeRemarks(list), n, err
}

func (f Film) other() error {
	if f.Title == "" {
		return ErrOtherFilm
	}
	return fmt.Errorf("%w, %.80q", ErrOtherFilm, f.Title)
}

// Remarks returns the notes as a film has them. Their frames become seconds at
// the rate that the film had when they were written.
func (f File) Remarks() ([]board.Remark, error) {
	rate, err := parseRate(f.Film.Rate)
	if err != nil {
		return nil, err
	}
	out := make([]board.Remark, len(f.Notes))
	for i, n := range f.Notes {
		out[i] = board.Remark{ID: n.ID, Author: n.Author, Written: n.Written, Panel: n.Panel,
			After: rate.Seconds(n.In), Was: rate.Seconds(n.Frame), Text: n.Text}
		if n.Gone {
			out[i].State = board.RemarkGone
		}
	}
	return out, nil
}
