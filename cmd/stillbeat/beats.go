package main

import (
	"fmt"
	"strconv"
	"strings"

	"github.com/spf13/cobra"

	"stillbeat/board"
	"stillbeat/board/desk"
)

// beatFlags is what a person says of a film's beats.
type beatFlags struct {
	tempo float64
	click string
	at    float64
	times string
	slide float64
	bars  int
	from  int
}

func (a *app) beatsCommand() *cobra.Command {
	var f beatFlags
	cmd := &cobra.Command{
		Use:   "beats FILM [--tempo BPM | --click F-E] [--at S] [--times RATIO] [--slide MS] [--bars N [--from BEAT]]",
		Short: "Correct the beats of a film by hand",
		Long: `Set or correct the beats of FILM; anchored panels follow them. A film without
a song gets a click to lay panels on. What is asked is done in this order:
  --tempo  a steady tempo in beats a minute, a bar starting at --at seconds
  --click  the same as a film click: frames and eighths for a beat at 24 fps
  --times  2, 1/2, 3/2 or 2/3 times as many beats
  --slide  all beats later by so many milliseconds, earlier if negative
  --bars   N beats to a bar from beat --from on, counted from 1`,
		Example: `  stillbeat beats dance.stillbeat --times 1/2
  stillbeat beats dance.stillbeat --click 13-3 --at 0.5 --bars 3`,
		Args: takes(1, 1, "one FILM"),
		RunE: func(cmd *cobra.Command, args []string) error {
			edits, err := f.edits(cmd)
			if err != nil {
				return wrong(cmd, "%v", err)
			}
			return withFilm(args[0], func(d *desk.Desk) error { return a.beats(d, args[0], edits) })
		},
	}
	cmd.Flags().Float64Var(&f.tempo, "tempo", 0, "beats a minute")
	cmd.Flags().StringVar(&f.click, "click", "", "frames and eighths for a beat")
	cmd.Flags().Float64Var(&f.at, "at", 0, "second of the song at which a bar starts")
	cmd.Flags().StringVar(&f.times, "times", "", "how many beats there are for one now")
	cmd.Flags().Float64Var(&f.slide, "slide", 0, "milliseconds")
	cmd.Flags().IntVar(&f.bars, "bars", 0, "beats to a bar")
	cmd.Flags().IntVar(&f.from, "from", 1, "the beat a bar starts on")
	return cmd
}

// edits turns the flags that were given into edits.
func (f beatFlags) edits(cmd *cobra.Command) (out []board.Edit, err error) {
	given := cmd.Flags().Changed
	if given("tempo") && given("click") {
		return nil, fmt.Errorf("--tempo and --click exclude each other")
	}
	if given("tempo") {
		out = append(out, board.SetTempo(f.tempo, f.at))
	}
	if given("click") {
		c, err := board.ParseClick(f.click)
		if err != nil {
			return nil, err
		}
		out = append(out, board.SetClick(c, f.at))
	}
	if given("times") {
		num, den, err := ratio(f.times)
		if err != nil {
			return nil, err
		}
		out = append(out, board.ScaleTempo(num, den))
	}
	if given("slide") {
		out = append(out, board.SlideGrid(f.slide/1000))
	}
	if given("bars") {
		out = append(out, board.SetBars(f.from-1, f.bars))
	}
	if len(out) == 0 {
		return nil, fmt.Errorf("say what to do: --tempo, --click, --times, --slide or --bars")
	}
	return out, nil
}

// ratio reads "2" or "3/2".
func ratio(s string) (num, den int, err error) {
	above, below, cut := strings.Cut(s, "/")
	if !cut {
		below = "1"
	}
	num, errNum := strconv.Atoi(above)
	den, errDen := strconv.Atoi(below)
	switch r := [2]int{num, den}; {
	case errNum != nil || errDen != nil, r != [2]int{2, 1} && r != [2]int{1, 2} && r != [2]int{3, 2} && r != [2]int{2, 3}:
		return 0, 0, fmt.Errorf("--times is 2, 1/2, 3/2 or 2/3, not %q", s)
	}
	return num, den, nil
}

func (a *app) beats(d *desk.Desk, path string, edits []board.Edit) error {
	for _, e := range edits {
		if err := d.Do(e); err != nil {
			return fmt.Errorf("%s of %q: %w", e.Name, path, err)
		}
	}
	if err := d.Flush(); err != nil {
		return err
	}
	g := d.Board().Grid
	first, last := g.Beats[0].Time, g.Beats[len(g.Beats)-1].Time
	return a.say("%s: %s from %.3f s to %.3f s, %.2f a minute", path, count(len(g.Beats), "beat"),
		first, last, 60*float64(len(g.Beats)-1)/(last-first))
}
