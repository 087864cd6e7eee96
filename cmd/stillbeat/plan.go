package main

import (
	"bytes"
	"fmt"
	"path/filepath"
	"strconv"
	"strings"
	"time"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"stillbeat/board"
	"stillbeat/board/desk"
	"stillbeat/board/plan"
)

// planOptions is what the plan command is asked for. Figures count where their
// flag is given; else those of the film do.
type planOptions struct {
	to, paper     string
	asJSON, force bool
	every         bool
	figures       board.Planning
}

func (a *app) planCommand() *cobra.Command {
	o := planOptions{paper: "a4"}
	cmd := &cobra.Command{
		Use:   "plan FILM [--json|-o OUT.pdf] [--session MIN] [--pace PACE] [--setup MIN] [--contingency PERCENT]",
		Short: "Plan the shoot: exposures, time, sessions, call sheets",
		Long: `Tell what it takes to shoot FILM: exposures of each shot and scene, minutes on
the set, sessions, storage and batteries. A PDF has a call sheet for each session.

A panel marked still takes one photograph, however long it holds; one that shows
an earlier picture again, with the same words of action and nothing that moves,
takes none. The others take one for each exposure of the sheet, and on both
sides of a dissolve or wipe those seen beyond the cut.

Shots with a rig or an effect in them, with exposures for half a session or more
and of 10 seconds or more come first; a scene is kept together where that costs
nothing. No shot is split unless it is longer than a session, which is told.

Figures that are not given are those of the film, and in a film without any
common practice: 2.5 minutes for an exposure, 45 for a set-up, 20 % for what
goes wrong, sessions of 3 hours.`,
		Example: `  stillbeat plan tea.stillbeat
  stillbeat plan tea.stillbeat --pace 20 --session 240
  stillbeat plan tea.stillbeat --pace 4min -o calls.pdf --paper letter`,
		Args: takes(1, 1, "one FILM"),
		RunE: func(cmd *cobra.Command, args []string) error {
			switch {
			case o.asJSON && o.to != "":
				return wrong(cmd, "--json and -o exclude each other")
			case o.to != "" && !strings.EqualFold(filepath.Ext(o.to), ".pdf"):
				return wrong(cmd, "%q is nothing that can be written: the name must end in .pdf", o.to)
			case o.to == "" && cmd.Flags().Changed("paper"):
				return wrong(cmd, "--paper is for paper: say where with -o OUT.pdf")
			}
			return viewFilm(args[0], func(d *desk.Desk) error {
				return a.plan(withFigures(d.Board(), cmd.Flags(), o), args[0], o)
			})
		},
	}
	f := cmd.Flags()
	f.BoolVar(&o.asJSON, "json", false, "print one JSON document")
	f.StringVarP(&o.to, "output", "o", "", "write call sheets as `OUT`.pdf")
	f.Var(numberFlag(&o.figures.Session, board.LeastMinutes, board.MaxMinutes, "MIN"), "session", "minutes of a session")
	f.Var(paceFlag(&o.figures.Pace), "pace", "exposures an hour, or minutes for one as in 2.5min")
	f.Var(numberFlag(&o.figures.SetUp, 0, board.MaxMinutes, "MIN"), "setup", "minutes to set up a shot")
	f.Var(numberFlag(&o.figures.Contingency, 0, 500, "PERCENT"), "contingency", "time for what goes wrong")
	f.BoolVar(&o.every, "every", false, "still panels and repeats for each exposure too")
	f.Var(choiceFlag(&o.paper, "PAPER", "a4", "letter"), "paper", "a4 or letter, upright")
	f.BoolVar(&o.force, "force", false, "replace the file if it is there")
	return cmd
}

// withFigures returns the board with the figures that flags give.
func withFigures(b board.Board, flags *pflag.FlagSet, o planOptions) board.Board {
	p := b.Planning()
	for name, set := range map[string]func(){
		"session":     func() { p.Session = o.figures.Session },
		"pace":        func() { p.Pace = o.figures.Pace },
		"setup":       func() { p.SetUp = o.figures.SetUp },
		"contingency": func() { p.Contingency = o.figures.Contingency / 100 },
		"every":       func() { p.Every = o.every },
	} {
		if flags.Changed(name) {
			set()
		}
	}
	b.Plan = &p
	return b
}

func (a *app) plan(b board.Board, film string, o planOptions) error {
	if o.to != "" {
		if err := checkOutput(o.to, o.force); err != nil {
			return err
		}
		if sameFile(film, o.to) {
			return fmt.Errorf("write %q: it is the film itself", o.to)
		}
	}
	if len(b.Panels) == 0 {
		return fmt.Errorf("plan of %q: the film has no panels", film)
	}
	p, err := plan.Make(b)
	if err != nil {
		return fmt.Errorf("plan of %q: %w", film, err)
	}
	switch {
	case o.asJSON:
		return a.printJSON(newPlanReport(film, b, p))
	case o.to == "":
		return a.print([]byte(planSummary(b, p)))
	}
	var out bytes.Buffer
	if err := p.PDF(&out, b, plan.Paper{Size: o.paper, Made: time.Now()}); err != nil {
		return fmt.Errorf("plan of %q: %w", film, err)
	}
	if err := writeFile(o.to, out.Bytes()); err != nil {
		return err
	}
	return a.say("%s: %s, %s in %s", o.to, count(int(p.Take), "exposure"), plan.Hours(p.Minutes), count(len(p.Sessions), "session"))
}

// paceFlag reads exposures an hour, "24", or minutes for an exposure, "2.5min",
// and gives minutes.
func paceFlag(to *float64) pflag.Value {
	read := func(s string) (float64, error) {
		figure, minutes := strings.CutSuffix(s, "min")
		v, err := strconv.ParseFloat(strings.TrimSpace(figure), 64)
		if !minutes {
			v = 60 / v
		}
		if err != nil || !(v > 0.001 && v <= board.MaxPace) {
			return 0, fmt.Errorf("%q is not a pace: write exposures an hour, as in 24, or minutes for one, as in 2.5min", s)
		}
		return v, nil
	}
	return parsed[float64]{to, read, showFigure, "PACE"}
}

// showFigure writes a figure for help; 0, that of the film, is not shown.
func showFigure(v float64) string {
	if v == 0 {
		return ""
	}
	return strconv.FormatFloat(v, 'g', -1, 64)
}
