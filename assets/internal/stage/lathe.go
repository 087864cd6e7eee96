package stage

import "math"

// Lathe is a turned body: a profile of radius and height turned about the
// upright axis, then placed.
type Lathe struct {
	profile [][2]float64 // radius, height
	pose    Pose
}

// Turned returns a lathe body from profile points {radius, height}, bottom to
// top, joined by a smooth line. A point given twice makes a sharp edge.
func Turned(pose Pose, profile ...[2]float64) Lathe {
	var fine [][2]float64
	start := 0
	flush := func(end int) {
		line := make([]Vec, 0, end-start)
		for _, p := range profile[start:end] {
			line = append(line, Vec{X: p[0], Y: p[1]})
		}
		for _, q := range Curve(line, 8) {
			fine = append(fine, [2]float64{max(q.X, 0.001), q.Y})
		}
	}
	for i := 1; i < len(profile); i++ {
		if profile[i] == profile[i-1] {
			flush(i)
			start = i
		}
	}
	flush(len(profile))
	return Lathe{fine, pose}
}

// Loft returns the body's surface.
func (l Lathe) Loft() Loft {
	out := make(Loft, len(l.profile))
	for i, p := range l.profile {
		out[i] = l.ring(p[0], p[1])
	}
	return out
}

func (l Lathe) ring(r, h float64) []Vec { return l.arc(r, h, 0, 360, ringPoints)[:ringPoints] }

// arc returns n+1 points from angle a to b, degrees; 0 points along x, 90
// along z.
func (l Lathe) arc(r, h, a, b float64, n int) []Vec {
	out := make([]Vec, n+1)
	for i := range out {
		s, c := math.Sincos((a + (b-a)*float64(i)/float64(n)) * math.Pi / 180)
		out[i] = l.pose.Apply(Vec{r * c, h, r * s})
	}
	return out
}

// Radius is the body's radius at height h, from the outside.
func (l Lathe) Radius(h float64) float64 {
	for i := 1; i < len(l.profile); i++ {
		a, b := l.profile[i-1], l.profile[i]
		if (a[1]-h)*(b[1]-h) <= 0 && a[1] != b[1] {
			return a[0] + (b[0]-a[0])*(h-a[1])/(b[1]-a[1])
		}
	}
	return l.profile[len(l.profile)-1][0]
}

// Pose is where the body stands.
func (l Lathe) Pose() Pose { return l.pose }

// Ring returns the circle at height h on the body.
func (l Lathe) Ring(h float64) []Vec { return l.ring(l.Radius(h), h) }

// Disc returns a circle of radius r at height h about the body's axis.
func (l Lathe) Disc(r, h float64) []Vec { return l.ring(r, h) }

// Arc returns the line round the body at height h from angle a to b, degrees.
func (l Lathe) Arc(h, a, b float64) []Vec { return l.arc(l.Radius(h), h, a, b, 32) }

// Belt returns the surface between two heights.
func (l Lathe) Belt(h0, h1 float64) Loft {
	return Loft{l.Ring(h0), l.Ring((h0 + h1) / 2), l.Ring(h1)}
}

// Rib returns the line up the body at angle a from height h0 to h1.
func (l Lathe) Rib(a, h0, h1 float64) []Vec {
	out := make([]Vec, 17)
	for i := range out {
		h := h0 + (h1-h0)*float64(i)/16
		out[i] = l.arc(l.Radius(h), h, a, a, 1)[0]
	}
	return out
}

// Field returns the patch of the surface between two heights and two angles.
func (l Lathe) Field(h0, h1, a, b float64) []Vec {
	out := append([]Vec{}, l.Arc(h0, a, b)...)
	out = append(out, l.Rib(b, h0, h1)...)
	out = append(out, l.Arc(h1, b, a)...)
	return append(out, l.Rib(a, h1, h0)...)
}

// Half returns the half of the surface towards the body's z axis, as a sheet.
func (l Lathe) Half() Loft {
	out := make(Loft, len(l.profile))
	for i, p := range l.profile {
		out[i] = l.arc(p[0], p[1], 0, 180, ringPoints/2)
	}
	return out
}

// Top is the middle of the body's upper end.
func (l Lathe) Top() Vec { return l.pose.Apply(Vec{0, l.profile[len(l.profile)-1][1], 0}) }
