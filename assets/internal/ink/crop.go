package ink

import "image"

// outside is how far, in pixels, shapes may reach beyond the picture before
// they are cut: far enough for outlines to stay out of sight.
const outside = 100

// cropped cuts the polygon p to the picture and its surroundings (Sutherland
// and Hodgman, Communications of the ACM 17(1), 1974).
func cropped(p []Pt, frame image.Rectangle) []Pt {
	r := frame.Inset(-outside)
	sides := [4]func(q Pt) float64{
		func(q Pt) float64 { return q.X - float64(r.Min.X) },
		func(q Pt) float64 { return float64(r.Max.X) - q.X },
		func(q Pt) float64 { return q.Y - float64(r.Min.Y) },
		func(q Pt) float64 { return float64(r.Max.Y) - q.Y },
	}
	for _, inside := range sides {
		if allInside(p, inside) {
			continue
		}
		var kept []Pt
		for i, a := range p {
			b := p[(i+1)%len(p)]
			da, db := inside(a), inside(b)
			if da >= 0 {
				kept = append(kept, a)
			}
			if da*db < 0 {
				t := da / (da - db)
				kept = append(kept, Pt{mixf(a.X, b.X, t), mixf(a.Y, b.Y, t)})
			}
		}
		p = kept
	}
	return p
}

func allInside(p []Pt, inside func(Pt) float64) bool {
	for _, q := range p {
		if inside(q) < 0 {
			return false
		}
	}
	return true
}

// visibleParts returns the parts of the line p in or near the picture. The
// line's points must not be far apart.
func visibleParts(p []Pt, frame image.Rectangle) [][]Pt {
	r := frame.Inset(-outside)
	in := func(q Pt) bool {
		return q.X >= float64(r.Min.X) && q.X <= float64(r.Max.X) && q.Y >= float64(r.Min.Y) && q.Y <= float64(r.Max.Y)
	}
	var out [][]Pt
	start := -1
	for i := range p {
		near := in(p[i]) || i > 0 && in(p[i-1]) || i+1 < len(p) && in(p[i+1])
		switch {
		case near && start < 0:
			start = i
		case !near && start >= 0:
			out = append(out, p[start:i])
			start = -1
		}
	}
	if start >= 0 {
		out = append(out, p[start:])
	}
	return out
}
