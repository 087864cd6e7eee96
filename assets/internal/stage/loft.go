package stage

import (
	"math"

	"stillbeat/assets/internal/ink"
)

// Loft is a solid swept through convex cross sections, each a ring of as many
// points. It is the one shape everything on the table is made of.
type Loft [][]Vec

// ringPoints is the number of points in a round cross section.
const ringPoints = 48

// Tube returns a round rod along path with the given radii; a single radius
// holds for the whole length. Ends are rounded.
func Tube(path []Vec, radii ...float64) Loft {
	n := len(path)
	radius := func(i int) float64 {
		if len(radii) == 1 {
			return radii[0]
		}
		t := float64(i) / float64(n-1) * float64(len(radii)-1)
		k := min(int(t), len(radii)-2)
		return radii[k] + (radii[k+1]-radii[k])*(t-float64(k))
	}
	out := make(Loft, 0, n+4)
	end := func(i int, along Vec, steps ...float64) {
		for _, s := range steps {
			r := radius(i)
			out = append(out, circle(path[i].Add(along.Scale(r*s)), along, r*math.Sqrt(1-s*s), 20))
		}
	}
	first := path[1].Sub(path[0]).Unit()
	last := path[n-1].Sub(path[n-2]).Unit()
	end(0, first, -0.96, -0.7)
	for i := range path {
		along := path[min(i+1, n-1)].Sub(path[max(i-1, 0)]).Unit()
		out = append(out, circle(path[i], along, radius(i), 20))
	}
	end(n-1, last, 0.7, 0.96)
	return out
}

// circle is a ring of n points round centre, square to axis.
func circle(centre, axis Vec, r float64, n int) []Vec {
	side := axis.Cross(Vec{0, 0, 1})
	if side.Len() < 0.1 {
		side = axis.Cross(Vec{0, 1, 0})
	}
	side = side.Unit()
	up := side.Cross(axis).Unit()
	out := make([]Vec, n)
	for i := range out {
		s, c := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		out[i] = centre.Add(side.Scale(r * c)).Add(up.Scale(r * s))
	}
	return out
}

// Centre is the mean of the loft's points.
func (l Loft) Centre() Vec {
	var sum Vec
	n := 0
	for _, ring := range l {
		for _, p := range ring {
			sum = sum.Add(p)
			n++
		}
	}
	return sum.Scale(1 / float64(n))
}

// outline returns polygons whose union is what the camera sees of the loft.
func (v view) outline(l Loft) [][]ink.Pt {
	rings := make([][]ink.Pt, len(l))
	for i, ring := range l {
		rings[i] = v.projectAll(ring)
	}
	out := make([][]ink.Pt, 0, len(l))
	for i := 0; i+1 < len(l); i++ {
		both := append(append([]ink.Pt{}, rings[i]...), rings[i+1]...)
		out = append(out, hull(both))
	}
	return out
}

// shadow returns the loft's shadow on the table top for light travelling
// along ray: the loft pressed flat.
func (l Loft) shadow(ray Vec) Loft {
	out := make(Loft, len(l))
	for i, ring := range l {
		flat := make([]Vec, len(ring))
		for j, p := range ring {
			k := max(p.Y, 0) / -ray.Y
			flat[j] = Vec{p.X + ray.X*k, 0, p.Z + ray.Z*k}
		}
		out[i] = flat
	}
	return out
}

// zone returns the parts of the loft's visible surface where the outward
// normal's component along dir is below limit, as small polygons.
func (v view) zone(l Loft, dir Vec, limit float64) [][]ink.Pt {
	var out [][]ink.Pt
	normals := l.normals()
	for i := 0; i+1 < len(l); i++ {
		n := len(l[i])
		for j := 0; j < n; j++ {
			k := (j + 1) % n
			corners := [4]Vec{l[i][j], l[i][k], l[i+1][k], l[i+1][j]}
			ns := [4]Vec{normals[i][j], normals[i][k], normals[i+1][k], normals[i+1][j]}
			facing := 0.0
			for m, c := range corners {
				facing += ns[m].Dot(v.eye.Sub(c).Unit())
			}
			if facing <= 0 {
				continue
			}
			if p := cut(v.projectAll(corners[:]), ns, dir, limit); len(p) > 2 {
				out = append(out, p)
			}
		}
	}
	return out
}

// cut keeps the part of a quad where normal·dir < limit.
func cut(p []ink.Pt, normals [4]Vec, dir Vec, limit float64) []ink.Pt {
	var kept []ink.Pt
	for i := range p {
		j := (i + 1) % len(p)
		a, b := limit-normals[i].Dot(dir), limit-normals[j].Dot(dir)
		if a >= 0 {
			kept = append(kept, p[i])
		}
		if a*b < 0 {
			t := a / (a - b)
			kept = append(kept, ink.Pt{X: p[i].X + (p[j].X-p[i].X)*t, Y: p[i].Y + (p[j].Y-p[i].Y)*t})
		}
	}
	return kept
}

// normals returns outward unit normals at the loft's points.
func (l Loft) normals() [][]Vec {
	out := make([][]Vec, len(l))
	for i, ring := range l {
		out[i] = make([]Vec, len(ring))
		below, above := l[max(i-1, 0)], l[min(i+1, len(l)-1)]
		var mid Vec
		for _, p := range ring {
			mid = mid.Add(p.Scale(1 / float64(len(ring))))
		}
		for j, p := range ring {
			n := len(ring)
			round := ring[(j+1)%n].Sub(ring[(j+n-1)%n])
			normal := round.Cross(above[j].Sub(below[j])).Unit()
			if normal.Dot(p.Sub(mid)) < 0 {
				normal = normal.Scale(-1)
			}
			out[i][j] = normal
		}
	}
	return out
}
