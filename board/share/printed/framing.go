package printed

import (
	"image/color"
	"math"
	"slices"

	"stillbeat/board"
	"stillbeat/board/internal/paper"
)

// overviews returns the board as its pictures are printed: where the camera
// moves it stands still on all that the move shows.
func overviews(b board.Board) board.Board {
	out := b
	out.Panels = slices.Clone(b.Panels)
	for i, p := range b.Panels {
		d := p.Drawing()
		if d.Travel.Holds() {
			continue
		}
		whole := overview(d.Travel, b.Aspect.Ratio())
		d.Travel = board.CameraMove{From: whole, To: whole}
		out.Panels[i].Drawn = &d
	}
	return out
}

// overview returns the smallest framing that holds the whole frame and both
// ends of a move, in a frame of the given width for a height of 1.
func overview(m board.CameraMove, ratio float64) board.Framing {
	left, top, right, bottom := -ratio/2, -0.5, ratio/2, 0.5
	for _, f := range []board.Framing{m.From, m.To} {
		part := f.Part()
		left, right = min(left, f.At.X-part*ratio/2), max(right, f.At.X+part*ratio/2)
		top, bottom = min(top, f.At.Y-part/2), max(bottom, f.At.Y+part/2)
	}
	part := max((right-left)/ratio, bottom-top)
	if part <= 1 {
		return board.Framing{}
	}
	return board.Framing{At: board.Point{X: (left + right) / 2, Y: (top + bottom) / 2}, Width: part}
}

// framings draws a move of the camera on the picture of panel i: where it
// begins as a full line, where it ends as a dashed one, and arrows from one to
// the other.
func (p *printer) framings(i int, at paper.Box) {
	m := p.b.Panels[i].Drawing().Travel
	if m.Holds() {
		return
	}
	ratio := p.b.Aspect.Ratio()
	whole := overview(m, ratio)
	from, to := framed(m.From, whole, ratio, at), framed(m.To, whole, ratio, at)
	p.seen(edges(from, at), 0, at.High)
	p.seen(edges(to, at), 1.6, at.High)
	a, z := middle(from), middle(to)
	if math.Hypot(z[0]-a[0], z[1]-a[1]) > 0.06*at.High {
		p.arrow(a, z, at.High)
		return
	}
	ends := edges(to, at)
	for k, e := range edges(from, at) {
		p.arrow(e[0], ends[k][0], at.High)
	}
}

// framed returns where a framing lies on the picture of another.
func framed(f, whole board.Framing, ratio float64, at paper.Box) paper.Box {
	k := at.High / whole.Part() // mm to a height of the frame
	wide, high := f.Part()*ratio*k, f.Part()*k
	return paper.Box{
		X: at.X + at.Wide/2 + (f.At.X-whole.At.X)*k - wide/2, Y: at.Y + at.High/2 + (f.At.Y-whole.At.Y)*k - high/2,
		Wide: wide, High: high,
	}
}

// edge is a straight line between two points.
type edge [2][2]float64

// edges returns the four sides of a framing, their lines inside the picture.
func edges(f, at paper.Box) []edge {
	in := 1.1 * nib(at.High)
	c := corners(f)
	for k := range c {
		c[k][0] = min(max(c[k][0], at.X+in), at.X+at.Wide-in)
		c[k][1] = min(max(c[k][1], at.Y+in), at.Y+at.High-in)
	}
	return []edge{{c[0], c[1]}, {c[1], c[2]}, {c[2], c[3]}, {c[3], c[0]}}
}

func corners(b paper.Box) [4][2]float64 {
	return [4][2]float64{{b.X, b.Y}, {b.X + b.Wide, b.Y}, {b.X + b.Wide, b.Y + b.High}, {b.X, b.Y + b.High}}
}

func middle(b paper.Box) [2]float64 { return [2]float64{b.X + b.Wide/2, b.Y + b.High/2} }

// seen draws lines that are seen on dark and on light, dashed unless dash is 0.
func (p *printer) seen(lines []edge, dash, high float64) {
	thick := nib(high)
	for _, l := range lines {
		p.Rule(l[0][0], l[0][1], l[1][0], l[1][1], 2.2*thick, paper.Grey(255))
	}
	for _, l := range lines {
		if dash > 0 {
			p.Dashes(l[0][0], l[0][1], l[1][0], l[1][1], thick, dash, paper.Black)
		} else {
			p.Rule(l[0][0], l[0][1], l[1][0], l[1][1], thick, paper.Black)
		}
	}
}

// nib is the thickness of lines on a picture so high, in mm.
func nib(high float64) float64 { return min(0.6, max(0.25, high/140)) }

// arrow draws an arrow, its head at the second point, nothing if it is shorter
// than its head.
func (p *printer) arrow(from, to [2]float64, high float64) {
	dx, dy := to[0]-from[0], to[1]-from[1]
	long := math.Hypot(dx, dy)
	size := 5.5 * nib(high)
	if long < size {
		return
	}
	dx, dy = dx/long, dy/long
	p.seen([]edge{{from, {to[0] - dx*size*0.8, to[1] - dy*size*0.8}}}, 0, high)
	head := func(size, ahead float64, ink color.RGBA) {
		tip := [2]float64{to[0] + dx*ahead, to[1] + dy*ahead}
		x, y := tip[0]-dx*size, tip[1]-dy*size
		p.Polygon([][2]float64{tip, {x - dy*size*0.45, y + dx*size*0.45}, {x + dy*size*0.45, y - dx*size*0.45}}, ink)
	}
	head(size+3*nib(high), 1.3*nib(high), paper.Grey(255))
	head(size, 0, paper.Black)
}
