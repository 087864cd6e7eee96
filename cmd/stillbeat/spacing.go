package main

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"strconv"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"

	"stillbeat/board"
	"stillbeat/board/desk"
	"stillbeat/board/motion"
)

func (a *app) spacingCommand() *cobra.Command {
	var asJSON, asCSV bool
	var limits motion.Limits
	cmd := &cobra.Command{
		Use:   "spacing FILM [--json|--csv] [--largest MM] [--smallest MM]",
		Short: "Tell how far what moves goes in each exposure",
		Long: `Tell for each object that moves in FILM where it is in each exposure and how
far it went from the one before, in millimetres on the set: x to the right as
the camera sees it, y away from it, height above the table. What will not read
as it should is listed below: steps too large or too small to set, hits that
miss their beat, moves without the time their weight takes.

--csv writes one line for each exposure of each move, with the columns
  move, object   the move's number and what moves
  frame          the first frame of the exposure, counted from 0
  exposure       the exposure of the film, counted from 1
  x_mm, y_mm, height_mm
  along_mm       along the path or the swing; of what falls, the height
  step_mm        from the exposure before
  moment, beat   what happens there, and the place in the music it is to meet`,
		Example: `  stillbeat spacing tea.stillbeat
  stillbeat spacing tea.stillbeat --largest 30
  stillbeat spacing tea.stillbeat --csv > spacing.csv`,
		Args: takes(1, 1, "one FILM"),
		RunE: func(cmd *cobra.Command, args []string) error {
			if asJSON && asCSV {
				return wrong(cmd, "--json and --csv exclude each other")
			}
			return viewFilm(args[0], func(d *desk.Desk) error {
				b := d.Board()
				tables := motion.Tables(b, limits)
				switch {
				case asJSON:
					return a.printJSON(newSpacingReport(args[0], b, tables))
				case asCSV:
					return a.print(spacingList(b, tables))
				}
				return a.print([]byte(spacingSummary(b, tables)))
			})
		},
	}
	cmd.Flags().BoolVar(&asJSON, "json", false, "print one JSON document")
	cmd.Flags().BoolVar(&asCSV, "csv", false, "print the exposures as a table")
	cmd.Flags().Var(millimetreFlag(&limits.Largest, motion.UsualLargest), "largest", "a step beyond this is told")
	cmd.Flags().Var(millimetreFlag(&limits.Smallest, motion.UsualSmallest), "smallest", "a step below this is told")
	return cmd
}

// millimetreFlag reads a length that a step may have; it begins as usual.
func millimetreFlag(to *float64, usual float64) pflag.Value {
	*to = usual
	read := func(s string) (float64, error) {
		mm, err := strconv.ParseFloat(s, 64)
		if err != nil || !(mm > 0 && mm <= board.MaxReach) {
			return 0, fmt.Errorf("%q is not a length in millimetres above 0 and up to %d", s, board.MaxReach)
		}
		return mm, nil
	}
	return parsed[float64]{to, read, func(mm float64) string { return strconv.FormatFloat(mm, 'g', -1, 64) }, "MM"}
}

// exposureNumbers returns the number of the exposure that begins on a frame,
// from 1.
func exposureNumbers(b board.Board) map[board.Frame]int {
	out := map[board.Frame]int{}
	if len(b.Panels) > 0 {
		for i, f := range motion.ExposuresOf(b, b.Starts(), 0, len(b.Panels)-1).Frames {
			out[f] = i + 1
		}
	}
	return out
}

// moveHead says what moves, how and where: "cup: fall at 1:6, panels 1 to 2".
func moveHead(m board.ObjectMove, numbers []string, b board.Board) string {
	head := m.Object
	if head == "" {
		head = fmt.Sprintf("move %d", m.ID)
	}
	head += ": " + m.Manner.Words()
	if m.Scale != 0 && !m.Manner.Spaced() {
		head += fmt.Sprintf(" at 1:%g", m.Scale)
	}
	if m.First == m.Last {
		return head + ", panel " + numbers[b.Index(m.First)]
	}
	return head + ", panels " + numbers[b.Index(m.First)] + " to " + numbers[b.Index(m.Last)]
}

// spacingSummary shows a person the tables.
func spacingSummary(b board.Board, tables []motion.Table) string {
	if len(tables) == 0 {
		return "Nothing moves on the set yet.\n"
	}
	var out bytes.Buffer
	numbers, exposures := b.Numbers(), exposureNumbers(b)
	for _, t := range tables {
		fmt.Fprintln(&out, oneLine(moveHead(t.Move, numbers, b)))
		list := table{right: []int{0, 1, 3, 4, 5, 6}}
		list.add("Exposure", "Frame", "Time", "X", "Y", "Height", "Step", "Moment")
		for _, r := range t.Rows {
			moment := r.Moment
			if r.Beat != "" {
				moment += " on " + r.Beat
			}
			list.add(fmt.Sprint(exposures[r.Frame]), fmt.Sprint(r.Frame), b.Rate.Timecode(r.Frame),
				motion.Tenths(r.At.X), motion.Tenths(r.At.Y), motion.Tenths(r.At.Height), motion.Tenths(r.Step), moment)
		}
		fmt.Fprintf(&out, "%s\n", &list)
	}
	findings := motion.Findings(tables)
	if len(findings) == 0 {
		fmt.Fprintln(&out, "Every step can be set and every hit is on its beat.")
		return out.String()
	}
	list := table{right: []int{1, 2}}
	list.add("Object", "Panel", "Frame", "What")
	for _, f := range findings {
		panel := ""
		if f.Panel >= 0 {
			panel = numbers[f.Panel]
		}
		list.add(f.Object, panel, fmt.Sprint(f.Frame), f.Reason)
	}
	return out.String() + list.String()
}

// spacingList writes the tables as CSV; the help of spacing explains the
// columns.
func spacingList(b board.Board, tables []motion.Table) []byte {
	var out bytes.Buffer
	w := csv.NewWriter(&out)
	w.Write([]string{"move", "object", "frame", "exposure", "x_mm", "y_mm", "height_mm", "along_mm", "step_mm", "moment", "beat"})
	mm := func(v float64) string { return strconv.FormatFloat(thousandths(v), 'f', 3, 64) }
	exposures := exposureNumbers(b)
	for _, t := range tables {
		for _, r := range t.Rows {
			w.Write([]string{fmt.Sprint(t.Move.ID), t.Move.Object, fmt.Sprint(r.Frame), fmt.Sprint(exposures[r.Frame]),
				mm(r.At.X), mm(r.At.Y), mm(r.At.Height), mm(r.Along), mm(r.Step), r.Moment, r.Beat})
		}
	}
	w.Flush() // a buffer takes everything
	return out.Bytes()
}
