package main

import (
	"fmt"
	"math"

	"github.com/spf13/cobra"

	"stillbeat/board"
	"stillbeat/board/desk"
)

func (a *app) snapCommand() *cobra.Command {
	var (
		to       board.Target
		shortest int
		lead     int
	)
	cmd := &cobra.Command{
		Use:   "snap FILM --to TARGET [--lead N] [--shortest N]",
		Short: "Move every start onto the music",
		Long: `Move the start of every panel, and the end of the film, onto the music of
FILM: in order, and moving them as little as possible in all. TARGET is
  beat     each beat
  bar      each beat that starts a bar
  half     halves of beats
  third    thirds of beats
  quarter  quarters of beats
  onset    each moment at which a sound begins
  marker   each marker of the film`,
		Example: `  stillbeat snap dance.stillbeat --to beat
  stillbeat snap dance.stillbeat --to third --shortest 6`,
		Args: takes(1, 1, "one FILM"),
		RunE: func(cmd *cobra.Command, args []string) error {
			if to == "" {
				return wrong(cmd, "say what to snap to: --to beat, bar, half, third, quarter, onset or marker")
			}
			return withFilm(args[0], func(d *desk.Desk) error {
				return a.snap(d, args[0], board.SnapOptions{To: to, Lead: board.Frame(lead), Shortest: board.Frame(shortest)})
			})
		},
	}
	cmd.Flags().Var(targetFlag(&to), "to", "what to snap to")
	cmd.Flags().Var(wholeFlag(&lead, -1000, 1000), "lead", "frames by which the picture comes before the music")
	cmd.Flags().Var(wholeFlag(&shortest, 0, math.MaxInt32), "shortest", "fewest frames a panel may hold; 0 is an eighth of a second")
	return cmd
}

func (a *app) snap(d *desk.Desk, path string, o board.SnapOptions) error {
	before := d.Board().Starts()
	err := d.Do(board.Snap(o))
	if err == nil {
		err = d.Flush()
	}
	if err != nil {
		return fmt.Errorf("snap %q: %w", path, err)
	}
	moved, furthest := 0, board.Frame(0)
	for i, f := range d.Board().Starts() {
		if move := max(f-before[i], before[i]-f); move > 0 {
			moved, furthest = moved+1, max(furthest, move)
		}
	}
	if moved == 0 {
		return a.say("%s: every start was in place already", path)
	}
	return a.say("%s: %s moved, the furthest by %s", path, count(moved, "start"), count(int(furthest), "frame"))
}
