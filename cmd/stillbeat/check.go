package main

import (
	"context"
	"fmt"
	"math"

	"github.com/spf13/cobra"

	"stillbeat/board"
	"stillbeat/board/check"
	"stillbeat/board/desk"
)

// checkOptions is what the check command is asked for.
type checkOptions struct {
	asJSON, strict, all bool
	late, early         float64 // ms
	shortest, session   int
	reading             float64 // characters a second
	loop                bool
}

func (a *app) checkCommand() *cobra.Command {
	var o checkOptions
	cmd := &cobra.Command{
		Use:   "check FILM [--json] [--strict]",
		Short: "Look for what will look wrong or may hurt someone",
		Long: `Look FILM over: starts off the beat, holds too short to be seen or read, panels
without a picture, gaps, numbers given twice, a song that is too loud or too
short, and flashing that may set off seizures. It is a line for each finding:
how much it matters, where, what, why and by which source.

  danger  it may hurt someone
  fault   it will look or sound wrong
  hint    it is worth a look

Flashing is screened by WCAG 2.2 (2.3.1, three flashes), with ITU-R BT.1702 as a
second opinion. That is a screening, not a certification. Findings dismissed in
the film are left out unless --all is given; the caution that goes with flashing
never is. FILM stays as it is.`,
		Example: `  stillbeat check dance.stillbeat
  stillbeat check dance.stillbeat --late 40 --session 60
  stillbeat check dance.stillbeat --json | jq '.findings[] | select(.severity == "danger")'
  stillbeat check dance.stillbeat --strict && stillbeat share dance.stillbeat -o dance.mp4`,
		Args: takes(1, 1, "one FILM"),
		RunE: func(cmd *cobra.Command, args []string) error {
			return viewFilm(args[0], func(d *desk.Desk) error { return a.check(cmd.Context(), d, args[0], o) })
		},
	}
	f := cmd.Flags()
	f.BoolVar(&o.asJSON, "json", false, "print one JSON document")
	f.BoolVar(&o.strict, "strict", false, "exit with 1 if there are findings that were not dismissed")
	f.BoolVar(&o.all, "all", false, "show dismissed findings too")
	f.Var(numberFlag(&o.late, 0, 10000, "MS"), "late", "milliseconds a start may come after its beat; 0 is half a frame")
	f.Var(numberFlag(&o.early, 0, 10000, "MS"), "early", "milliseconds it may come before; 0 is 125, which is not noticed")
	f.Var(wholeFlag(&o.shortest, 0, math.MaxInt32), "shortest", "frames a panel must hold to be seen; 0 is an eighth of a second")
	f.Var(numberFlag(&o.reading, 0, 100, "CPS"), "reading", "characters read in a second; 0 is 15")
	f.Var(wholeFlag(&o.session, 0, math.MaxInt32), "session", "most exposures of a shot in one session; 0 is any number")
	f.BoolVar(&o.loop, "loop", false, "the film is shown over and over")
	return cmd
}

func (a *app) check(ctx context.Context, d *desk.Desk, path string, o checkOptions) error {
	report, err := a.looked(ctx, d, o)
	if err != nil {
		return fmt.Errorf("check %q: %w", path, err)
	}
	if o.asJSON {
		err = a.printJSON(newCheckReport(path, d.Board(), report))
	} else {
		err = a.print([]byte(checkText(report, o.all)))
	}
	if open := len(check.Open(report.Findings)); err == nil && o.strict && open > 0 {
		return fmt.Errorf("check %q: %s", path, count(open, "finding"))
	}
	return err
}

// looked looks a film over, with progress. A song that cannot be read is one
// thing that is not looked at.
func (a *app) looked(ctx context.Context, d *desk.Desk, o checkOptions) (check.Report, error) {
	m := a.meter()
	defer m.close()
	b := d.Board()
	options := check.Options{
		Late: o.late, Early: o.early, Shortest: board.Frame(o.shortest), Session: int64(o.session),
		Reading: board.Reading{Characters: o.reading}, Loop: o.loop, Pictures: d.Pictures,
	}
	if b.Song != nil && len(b.Panels) > 0 {
		song, err := d.LoadSong(ctx, b, a.ear, desk.Wish{Samples: true}, m.stage("reading %s", b.Song.Name))
		if err == nil && song.Sound != nil {
			peak, err := check.PeakOf(ctx, b, song.Sound)
			if err != nil {
				return check.Report{}, err
			}
			options.Peak = &peak
		}
		if ctx.Err() != nil {
			return check.Report{}, ctx.Err()
		}
	}
	options.Progress = m.stage("looking for flashing")
	return check.Run(ctx, b, options)
}
