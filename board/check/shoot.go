package check

import (
	"stillbeat/board"
	"stillbeat/board/motion"
	"stillbeat/board/plan"
)

// Kinds of findings about the shoot.
const (
	Step     Kind = "step"      // how far an object goes between two exposures
	Move     Kind = "move"      // a move that cannot be as it was asked for
	Planning Kind = "shot-plan" // what stands against the plan of the shoot
)

// moved finds what will not read in the moves of objects.
func (l look) moved() []Finding {
	var out []Finding
	for _, m := range motion.Findings(motion.Tables(l.Board, motion.Limits{})) {
		f := Finding{ID: IDOf(Move, 0), Kind: Move, Severity: Fault, Span: board.Span{Start: m.Frame, End: m.Frame + 1}}
		if m.Panel >= 0 {
			f = l.at(Move, m.Panel, m.Panel)
			f.Severity, f.Span = Fault, board.Span{Start: m.Frame, End: m.Frame + 1}
		}
		f.What = m.Object + ": " + m.Reason
		f.Why = "What was asked of the object does not come out on the set."
		f.Source = "worked out from the move itself"
		switch m.Kind {
		case motion.Large:
			f.Kind, f.Severity = Step, Hint
			f.Why = "Beyond such a step the eye loses the object and sees two of them."
			f.Source = "common practice"
		case motion.Small:
			f.Kind, f.Severity = Step, Hint
			f.Why = "No hand sets so little: it comes out as a hold and a jerk."
			f.Source = "common practice"
		case motion.OffBeat:
			f.Why = "The hit is seen beside the sound it was meant for."
		}
		f.ID = IDOf(f.Kind, f.Panel)
		out = append(out, f)
	}
	return out
}

// planned finds what stands against the plan of the shoot.
func (l look) planned() []Finding {
	var out []Finding
	for _, p := range plan.Findings(l.Board) {
		if p.Kind == plan.TooLong && l.Session > 0 {
			continue // a limit of one's own is asked for
		}
		f := Finding{ID: IDOf(Planning, 0), Kind: Planning, Severity: Hint}
		if p.Panel >= 0 {
			f = l.at(Planning, p.Panel, p.Panel)
		}
		f.What, f.Source = p.Reason, "common practice; the figures of the film's plan"
		f.Why = "What the plan counts is not what the shoot will take."
		if p.Kind == plan.TooLong {
			f.ID, f.Kind = IDOf(Session, f.Panel), Session
			f.Why = sessionWhy
		}
		out = append(out, f)
	}
	return out
}
