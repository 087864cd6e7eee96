package board

// Passings returns for each panel the frames in which the picture before gives
// way to it, given the board's starts: none at a cut. Half of a passage lies
// before the cut and half after, the odd frame after; what reaches beyond the
// panel before or this one is lost. Where two passages meet in a short panel
// they share its frames in the ratio they ask for, so no frame is in two.
func (b Board) Passings(starts []Frame) []Span {
	out := make([]Span, len(b.Panels))
	for i, p := range b.Panels {
		half := p.Into.Frames / 2
		before, after := half, p.Into.Frames-half
		if i == 0 {
			before = 0
		} else {
			before = min(before, starts[i]-starts[i-1])
		}
		out[i] = Span{starts[i] - before, starts[i] + min(after, starts[i+1]-starts[i])}
		if i > 0 && out[i-1].End > out[i].Start { // both lie in panel i-1
			held := starts[i] - starts[i-1]
			a, z := out[i-1].End-starts[i-1], starts[i]-out[i].Start
			meet := starts[i-1] + (held*a+(a+z)/2)/(a+z)
			out[i-1].End, out[i].Start = meet, meet
		}
	}
	return out
}

// SeenIn returns the frames in which panel i is seen at all, given the board's
// passings: those it holds, and those of passages into it and out of it.
func (b Board) SeenIn(i int, starts []Frame, passings []Span) Span {
	seen := Span{min(starts[i], passings[i].Start), starts[i+1]}
	if i+1 < len(passings) {
		seen.End = max(seen.End, passings[i+1].End)
	}
	if b.Panels[i].Into.Kind == Fade {
		seen.Start = starts[i] // before the cut a fade shows the picture before alone
	}
	if i+1 < len(passings) && b.Panels[i+1].Into.Kind == Fade {
		seen.End = starts[i+1]
	}
	return seen
}
