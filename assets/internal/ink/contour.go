package ink

import "image"

// edge is a grid edge between two neighbouring mask pixels: from (X, Y) to the
// right, or down when Down is set.
type edge struct {
	X, Y int
	Down bool
}

// Contours returns the closed outlines of mask where its coverage crosses one
// half, found by marching squares, points in pixel coordinates. Each outline
// keeps the inside on its left on screen.
func Contours(mask *image.Alpha) [][]Pt {
	if mask == nil {
		return nil
	}
	next := linkEdges(mask)
	var loops [][]Pt
	r := mask.Rect
	for y := r.Min.Y - 1; y < r.Max.Y; y++ {
		for x := r.Min.X - 1; x < r.Max.X; x++ {
			for _, down := range []bool{false, true} {
				start := edge{x, y, down}
				if _, ok := next[start]; ok {
					if loop := follow(mask, next, start); len(loop) > 8 {
						loops = append(loops, relax(loop))
					}
				}
			}
		}
	}
	return loops
}

// linkEdges maps each crossed grid edge to the next one along the outline.
func linkEdges(mask *image.Alpha) map[edge]edge {
	next := map[edge]edge{}
	r := mask.Rect
	for y := r.Min.Y - 1; y < r.Max.Y; y++ {
		for x := r.Min.X - 1; x < r.Max.X; x++ {
			code := 0
			for bit, p := range [4]image.Point{{x, y}, {x + 1, y}, {x + 1, y + 1}, {x, y + 1}} {
				if mask.AlphaAt(p.X, p.Y).A >= 128 {
					code |= 1 << bit
				}
			}
			top, right := edge{x, y, false}, edge{x + 1, y, true}
			bottom, left := edge{x, y + 1, false}, edge{x, y, true}
			switch code {
			case 1:
				next[left] = top
			case 2:
				next[top] = right
			case 3:
				next[left] = right
			case 4:
				next[right] = bottom
			case 5:
				next[left], next[right] = top, bottom
			case 6:
				next[top] = bottom
			case 7:
				next[left] = bottom
			case 8:
				next[bottom] = left
			case 9:
				next[bottom] = top
			case 10:
				next[top], next[bottom] = right, left
			case 11:
				next[bottom] = right
			case 12:
				next[right] = left
			case 13:
				next[right] = top
			case 14:
				next[top] = left
			}
		}
	}
	return next
}

// follow walks one outline from start and removes it from next.
func follow(mask *image.Alpha, next map[edge]edge, start edge) []Pt {
	var loop []Pt
	for e := start; ; {
		to, ok := next[e]
		if !ok {
			return loop
		}
		delete(next, e)
		loop = append(loop, crossing(mask, e))
		e = to
	}
}

// crossing is where along e the coverage is one half. Pixel (x, y) has its
// middle at (x+0.5, y+0.5).
func crossing(mask *image.Alpha, e edge) Pt {
	x2, y2 := e.X+1, e.Y
	if e.Down {
		x2, y2 = e.X, e.Y+1
	}
	a, b := float64(mask.AlphaAt(e.X, e.Y).A), float64(mask.AlphaAt(x2, y2).A)
	t := (127.5 - a) / (b - a)
	return Pt{mixf(float64(e.X), float64(x2), t) + 0.5, mixf(float64(e.Y), float64(y2), t) + 0.5}
}

// relax smooths a closed loop a little and closes it on its first point.
func relax(loop []Pt) []Pt {
	n := len(loop)
	for pass := 0; pass < 3; pass++ {
		out := make([]Pt, n)
		for i := range loop {
			a, b, c := loop[(i+n-1)%n], loop[i], loop[(i+1)%n]
			out[i] = Pt{(a.X + 2*b.X + c.X) / 4, (a.Y + 2*b.Y + c.Y) / 4}
		}
		loop = out
	}
	return append(loop, loop[0])
}
