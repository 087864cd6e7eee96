package main

import (
	"bytes"
	"fmt"
	"path/filepath"
	"strings"
	"time"

	"github.com/spf13/cobra"

	"stillbeat/board"
	"stillbeat/board/desk"
	"stillbeat/board/sheet"
)

// sheetOptions is what the sheet command is asked for.
type sheetOptions struct {
	to    string
	each  string // what a row is for
	shots string
	paper string
	rows  int // of a page, 0: as many as suit the frame rate
	force bool
}

// usualSheet is a sheet for which nothing is asked.
var usualSheet = sheetOptions{each: "frame", paper: "a4"}

func (a *app) sheetCommand() *cobra.Command {
	o := usualSheet
	cmd := &cobra.Command{
		Use:   "sheet FILM -o OUT.(pdf|csv) [--each ROW] [--shots LIST] [--paper PAPER] [--rows N] [--force]",
		Short: "Write the exposure sheet",
		Long: `Write the exposure sheet of FILM: what is on each frame, or on each exposure,
with its time, its bar and beat, sound, action, pose, camera and notes. A PDF is
made for printing, each shot from a new page; a CSV is a table for spreadsheets.

A heavy line comes every 8 rows at 24 fps, a heavier one where a second begins;
pages end where a second does.`,
		Example: `  stillbeat sheet dance.stillbeat -o dance.pdf
  stillbeat sheet dance.stillbeat -o dance.pdf --paper letter --rows 96 --shots 1,3-5
  stillbeat sheet dance.stillbeat -o dance.csv --each exposure`,
		Args: takes(1, 1, "one FILM"),
		RunE: func(cmd *cobra.Command, args []string) error {
			if o.to == "" {
				return wrong(cmd, "say where to write the sheet: -o OUT.pdf or OUT.csv")
			}
			switch strings.ToLower(filepath.Ext(o.to)) {
			case ".pdf":
			case ".csv":
				for _, flag := range []string{"paper", "rows"} {
					if cmd.Flags().Changed(flag) {
						return wrong(cmd, "--%s is for paper, and %q is a table", flag, o.to)
					}
				}
			default:
				return wrong(cmd, "%q is nothing that can be written: the name must end in .pdf or .csv", o.to)
			}
			return viewFilm(args[0], func(d *desk.Desk) error { return a.sheet(d.Board(), args[0], o) })
		},
	}
	f := cmd.Flags()
	f.StringVarP(&o.to, "output", "o", "", "write `OUT`.pdf or OUT.csv")
	f.Var(choiceFlag(&o.each, "ROW", "frame", "exposure"), "each", "a row for each frame or for each exposure")
	f.StringVar(&o.shots, "shots", "", "the shots of this `LIST` alone, such as 1,3-5")
	f.Var(choiceFlag(&o.paper, "PAPER", "a4", "letter"), "paper", "a4 or letter, upright")
	f.Var(wholeFlag(&o.rows, sheet.MinLines, sheet.MaxLines), "rows", "most rows of a page (default whole seconds in up to 100)")
	f.BoolVar(&o.force, "force", false, "replace the file if it is there")
	return cmd
}

func (a *app) sheet(b board.Board, film string, o sheetOptions) error {
	if err := checkOutput(o.to, o.force); err != nil {
		return err
	}
	if sameFile(film, o.to) {
		return fmt.Errorf("write %q: it is the film itself", o.to)
	}
	if len(b.Panels) == 0 {
		return fmt.Errorf("sheet of %q: the film has no panels", film)
	}
	if err := writeSheet(b, o); err != nil {
		return fmt.Errorf("sheet of %q: %w", film, err)
	}
	return a.say("%s: %s", o.to, gist(b))
}

// writeSheet writes the sheet to where the options say, whole or not at all.
func writeSheet(b board.Board, o sheetOptions) error {
	show := sheet.Options{Exposures: o.each == "exposure", Columns: sheet.MoveColumns(b)}
	if o.shots != "" {
		var err error
		if show.Shots, err = sheet.ShotsNamed(b, o.shots); err != nil {
			return err
		}
	}
	var out bytes.Buffer
	write := func() error { return sheet.CSV(&out, b, show) }
	if strings.EqualFold(filepath.Ext(o.to), ".pdf") {
		write = func() error {
			return sheet.PDF(&out, b, show, sheet.Paper{Size: o.paper, Lines: o.rows, Made: time.Now()})
		}
	}
	if err := write(); err != nil {
		return err
	}
	return writeFile(o.to, out.Bytes())
}
