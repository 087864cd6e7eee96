package stage

import (
	"sort"

	"stillbeat/assets/internal/ink"
)

// hull returns the convex hull of the points (monotone chain).
func hull(p []ink.Pt) []ink.Pt {
	sort.Slice(p, func(i, j int) bool {
		if p[i].X != p[j].X {
			return p[i].X < p[j].X
		}
		return p[i].Y < p[j].Y
	})
	out := make([]ink.Pt, 0, len(p)+1)
	for pass := 0; pass < 2; pass++ {
		base := len(out)
		for i := range p {
			q := p[i]
			if pass == 1 {
				q = p[len(p)-1-i]
			}
			for len(out) >= base+2 && turn(out[len(out)-2], out[len(out)-1], q) <= 0 {
				out = out[:len(out)-1]
			}
			out = append(out, q)
		}
		out = out[:len(out)-1]
	}
	return out
}

// turn is positive when a, b, c turn one way, negative for the other.
func turn(a, b, c ink.Pt) float64 {
	return (b.X-a.X)*(c.Y-a.Y) - (b.Y-a.Y)*(c.X-a.X)
}
