package ink

import "math"

// Smooth returns a Catmull-Rom curve through the points, steps points per span.
func Smooth(p []Pt, steps int) []Pt {
	if len(p) < 3 {
		return p
	}
	out := make([]Pt, 0, (len(p)-1)*steps+1)
	at := func(i int) Pt { return p[min(max(i, 0), len(p)-1)] }
	for i := 0; i+1 < len(p); i++ {
		a, b, c, d := at(i-1), at(i), at(i+1), at(i+2)
		for s := 0; s < steps; s++ {
			t := float64(s) / float64(steps)
			out = append(out, Pt{spline(a.X, b.X, c.X, d.X, t), spline(a.Y, b.Y, c.Y, d.Y, t)})
		}
	}
	return append(out, p[len(p)-1])
}

func spline(a, b, c, d, t float64) float64 {
	return 0.5 * (2*b + (c-a)*t + (2*a-5*b+4*c-d)*t*t + (3*b-a-3*c+d)*t*t*t)
}

// Disc returns a circle, or an ellipse with semi-axes rx and ry.
func Disc(centre Pt, rx, ry float64) []Pt {
	n := 16 + int(math.Sqrt(max(rx, ry))*4)
	out := make([]Pt, n)
	for i := range out {
		s, c := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		out[i] = Pt{centre.X + rx*c, centre.Y + ry*s}
	}
	return out
}

// resample returns points about step apart along the line p, and its length.
func resample(p []Pt, step float64) ([]Pt, float64) {
	total := 0.0
	for i := 1; i < len(p); i++ {
		total += dist(p[i-1], p[i])
	}
	n := max(2, int(total/step)+1)
	out := make([]Pt, 0, n)
	i, done := 1, 0.0
	for k := 0; k < n; k++ {
		want := total * float64(k) / float64(n-1)
		for i < len(p)-1 && done+dist(p[i-1], p[i]) < want {
			done += dist(p[i-1], p[i])
			i++
		}
		d := dist(p[i-1], p[i])
		t := 0.0
		if d > 0 {
			t = min((want-done)/d, 1)
		}
		out = append(out, Pt{mixf(p[i-1].X, p[i].X, t), mixf(p[i-1].Y, p[i].Y, t)})
	}
	return out, total
}

func dist(a, b Pt) float64 { return math.Hypot(a.X-b.X, a.Y-b.Y) }

// Arc returns points of a circle from angle a to b in degrees, 0 to the right
// and 90 down.
func Arc(centre Pt, r, a, b float64) []Pt {
	const n = 16
	out := make([]Pt, n+1)
	for i := range out {
		s, c := math.Sincos((a + (b-a)*float64(i)/n) * math.Pi / 180)
		out[i] = Pt{centre.X + r*c, centre.Y + r*s}
	}
	return out
}
