package main

import (
	"math"

	"stillbeat/board"
	"stillbeat/board/motion"
)

// thousandths rounds millimetres to what no hand can tell apart, without a
// minus before 0.
func thousandths(mm float64) float64 { return math.Round(mm*1000)/1000 + 0 }

// spacingReport is the document of spacing --json.
type spacingReport struct {
	File     string           `json:"file"`
	Moves    []spacingMove    `json:"moves"`
	Findings []spacingFinding `json:"findings"`
}

type spacingMove struct {
	ID        board.MoveID `json:"id"`
	Object    string       `json:"object"`
	Manner    string       `json:"manner"`
	First     string       `json:"first_panel"`
	Last      string       `json:"last_panel"`
	Exposures []spacingRow `json:"exposures"`
}

type spacingRow struct {
	Frame    board.Frame `json:"frame"`
	Exposure int         `json:"exposure"`
	X        float64     `json:"x_mm"`
	Y        float64     `json:"y_mm"`
	Height   float64     `json:"height_mm"`
	Along    float64     `json:"along_mm"`
	Step     float64     `json:"step_mm"`
	Moment   string      `json:"moment"`
	Beat     string      `json:"beat"`
}

type spacingFinding struct {
	Move   board.MoveID `json:"move"`
	Object string       `json:"object"`
	Panel  *string      `json:"panel"` // null outside the film
	Frame  board.Frame  `json:"frame"`
	Kind   motion.Kind  `json:"kind"`
	Reason string       `json:"reason"`
}

func newSpacingReport(path string, b board.Board, tables []motion.Table) spacingReport {
	r := spacingReport{File: path, Moves: []spacingMove{}, Findings: []spacingFinding{}}
	numbers, exposures := b.Numbers(), exposureNumbers(b)
	for _, t := range tables {
		m := spacingMove{ID: t.Move.ID, Object: t.Move.Object, Manner: t.Move.Manner.Words(),
			First: numbers[b.Index(t.Move.First)], Last: numbers[b.Index(t.Move.Last)], Exposures: []spacingRow{}}
		for _, row := range t.Rows {
			m.Exposures = append(m.Exposures, spacingRow{row.Frame, exposures[row.Frame], thousandths(row.At.X), thousandths(row.At.Y),
				thousandths(row.At.Height), thousandths(row.Along), thousandths(row.Step), row.Moment, row.Beat})
		}
		r.Moves = append(r.Moves, m)
	}
	for _, f := range motion.Findings(tables) {
		out := spacingFinding{Move: f.Move, Object: f.Object, Frame: f.Frame, Kind: f.Kind, Reason: f.Reason}
		if f.Panel >= 0 {
			out.Panel = &numbers[f.Panel]
		}
		r.Findings = append(r.Findings, out)
	}
	return r
}
