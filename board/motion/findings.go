package motion

import (
	"fmt"

	"stillbeat/board"
)

// Kind is a kind of finding.
type Kind string

// The kinds.
const (
	Large     Kind = "step too large"
	Small     Kind = "step too small"
	OffBeat   Kind = "off its beat"
	NoRoom    Kind = "no room"
	OffWeight Kind = "off its weight"
	Unfit     Kind = "path does not fit"
)

// Finding is something about a move that will not read as it should.
type Finding struct {
	Kind   Kind
	Move   board.MoveID
	Object string
	Panel  int         // index; -1 outside the film, and from Space, which knows no panels
	Frame  board.Frame // where, or where it begins
	Reason string      // a clause without a full stop
}

// Limits say which steps are found too large or too small, in millimetres.
// Zero is the usual, which is common practice and not measured: beyond 50 mm
// the eye loses a thing of the size of a cup between two photographs; less than
// 0.3 mm is hard to set with the fingers.
type Limits struct{ Largest, Smallest float64 }

// The usual limits.
const (
	UsualLargest  = 50
	UsualSmallest = 0.3
)

// none is a step that no hand makes: it holds.
const none = 1e-6

// tooFar finds the steps beyond limits, those in a row as one.
func tooFar(rows []Row, l Limits) (out []Finding) {
	largest, smallest := or(l.Largest, UsualLargest), or(l.Smallest, UsualSmallest)
	kindOf := func(r Row) Kind {
		switch {
		case r.Step > largest+none:
			return Large
		case r.Step > none && r.Step < smallest-none:
			return Small
		}
		return ""
	}
	for i := 0; i < len(rows); i++ {
		k := kindOf(rows[i])
		if k == "" {
			continue
		}
		from, worst := i, rows[i].Step
		for i+1 < len(rows) && kindOf(rows[i+1]) == k {
			i++
			if k == Large == (rows[i].Step > worst) {
				worst = rows[i].Step
			}
		}
		f := Finding{Kind: k, Panel: -1, Frame: rows[from].Frame}
		steps := "a step"
		if n := i - from + 1; n > 1 {
			steps = fmt.Sprintf("%d steps in a row, one", n)
		}
		if k == Large {
			f.Reason = fmt.Sprintf("%s of %.1f mm, more than %g: give it more exposures or blur it", steps, worst, largest)
		} else {
			f.Reason = fmt.Sprintf("%s of %.2f mm, less than %g: hold it, or give it fewer exposures", steps, worst, smallest)
		}
		out = append(out, f)
	}
	return out
}

// Findings returns those of all tables.
func Findings(tables []Table) (out []Finding) {
	for _, t := range tables {
		out = append(out, t.Findings...)
	}
	return out
}
