package sketch

import (
	"image"

	"stillbeat/board"
)

// Drawer is how strokes are drawn.
type Drawer struct {
	Course func(board.Stroke) []board.Dot                    // the straight lines a stroke is drawn in
	Paint  func(*image.RGBA, []board.Stroke) image.Rectangle // on an image of the whole frame
}

// Cut returns a sketch in which the chosen strokes are what later strokes of
// their layer left of them, which may be several pieces or none, and which those
// are: so they can be moved from under what erases them.
func Cut(s board.Sketch, set []int, by Drawer) (board.Sketch, []int) {
	var out []board.Stroke
	var now []int
	chosen := among(set, len(s.Strokes))
	for i, k := range s.Strokes {
		if !chosen[i] {
			out = append(out, k)
			continue
		}
		for _, piece := range remains(k, s.Strokes[i+1:], by) {
			now = append(now, len(out))
			out = append(out, piece)
		}
	}
	s.Strokes = out
	return s, now
}

// Raised returns a sketch in which chosen strokes lie over the erasers that would
// bite them where they are, and which they are now.
func Raised(s board.Sketch, set []int) (board.Sketch, []int) {
	over := make([][]int, len(s.Strokes)) // which go after each
	for _, i := range set {
		at, k, own := i, s.Strokes[i], Around(s.Strokes, []int{i})
		for j := i + 1; j < len(s.Strokes); j++ {
			if e := s.Strokes[j]; e.Erases && e.Layer == k.Layer && own.meets(Around(s.Strokes, []int{j})) {
				at = j
			}
		}
		over[at] = append(over[at], i)
	}
	var out []board.Stroke
	var now []int
	chosen := among(set, len(s.Strokes))
	for i, k := range s.Strokes {
		if !chosen[i] {
			out = append(out, k)
		}
		for _, j := range over[i] {
			now = append(now, len(out))
			out = append(out, s.Strokes[j])
		}
	}
	s.Strokes = out
	return s, now
}

// among says of each of n whether it is in set.
func among(set []int, n int) []bool {
	in := make([]bool, n)
	for _, i := range set {
		in[i] = true
	}
	return in
}

// meets reports whether two boxes have a part in common.
func (b Box) meets(c Box) bool { return b.X0 <= c.X1 && c.X0 <= b.X1 && b.Y0 <= c.Y1 && c.Y0 <= b.Y1 }

// remains returns what later strokes leave of k.
func remains(k board.Stroke, later []board.Stroke, by Drawer) []board.Stroke {
	var erasers []board.Stroke
	own := Around([]board.Stroke{k}, []int{0})
	for j, e := range later {
		if e.Erases && e.Layer == k.Layer && own.meets(Around(later, []int{j})) {
			erasers = append(erasers, e)
		}
	}
	switch {
	case len(erasers) == 0 || k.Erases:
		return []board.Stroke{k}
	case k.Filled:
		return patchLeft(k, erasers, by.Paint)
	}
	return lineLeft(k, erasers, by.Course)
}
