package sheet

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"

	"stillbeat/board"
)

// spoken is what the camera does in a span of frames.
type spoken struct {
	span  board.Span
	words string
	last  board.Frame // the latest end of this and of those before
}

// over reports whether this and all before it end at frame f or earlier.
func (s spoken) over(f board.Frame) bool { return s.last <= f }

// cameraWords returns what the camera does, by first frame: passages from one
// picture to the next, moves and what is written of them.
func cameraWords(b board.Board, starts []board.Frame) []spoken {
	var out []spoken
	passings := b.Passings(starts)
	for i, p := range b.Panels {
		if into := p.Into; into.Kind != board.Cut && passings[i].Len() > 0 {
			out = append(out, spoken{span: passings[i], words: fmt.Sprintf("%s %d", into.Kind, passings[i].Len())})
		}
		if words := joined(": ", p.Camera, travelWords(p.Drawing().Travel)); words != "" {
			out = append(out, spoken{span: board.Span{Start: starts[i], End: starts[i+1]}, words: words})
		}
	}
	slices.SortStableFunc(out, func(a, b spoken) int { return cmp.Compare(a.span.Start, b.span.Start) })
	var last board.Frame
	for i := range out {
		last = max(last, out[i].span.End)
		out[i].last = last
	}
	return out
}

// travelWords says how a move goes: how wide the framing is, and where its
// middle is in heights of the frame, up counted plus.
func travelWords(m board.CameraMove) string {
	if m.Holds() {
		return ""
	}
	var parts []string
	if m.From.Part() != m.To.Part() {
		parts = append(parts, fmt.Sprintf("%.0f to %.0f%% wide", 100*m.From.Part(), 100*m.To.Part()))
	}
	if m.From.At != m.To.At {
		parts = append(parts, fmt.Sprintf("%s to %s", pointWords(m.From.At), pointWords(m.To.At)))
	}
	if m.Spacing != board.Even {
		parts = append(parts, map[board.Spacing]string{board.SlowIn: "slow in", board.SlowOut: "slow out", board.SlowInOut: "slow out and in"}[m.Spacing])
	}
	return joined(", ", parts...)
}

func pointWords(p board.Point) string { return "(" + short(p.X) + ", " + short(-p.Y) + ")" }

func short(v float64) string {
	s := strconv.FormatFloat(v, 'f', 2, 64)
	if s == "-0.00" {
		return s[1:]
	}
	return s
}
