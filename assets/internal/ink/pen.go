package ink

import (
	"image/color"
	"math"
)

// Pen says how a line looks. Lengths are design units (see Canvas.Unit).
type Pen struct {
	Width  float64 // mean width
	Colour color.RGBA
	Alpha  float64 // opacity 0..1; 0 means 1
	Taper  float64 // length over which the ends run out to a point; 0 means round ends
	Weight float64 // 0..1: how much heavier the line is on the side away from the light
	Even   bool    // no breathing: ruled lines
	Seed   int
}

// corner is the turn, in radians, beyond which a line is lifted and started anew.
const corner = 0.9

// Stroke draws the line p.
func (c *Canvas) Stroke(p []Pt, pen Pen) { c.Strokes([][]Pt{p}, pen) }

// Strokes draws several lines at once; where they cross, they do not darken.
func (c *Canvas) Strokes(lines [][]Pt, pen Pen) {
	var ribbons [][]Pt
	for i, line := range lines {
		for _, part := range visibleParts(line, c.Img.Bounds()) {
			for j, run := range splitCorners(part) {
				pen := pen
				pen.Seed += i*131 + j*17
				if r := c.ribbon(run, pen); r != nil {
					ribbons = append(ribbons, r)
				}
			}
		}
	}
	alpha := pen.Alpha
	if alpha == 0 {
		alpha = 1
	}
	c.Paint(c.Mask(ribbons...), pen.Colour, alpha)
}

// splitCorners cuts a line at its sharp corners.
func splitCorners(p []Pt) [][]Pt {
	var parts [][]Pt
	start := 0
	for i := 1; i+1 < len(p); i++ {
		a := math.Atan2(p[i].Y-p[i-1].Y, p[i].X-p[i-1].X)
		b := math.Atan2(p[i+1].Y-p[i].Y, p[i+1].X-p[i].X)
		if math.Abs(math.Remainder(b-a, 2*math.Pi)) > corner {
			parts = append(parts, p[start:i+1])
			start = i
		}
	}
	return append(parts, p[start:])
}

// ribbon returns the outline of the line p drawn with pen.
func (c *Canvas) ribbon(p []Pt, pen Pen) []Pt {
	if len(p) < 2 {
		return nil
	}
	u := c.Unit
	pts, length := resample(p, 2.5*u)
	if length < 0.5 {
		return nil
	}
	n := len(pts)
	left, right := make([]Pt, 0, n+8), make([]Pt, 0, n)
	for i, q := range pts {
		a, b := pts[max(i-1, 0)], pts[min(i+1, n-1)]
		d := max(dist(a, b), 1e-9)
		nx, ny := -(b.Y-a.Y)/d, (b.X-a.X)/d
		s := length * float64(i) / float64(n-1)
		w := pen.widthAt(s/u, length/u, nx, ny) * u / 2
		if !pen.Even {
			k := 0.45 * u * Noise(s/u/23, pen.Seed+5)
			q.X, q.Y = q.X+nx*k, q.Y+ny*k
		}
		left = append(left, Pt{q.X + nx*w, q.Y + ny*w})
		right = append(right, Pt{q.X - nx*w, q.Y - ny*w})
	}
	out := append(left, capEnd(left[n-1], right[n-1])...)
	for i := n - 1; i >= 0; i-- {
		out = append(out, right[i])
	}
	return append(out, capEnd(right[0], left[0])...)
}

// widthAt is the line's width s units along a line of the given length with
// the normal nx, ny on its right-hand side.
func (p Pen) widthAt(s, length, nx, ny float64) float64 {
	w := p.Width
	if !p.Even {
		w *= 1 + 0.22*Noise(s/47, p.Seed) + 0.12*Noise(s/13, p.Seed+3)
		w *= 1 + p.Weight*(0.55*nx+0.7*ny)
	}
	if p.Taper > 0 {
		t := min(1, s/p.Taper, (length-s)/p.Taper)
		w *= math.Sqrt(max(t, 0.01))
	}
	return max(w, 0.3)
}

// capEnd returns points of the half circle from a to b, ends left out.
func capEnd(a, b Pt) []Pt {
	mid := Pt{(a.X + b.X) / 2, (a.Y + b.Y) / 2}
	dx, dy := a.X-mid.X, a.Y-mid.Y
	var out []Pt
	for k := 1; k < 4; k++ {
		s, c := math.Sincos(math.Pi * float64(k) / 4)
		out = append(out, Pt{mid.X + dx*c - dy*s, mid.Y + dx*s + dy*c})
	}
	return out
}

// Dashes cuts the line p into dashes of the given lengths in design units.
func (c *Canvas) Dashes(p []Pt, on, off float64) [][]Pt {
	pts, _ := resample(p, 2*c.Unit)
	step := 2.0
	var out [][]Pt
	for i := 0; i < len(pts); i += int((on + off) / step) {
		if part := pts[i:min(len(pts), i+int(on/step)+1)]; len(part) > 2 {
			out = append(out, part)
		}
	}
	return out
}
