package plan

import "stillbeat/board"

// Source says where a pace comes from.
type Source string

// The sources.
const (
	Usual  Source = "usual"  // nobody has said or logged anything
	Set    Source = "set"    // by a person
	Learnt Source = "learnt" // from the log
)

// Pace is how fast exposures are made.
type Pace struct {
	Minutes   float64 // for an exposure
	From      Source
	Entries   int     // of the log that it was learnt from
	Exposures int64   // in them
	Least     float64 // minutes for an exposure in the fastest entry
	Most      float64 // and in the slowest
}

// PaceOf returns the pace of a plan: as it is set, else all minutes of the log
// over all its exposures, else board.UsualPace. What the log holds is told in
// any case.
func PaceOf(p board.Planning) Pace {
	out := Pace{Minutes: board.UsualPace, From: Usual, Entries: len(p.Log)}
	var minutes float64
	for i, l := range p.Log {
		each := l.Minutes / float64(l.Exposures)
		if i == 0 {
			out.Least, out.Most = each, each
		}
		out.Least, out.Most = min(out.Least, each), max(out.Most, each)
		minutes += l.Minutes
		out.Exposures += int64(l.Exposures)
	}
	if out.Exposures > 0 {
		out.Minutes, out.From = minutes/float64(out.Exposures), Learnt
	}
	if p.Pace > 0 {
		out.Minutes, out.From = p.Pace, Set
	}
	return out
}
