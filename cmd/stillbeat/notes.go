package main

import (
	"errors"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"stillbeat/board"
	"stillbeat/board/desk"
	"stillbeat/board/review"
)

func (a *app) notesCommand() *cobra.Command {
	var files []string
	var asJSON, anyway bool
	cmd := &cobra.Command{
		Use:   "notes FILM [--take FILE...] [--anyway] [--json]",
		Short: "List the notes that others made, or take their files of notes",
		Long: `List the notes on FILM of those who looked at its page, in the order of the
film. With --take the notes in each FILE are brought to the film, as the page
saved them: a note that is there already is changed if its author changed it
later, and taking a file twice changes nothing. A note stands where its panel
is now; it is loose if that panel is gone.`,
		Example: `  stillbeat share dance.stillbeat -o dance.html
  stillbeat notes dance.stillbeat --take dance.notes.json
  stillbeat notes dance.stillbeat`,
		Args: takes(1, -1, "one FILM"),
		RunE: func(cmd *cobra.Command, args []string) error {
			taking := len(files) > 0
			switch {
			case taking && asJSON:
				return wrong(cmd, "--json is for the list, and --take makes none")
			case taking:
				files = append(files, args[1:]...)
				return withFilm(args[0], func(d *desk.Desk) error { return a.takeNotes(d, args[0], files, anyway) })
			case len(args) > 1:
				return wrong(cmd, "notes takes one FILM, and %q is one too many", args[1])
			case anyway:
				return wrong(cmd, "--anyway is for --take")
			}
			return viewFilm(args[0], func(d *desk.Desk) error {
				if asJSON {
					return a.printJSON(newNotesReport(args[0], d.Board()))
				}
				return a.print([]byte(notesSummary(d.Board())))
			})
		},
	}
	cmd.Flags().StringArrayVar(&files, "take", nil, "take the notes in `FILE`; further files may follow")
	cmd.Flags().BoolVar(&anyway, "anyway", false, "take them even if they seem to be on another film")
	cmd.Flags().BoolVar(&asJSON, "json", false, "print one JSON document")
	return cmd
}

// takeNotes brings the notes of all files to a film, or of none.
func (a *app) takeNotes(d *desk.Desk, film string, files []string, anyway bool) error {
	b := d.Board()
	var sum board.TakenRemarks
	var edits []board.Edit
	for _, path := range files {
		data, err := readUpTo(path, review.MaxBytes)
		var f review.File
		if err == nil {
			f, err = review.Read(data)
		}
		if err != nil {
			return fmt.Errorf("read %q: %w", path, err)
		}
		e, n, err := review.Take(b, f, anyway)
		if errors.Is(err, review.ErrOtherFilm) {
			err = fmt.Errorf("%w; --anyway takes them", err)
		}
		if err == nil {
			b, err = e.Apply(b)
		}
		if err != nil {
			return fmt.Errorf("take %q to %q: %w", path, film, err)
		}
		edits = append(edits, e)
		sum.New, sum.Changed, sum.Gone = sum.New+n.New, sum.Changed+n.Changed, sum.Gone+n.Gone
		sum.Known, sum.Foreign = sum.Known+n.Known, sum.Foreign+n.Foreign
	}
	if sum.Foreign > 0 {
		a.note([]string{count(sum.Foreign, "note") + " left out: the film has notes of others by the same ids"})
	}
	if sum.New+sum.Changed+sum.Gone == 0 {
		return a.say("%s: everything was so already", film)
	}
	for _, e := range edits {
		if err := d.Do(e); err != nil {
			return fmt.Errorf("take notes to %q: %w", film, err)
		}
	}
	if err := d.Flush(); err != nil {
		return fmt.Errorf("take notes to %q: %w", film, err)
	}
	return a.say("%s: %s", film, takenWords(sum))
}

// takenWords says what came of taking notes: "2 new notes, 1 changed".
func takenWords(n board.TakenRemarks) string {
	var out []string
	if n.New > 0 {
		out = append(out, count(n.New, "new note"))
	}
	for _, part := range []struct {
		n    int
		what string
	}{{n.Changed, "changed"}, {n.Gone, "taken back"}, {n.Known, "there already"}} {
		if part.n > 0 {
			out = append(out, fmt.Sprintf("%d %s", part.n, part.what))
		}
	}
	return strings.Join(out, ", ")
}
