// Package stage draws simple solids seen by a camera with pen and wash:
// silhouettes in ink, flat colour, one tone of shade, and cast shadows on a
// table top. Lengths are centimetres; x to the right, y up, z to the viewer.
// The table top is the plane y = 0.
package stage

import "math"

// Vec is a point or direction in centimetres.
type Vec struct{ X, Y, Z float64 }

// Sums, multiples, the scalar product, the length, and the point a share t of
// the way from a to b.
func (a Vec) Add(b Vec) Vec           { return Vec{a.X + b.X, a.Y + b.Y, a.Z + b.Z} }
func (a Vec) Sub(b Vec) Vec           { return Vec{a.X - b.X, a.Y - b.Y, a.Z - b.Z} }
func (a Vec) Scale(k float64) Vec     { return Vec{a.X * k, a.Y * k, a.Z * k} }
func (a Vec) Dot(b Vec) float64       { return a.X*b.X + a.Y*b.Y + a.Z*b.Z }
func (a Vec) Len() float64            { return math.Sqrt(a.Dot(a)) }
func (a Vec) To(b Vec, t float64) Vec { return a.Add(b.Sub(a).Scale(t)) }

// Cross is the vector product.
func (a Vec) Cross(b Vec) Vec {
	return Vec{a.Y*b.Z - a.Z*b.Y, a.Z*b.X - a.X*b.Z, a.X*b.Y - a.Y*b.X}
}

// Unit returns a with length 1; the zero vector stays zero.
func (a Vec) Unit() Vec {
	if l := a.Len(); l > 0 {
		return a.Scale(1 / l)
	}
	return a
}

// Pose places an object: its axes and its origin in the room.
type Pose struct{ X, Y, Z, O Vec }

// At returns an upright pose at (x, y, z).
func At(x, y, z float64) Pose {
	return Pose{Vec{1, 0, 0}, Vec{0, 1, 0}, Vec{0, 0, 1}, Vec{x, y, z}}
}

// Apply takes a point of the object to the room.
func (p Pose) Apply(v Vec) Vec {
	return p.O.Add(p.X.Scale(v.X)).Add(p.Y.Scale(v.Y)).Add(p.Z.Scale(v.Z))
}

// Turn rotates the object about its own upright axis, degrees, anticlockwise
// seen from above.
func (p Pose) Turn(deg float64) Pose {
	s, c := math.Sincos(deg * math.Pi / 180)
	p.X, p.Z = p.X.Scale(c).Sub(p.Z.Scale(s)), p.Z.Scale(c).Add(p.X.Scale(s))
	return p
}

// Lean rotates the object about its z axis, degrees, clockwise seen from the
// front: it leans to its right. The pivot is a point of the object.
func (p Pose) Lean(deg float64, pivot Vec) Pose {
	s, c := math.Sincos(deg * math.Pi / 180)
	fixed := p.Apply(pivot)
	p.X, p.Y = p.X.Scale(c).Sub(p.Y.Scale(s)), p.Y.Scale(c).Add(p.X.Scale(s))
	p.O = p.O.Add(fixed.Sub(p.Apply(pivot)))
	return p
}

// Pitch rotates the object about its x axis, degrees, towards the viewer.
func (p Pose) Pitch(deg float64, pivot Vec) Pose {
	s, c := math.Sincos(deg * math.Pi / 180)
	fixed := p.Apply(pivot)
	p.Y, p.Z = p.Y.Scale(c).Add(p.Z.Scale(s)), p.Z.Scale(c).Sub(p.Y.Scale(s))
	p.O = p.O.Add(fixed.Sub(p.Apply(pivot)))
	return p
}

// Move shifts the object in the room.
func (p Pose) Move(x, y, z float64) Pose {
	p.O = p.O.Add(Vec{x, y, z})
	return p
}

// Path takes a line of the object to the room.
func (p Pose) Path(line []Vec) []Vec {
	out := make([]Vec, len(line))
	for i, v := range line {
		out[i] = p.Apply(v)
	}
	return out
}

// Curve returns a smooth line through the points, steps points per span.
func Curve(p []Vec, steps int) []Vec {
	if len(p) < 3 {
		return p
	}
	at := func(i int) Vec { return p[min(max(i, 0), len(p)-1)] }
	var out []Vec
	for i := 0; i+1 < len(p); i++ {
		a, b, c, d := at(i-1), at(i), at(i+1), at(i+2)
		for s := 0; s < steps; s++ {
			t := float64(s) / float64(steps)
			v := b.Scale(2).Add(c.Sub(a).Scale(t))
			v = v.Add(a.Scale(2).Sub(b.Scale(5)).Add(c.Scale(4)).Sub(d).Scale(t * t))
			v = v.Add(b.Scale(3).Sub(a).Sub(c.Scale(3)).Add(d).Scale(t * t * t))
			out = append(out, v.Scale(0.5))
		}
	}
	return append(out, p[len(p)-1])
}
