package check

import (
	"fmt"
	"math"

	"stillbeat/board"
)

// earlyNoticed is by how many milliseconds a sound may come before its picture
// unnoticed (ITU-R BT.1359-1, quoted in the trade press).
const earlyNoticed = 45

const syncSource = "ITU-R BT.1359-1, as quoted in the trade press"

// offBeat finds starts that are further from their beat than the limits allow.
// Those whose distance can be noticed are faults, unless they are more than a
// quarter of a beat away: so far off they are meant.
func (l look) offBeat() []Finding {
	half := 500 / l.Rate.Float()
	late, early := l.Late, l.Early
	if late <= 0 {
		late = half
	}
	if early <= 0 {
		early = math.Max(half, board.LeadUnnoticed)
	}
	var out []Finding
	for i := 1; i < len(l.starts); i++ {
		ms, ok := l.OffBeat(l.starts, i)
		const rounding = 0.01
		if !ok || ms <= late+rounding && ms >= -early-rounding {
			continue
		}
		var f Finding
		what := "starts"
		if i < len(l.Panels) {
			f = l.at(OffBeat, i, i)
		} else {
			f, what = Finding{ID: IDOf(OffBeat, 0), Kind: OffBeat, Severity: Hint}, "ends"
		}
		f.Span = board.Span{Start: l.starts[i], End: l.starts[i] + 1}
		if (ms > earlyNoticed || ms < -board.LeadUnnoticed) && math.Abs(ms) <= l.beatAt(i)/4 {
			f.Severity = Fault
		}
		how := "after"
		if ms < 0 {
			how = "before"
		}
		f.What = fmt.Sprintf("%s %.0f ms (%.1f frames) %s its beat", what, math.Abs(ms), math.Abs(ms)/(2*half), how)
		f.Why = fmt.Sprintf("A sound is noticed as early from %d ms on and as late from %d.", earlyNoticed, board.LeadUnnoticed)
		f.Source = syncSource
		e := board.PutOnBeat(i)
		if i == len(l.Panels) {
			e.Name = "end the film on the beat"
		}
		f.Mend = l.works(e)
		out = append(out, f)
	}
	return out
}

// beatAt returns the length of the beat at start i in milliseconds.
func (l look) beatAt(i int) float64 {
	beat := l.Grid.Near(l.Rate.Seconds(l.starts[i])-l.SongOffset(), 1).Beat
	return 1000 * (l.Grid.Time(beat+1, 0, 1) - l.Grid.Time(beat, 0, 1))
}

// short finds panels that hold too short to be seen.
func (l look) short() []Finding {
	least, source := l.leastHold(), "the limit that was asked for"
	if l.Shortest <= 0 {
		source = "common practice: an eighth of a second"
	}
	var out []Finding
	for i := range l.Panels {
		if l.hold(i) >= least {
			continue
		}
		f := l.at(ShortHold, i, i)
		f.What = fmt.Sprintf("holds %s: the least that is seen is %s", frames(l.hold(i)), frames(least))
		f.Why = "A picture that is gone sooner is felt as a jolt, not seen."
		f.Source = source
		f.Mend = l.longer(i, least)
		out = append(out, f)
	}
	return out
}

func (l look) leastHold() board.Frame {
	if l.Shortest > 0 {
		return l.Shortest
	}
	return l.Rate.ShortestHold()
}

// longer returns an edit that lets panel i hold so many frames at least: at the
// cost of the one after it, to a beat where there is one, if that one can spare
// them, else with all that follows moving along.
func (l look) longer(i int, least board.Frame) *board.Edit {
	next, end := i+1, l.starts[i]+least
	spares := func(at board.Frame) bool {
		return next == len(l.Panels) || l.starts[next+1]-at >= max(l.leastHold(), l.hold(next)/2)
	}
	named := func(e board.Edit) *board.Edit {
		e.Name = fmt.Sprintf("hold panel %d longer", i+1)
		return l.works(e)
	}
	if spares(end) {
		s := board.Free(l.Rate.Seconds(end))
		was := l.End
		if next < len(l.Panels) {
			was = l.Panels[next].Start
		}
		if was.Anchored() {
			for _, at := range l.Landings(board.ToBeat) {
				if at.Frame >= end && spares(at.Frame) {
					s = at.Start
					break
				}
			}
		}
		if e := named(board.SetStart(next, s)); e != nil {
			return e
		}
	}
	return named(board.SetHold([]int{i}, least))
}

func frames(n board.Frame) string {
	if n == 1 {
		return "1 frame"
	}
	return fmt.Sprintf("%d frames", n)
}
