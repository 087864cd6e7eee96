package check

import (
	"fmt"

	"stillbeat/board"
)

// blank finds panels without a picture: those that have words are still to be
// drawn, those without any are gaps.
func (l look) blank() []Finding {
	var out []Finding
	for i := 0; i < len(l.Panels); {
		p := l.Panels[i]
		switch {
		case !unseen(p):
			i++
		case !empty(p):
			f := l.at(NoPicture, i, i)
			f.What = "has no picture yet"
			f.Why = "The animatic shows a blank card there."
			f.Source = "the board itself"
			out = append(out, f)
			i++
		default:
			last := i
			for last+1 < len(l.Panels) && empty(l.Panels[last+1]) {
				last++
			}
			out = append(out, l.gap(i, last))
			i = last + 1
		}
	}
	return out
}

// gap is the finding of empty panels from to to, the last included.
func (l look) gap(from, to int) Finding {
	f := l.at(Gap, from, to)
	f.Severity = Fault
	f.Source = "the board itself"
	held := frames(f.Span.Len())
	switch whole := len(l.Panels) - 1; {
	case from == 0 && to == whole:
		f.Severity = Hint
		f.What = fmt.Sprintf("is empty, and so is all of the film: %s", held)
		f.Why = "There is nothing to see yet."
		return f
	case to == whole:
		f.What = fmt.Sprintf("is empty: the film goes on for %s after its last picture", held)
	case from == 0:
		f.What = fmt.Sprintf("is empty: the film begins with %s of nothing", held)
	default:
		f.What = fmt.Sprintf("is empty: a gap of %s", held)
	}
	f.Why = "A blank card there looks like a mistake."
	set := make([]int, 0, to-from+1)
	for i := from; i <= to; i++ {
		set = append(set, i)
	}
	f.Mend = l.works(board.Delete(set))
	return f
}

// unseen reports whether a panel shows nothing but a blank card.
func unseen(p board.Panel) bool {
	d := p.Drawing()
	return p.Picture == "" && d.Sketch == "" && len(d.Lettering) == 0
}

// empty reports whether there is nothing on a panel at all.
func empty(p board.Panel) bool {
	return unseen(p) && p.Words == board.Words{} && p.Heading == ""
}

// sessionWhy is why a shot is made in one sitting (common practice).
const sessionWhy = "Overnight lamps, temperature and puppets move; a break shows least on a hold or under a cut."

// sessions finds shots that take more exposures than one sitting.
func (l look) sessions() []Finding {
	if l.Session <= 0 {
		return nil
	}
	var out []Finding
	shots := l.Shots()
	for k := 0; k+1 < len(shots); k++ {
		var n int64
		for i := shots[k]; i < shots[k+1]; i++ {
			step := int64(l.StepOf(i))
			n += (int64(l.hold(i)) + step - 1) / step
		}
		if n <= l.Session {
			continue
		}
		f := l.at(Session, shots[k], shots[k+1]-1)
		f.What = fmt.Sprintf("opens a shot of %d exposures: a session has %d", n, l.Session)
		f.Why = sessionWhy
		f.Source = "common practice; the length of a session as asked for"
		out = append(out, f)
	}
	return out
}
