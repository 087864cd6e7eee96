package sketch

import (
	"math"
	"slices"

	"stillbeat/board"
)

// cutStep is how far apart the places are that are looked at along a stroke, in
// units of the sketch: half a pixel of a frame of 1024 lines.
const cutStep = 8

// lineLeft returns the pieces that erasers leave of a line.
func lineLeft(k board.Stroke, erasers []board.Stroke, course func(board.Stroke) []board.Dot) []board.Stroke {
	var nibs []nib
	for _, e := range erasers {
		nibs = append(nibs, nibsOf(e, course(e))...)
	}
	line := course(k)
	if k.Closed && len(line) > 1 {
		line = append(slices.Clone(line), line[0])
	}
	line = divided(line)
	gone := func(d board.Dot) bool {
		return slices.ContainsFunc(nibs, func(n nib) bool { return n.covers(At(d)) })
	}
	var runs [][]board.Dot
	whole, open := true, false
	for _, d := range line {
		switch {
		case gone(d):
			whole, open = false, false
		case !open:
			runs, open = append(runs, []board.Dot{d}), true
		default:
			runs[len(runs)-1] = append(runs[len(runs)-1], d)
		}
	}
	if whole {
		return []board.Stroke{k}
	}
	first, last := !gone(line[0]), !gone(line[len(line)-1]) // ends that the stroke has from before
	if n := len(runs); k.Closed && n > 1 && first && last {
		runs[0] = append(runs[n-1], runs[0][1:]...)
		runs = runs[:n-1]
		first, last = false, false
	}
	var out []board.Stroke
	for i, run := range runs {
		// The end of a line is round: it begins a little further from the cut.
		short := 0.3 * float64(k.Width)
		if i > 0 || !first {
			run = shortened(run, short)
		}
		if i < len(runs)-1 || !last {
			slices.Reverse(run)
			run = shortened(run, short)
			slices.Reverse(run)
		}
		if len(run) == 0 {
			continue
		}
		piece := k
		piece.Smooth, piece.Closed, piece.Dots = false, false, Simplify(run, 2)
		out = append(out, piece)
	}
	return out
}

// nib is a straight way of an eraser, in heights of the frame.
type nib struct {
	a, b board.Point
	half float64
	box  Box
}

func nibsOf(e board.Stroke, line []board.Dot) []nib {
	var out []nib
	if e.Closed && len(line) > 1 {
		line = append(slices.Clone(line), line[0])
	}
	for i := range line {
		a, b := line[max(i-1, 0)], line[i]
		if i == 0 && len(line) > 1 {
			continue
		}
		half := float64(e.Width) / 2 / board.SketchUnit * float64(max(a.Wide, b.Wide)) / 255
		out = append(out, nib{At(a), At(b), half, BoxOf(At(a), At(b)).Grown(half)})
	}
	return out
}

func (n nib) covers(p board.Point) bool { return n.box.Holds(p) && fromLine(n.a, n.b, p) < n.half }

// divided puts dots between those that are further apart than cutStep.
func divided(line []board.Dot) []board.Dot {
	var out []board.Dot
	for i, b := range line {
		if i > 0 {
			a := line[i-1]
			n := int(math.Ceil(math.Hypot(float64(b.X-a.X), float64(b.Y-a.Y)) / cutStep))
			for s := 1; s < n; s++ {
				t := float64(s) / float64(n)
				part := func(v, w float64) float64 { return math.Round(v + (w-v)*t) }
				out = append(out, board.Dot{X: int32(part(float64(a.X), float64(b.X))), Y: int32(part(float64(a.Y), float64(b.Y))),
					Wide: uint8(part(float64(a.Wide), float64(b.Wide)))})
			}
		}
		out = append(out, b)
	}
	return out
}

// shortened returns a line without so much of its beginning, in units.
func shortened(line []board.Dot, by float64) []board.Dot {
	for i := 1; i < len(line); i++ {
		a, b := line[i-1], line[i]
		if by <= 0 {
			return line[i-1:]
		}
		by -= math.Hypot(float64(b.X-a.X), float64(b.Y-a.Y))
	}
	return nil
}
