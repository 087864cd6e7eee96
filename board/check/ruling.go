package check

import (
	"cmp"
	"slices"

	"stillbeat/board"
)

// judge counts the changes at frame n and notes what the second that ends with
// it does not pass.
func (r *ruling) judge(rule Rule, n board.Frame) {
	if len(r.now) == 0 {
		return
	}
	t := r.tally
	t.add(n, r.now)
	r.now = r.now[:0]
	for {
		if _, over := t.covers(r.most + 1); !over {
			break
		}
		r.most++
	}
	if r.most < keptUpChanges {
		return
	}
	span := board.Span{Start: t.since(), End: n + 1}
	if _, over := t.covers(keptUpChanges); over {
		r.steady = joined(r.steady, span)
	}
	share, over := t.covers(MostChanges + 1)
	if !over {
		return
	}
	last := len(r.runs) - 1
	if last < 0 || r.runs[last].Span.End < span.Start {
		r.runs = append(r.runs, Flash{Rule: rule, Span: span, Changes: MostChanges + 1, Share: share})
		last++
	}
	run := &r.runs[last]
	run.Span.End = span.End
	for {
		share, over := t.covers(run.Changes + 1)
		if !over {
			return
		}
		run.Changes, run.Share = run.Changes+1, share
	}
}

// joined adds a span to ascending ones that do not meet.
func joined(spans []board.Span, s board.Span) []board.Span {
	if k := len(spans) - 1; k >= 0 && s.Start <= spans[k].End {
		spans[k].Start, spans[k].End = min(spans[k].Start, s.Start), max(spans[k].End, s.End)
		return spans
	}
	return append(spans, s)
}

// found returns what was found, places in the film's own frames.
func (a *analyser) found() Flashing {
	var out Flashing
	for r := range a.ruled {
		ruled := &a.ruled[r]
		out.Most[r] = ruled.most
		runs := ruled.runs
		if Rule(r) == General || Rule(r) == Red {
			runs = append(runs, ruled.keptUp(Rule(r), a.rate)...)
		}
		for i := range runs {
			s := &runs[i].Span
			s.Start, s.End = s.Start%a.length, min(s.Start%a.length+s.Len(), a.length)
		}
		slices.SortStableFunc(runs, func(x, y Flash) int { return cmp.Compare(x.Span.Start, y.Span.Start) })
		for _, f := range runs {
			if k := len(out.Flashes) - 1; k >= 0 && out.Flashes[k].Rule == f.Rule && out.Flashes[k].KeptUp == f.KeptUp && out.Flashes[k].Span.Overlaps(f.Span) {
				had := &out.Flashes[k] // the same, seen again in the next round
				had.Span.End, had.Changes, had.Share = max(had.Span.End, f.Span.End), max(had.Changes, f.Changes), max(had.Share, f.Share)
				continue
			}
			out.Flashes = append(out.Flashes, f)
		}
	}
	return out
}

// keptUp returns the runs that pass in every second but go on for four seconds
// of five.
func (r *ruling) keptUp(rule Rule, rate board.FrameRate) []Flash {
	var spans []board.Span
	for _, s := range r.steady {
		window := board.Span{Start: s.Start, End: s.Start + rate.Nearest(keptUpOf)}
		var busy board.Frame
		end := s.End
		for _, o := range r.steady {
			if within := min(o.End, window.End) - max(o.Start, window.Start); within > 0 {
				busy, end = busy+within, max(end, o.End)
			}
		}
		if rate.Seconds(busy) >= keptUpFor {
			spans = joined(spans, board.Span{Start: s.Start, End: end})
		}
	}
	var out []Flash
	for _, s := range spans {
		fails := func(f Flash) bool { return f.Span.Overlaps(s) }
		if !slices.ContainsFunc(r.runs, fails) {
			out = append(out, Flash{Rule: rule, Span: s, Changes: min(r.most, MostChanges), KeptUp: true})
		}
	}
	return out
}
