package picture

import (
	"image"
	"image/color"
	"image/draw"
	"math"
	"slices"

	"stillbeat/board"
)

// lens brings places in the frame to pixels: heights of the frame from its
// middle to pixels, (x, y) to (x*scale + dx, y*scale + dy).
type lens struct{ scale, dx, dy float64 }

// lensOf returns the lens of a camera that sees a framing in a picture of
// w x h pixels.
func lensOf(f board.Framing, w, h int) lens {
	k := float64(h) / f.Part()
	return lens{k, float64(w)/2 - f.At.X*k, float64(h)/2 - f.At.Y*k}
}

// at64 is at with all digits.
func (l lens) at64(p board.Point) [2]float64 {
	return [2]float64{p.X*l.scale + l.dx, p.Y*l.scale + l.dy}
}

func (l lens) at(p board.Point) pt {
	return pt{float32(p.X*l.scale + l.dx), float32(p.Y*l.scale + l.dy)}
}

// inkedStroke is a stroke ready to be drawn.
type inkedStroke struct {
	covers []*outline
	ink    color.NRGBA
	erases bool
}

// paintLayer draws one layer of a sketch over dst. Strokes that erase take away
// from their own layer alone.
func paintLayer(dst *image.RGBA, s *board.Sketch, layer board.Layer, l lens) {
	strokes := s.On(layer)
	if !slices.ContainsFunc(strokes, func(k board.Stroke) bool { return k.Erases }) {
		paintStrokes(dst, nil, strokes, l)
		return
	}
	paintStrokes(image.NewRGBA(dst.Rect), dst, strokes, l)
}

// paintStrokes draws strokes on an image and then lays that over another, if
// there is one. It returns the pixels that may have changed.
func paintStrokes(on, over *image.RGBA, strokes []board.Stroke, l lens) image.Rectangle {
	if len(strokes) == 0 {
		return image.Rectangle{}
	}
	dots := 0
	for _, k := range strokes {
		dots += len(k.Dots)
	}
	most := max(1, maxLines/max(1, dots))
	inks := make([]inkedStroke, len(strokes))
	inBands(len(strokes), 1, func(from, to int) {
		for i, k := range strokes[from:to] {
			inks[from+i] = inkedStroke{strokeOutlines(&k, l, most), k.Ink, k.Erases}
		}
	})
	touched := image.Rectangle{}
	for _, k := range inks {
		for _, o := range k.covers {
			touched = touched.Union(o.box(on.Rect))
		}
	}
	// Each goroutine draws all strokes, in order, in rows of its own.
	inBands((touched.Dy()+bandRows-1)/bandRows, 1, func(from, to int) {
		own := image.Rect(touched.Min.X, touched.Min.Y+from*bandRows, touched.Max.X, min(touched.Max.Y, touched.Min.Y+to*bandRows))
		rows := on.SubImage(own).(*image.RGBA)
		for _, k := range inks {
			for _, o := range k.covers {
				if k.erases {
					o.erase(rows)
				} else {
					o.paint(rows, k.ink)
				}
			}
		}
		if over != nil {
			draw.Draw(over, rows.Rect, rows, rows.Rect.Min, draw.Over)
		}
	})
	return touched
}

// maxLines is about how many straight lines the strokes of a layer are made of
// at the most, which keeps memory bounded.
const maxLines = 1 << 20

// strokeOutlines returns what a stroke covers: its inside, which may wind both
// ways, and its line, of at most so many straight lines from dot to dot.
func strokeOutlines(k *board.Stroke, l lens, most int) []*outline {
	line := flatten(k, l, most)
	var out []*outline
	if k.Filled && len(line) > 2 {
		inside := &outline{}
		for _, d := range line {
			inside.points = append(inside.points, d.pt)
		}
		inside.add(0)
		out = append(out, inside)
	}
	if k.Width > 0 {
		pen := &outline{}
		pen.pen(line, k.Closed)
		out = append(out, pen)
	}
	return out
}

// dot is a place of the pen in pixels, with half the width it draws there.
type dot struct {
	pt
	half float32
}

// flatten returns the places the pen goes through, near enough to each other
// to be joined by straight lines.
func flatten(k *board.Stroke, l lens, most int) []dot {
	unit := l.scale / board.SketchUnit
	at := func(d board.Dot) dot {
		half := float32(float64(k.Width) * float64(d.Wide) / 255 / 2 * unit)
		return dot{pt{float32(float64(d.X)*unit + l.dx), float32(float64(d.Y)*unit + l.dy)}, half}
	}
	dots := make([]dot, 0, len(k.Dots))
	for _, d := range k.Dots {
		p := at(d)
		if n := len(dots); n > 0 && dots[n-1].pt == p.pt {
			dots[n-1].half = max(dots[n-1].half, p.half)
			continue
		}
		dots = append(dots, p)
	}
	if n := len(dots); k.Closed && n > 1 && dots[0].pt == dots[n-1].pt {
		dots = dots[:n-1]
	}
	if k.Smooth && len(dots) > 2 {
		dots = smooth(dots, k.Closed, most)
	}
	return dots
}

// smooth returns a centripetal Catmull-Rom curve through the dots (Yuksel,
// Schaefer and Keyser, Computer-Aided Design 43, 2011: it has neither loops nor
// cusps between dots), in steps as short as it bends, at most so many from dot
// to dot.
func smooth(dots []dot, closed bool, most int) []dot {
	n := len(dots)
	spans := n - 1
	if closed {
		spans = n
	}
	get := func(i int) dot {
		if closed {
			return dots[(i+n)%n]
		}
		return dots[min(max(i, 0), n-1)]
	}
	out := make([]dot, 0, 4*n)
	for i := range spans {
		a, b, c, d := get(i-1), get(i), get(i+1), get(i+2)
		out = append(out, b)
		steps := min(stepsOf(a.pt, b.pt, c.pt, d.pt), most)
		if steps < 2 {
			continue
		}
		in, away := tangents(a.pt, b.pt, c.pt, d.pt)
		for s := 1; s < steps; s++ {
			t := float32(s) / float32(steps)
			h00, h10 := (1+2*t)*(1-t)*(1-t), t*(1-t)*(1-t)
			h01, h11 := t*t*(3-2*t), t*t*(t-1)
			out = append(out, dot{
				pt{h00*b.x + h10*in.x + h01*c.x + h11*away.x, h00*b.y + h10*in.y + h01*c.y + h11*away.y},
				b.half + (c.half-b.half)*t,
			})
		}
	}
	if !closed {
		out = append(out, dots[n-1])
	}
	return out
}

// tangents returns the curve's tangents at b and c of the span between them.
func tangents(a, b, c, d pt) (in, out pt) {
	t01, t12, t23 := knot(a, b), knot(b, c), knot(c, d)
	if t12 == 0 {
		return pt{}, pt{}
	}
	in, out = pt{c.x - b.x, c.y - b.y}, pt{c.x - b.x, c.y - b.y}
	if t01 > 0 {
		f, g := t12/t01, t12/(t01+t12)
		in.x += (b.x-a.x)*f - (c.x-a.x)*g
		in.y += (b.y-a.y)*f - (c.y-a.y)*g
	}
	if t23 > 0 {
		f, g := t12/t23, t12/(t12+t23)
		out.x += (d.x-c.x)*f - (d.x-b.x)*g
		out.y += (d.y-c.y)*f - (d.y-b.y)*g
	}
	return in, out
}

// knot is the square root of the distance, which makes the curve centripetal.
func knot(a, b pt) float32 {
	return float32(math.Sqrt(math.Hypot(float64(b.x-a.x), float64(b.y-a.y))))
}

// stepsOf returns in how many straight lines the span from b to c is drawn: by
// how far the dots about it lie off a straight line.
func stepsOf(a, b, c, d pt) int {
	bx, by := c.x-b.x, c.y-b.y
	long := hypot(bx, by)
	if long < 2 {
		return 1
	}
	off := func(p, q, r pt) float32 { // how sharply p, q, r turn, 0 to 2
		x0, y0, x1, y1 := q.x-p.x, q.y-p.y, r.x-q.x, r.y-q.y
		n := hypot(x0, y0) * hypot(x1, y1)
		if n == 0 {
			return 0
		}
		return 1 - (x0*x1+y0*y1)/n
	}
	bend := max(off(a, b, c), off(b, c, d))
	// A span that turns by the angle w strays about long*w/8 from its chord;
	// n steps bring that down by n squared. A twentieth of a pixel is not seen.
	w := math.Sqrt(2 * float64(bend))
	return min(max(1, int(math.Ceil(math.Sqrt(float64(long)*w/8/0.05)))), 200)
}

func hypot(x, y float32) float32 { return float32(math.Hypot(float64(x), float64(y))) }

// pen adds what a round nib covers on its way along the line.
func (o *outline) pen(line []dot, closed bool) {
	n := len(line)
	if n == 0 {
		return
	}
	if n == 1 {
		o.disc(line[0])
		return
	}
	spans := n - 1
	if closed {
		spans = n
	}
	joint := make([]pt, spans) // the direction across each span, of length 1
	for i := range spans {
		a, b := line[i], line[(i+1)%n]
		dx, dy := b.x-a.x, b.y-a.y
		if long := hypot(dx, dy); long > 0 {
			joint[i] = pt{-dy / long, dx / long}
		} else if i > 0 {
			joint[i] = joint[i-1]
		}
	}
	o.points, o.shapes = slices.Grow(o.points, 5*spans+32), slices.Grow(o.shapes, spans+8)
	// Where the line bends little, both spans end on one line across it, so
	// that they meet without a seam; where it bends much, the corner is rounded
	// on its outer side. Nothing may lie on what lies beside it already: where
	// two edges cover a part of a pixel each, the parts are added up.
	across := func(i int) pt { // at the start of span i, or its end if i is spans
		if !closed && (i == 0 || i == spans) {
			return joint[min(i, spans-1)]
		}
		p, q := joint[(i-1+spans)%spans], joint[i%spans]
		x, y := p.x+q.x, p.y+q.y
		square := x*x + y*y
		const little = 3.8 // of 4: a bend of about 26 degrees
		if square < little {
			return pt{}
		}
		return pt{2 * x / square, 2 * y / square}
	}
	for i := range spans {
		a, b := line[i], line[(i+1)%n]
		na, nb := across(i), across(i+1)
		if na == (pt{}) {
			na = joint[i]
			o.corner(a, joint[(i-1+spans)%spans], joint[i])
		}
		if nb == (pt{}) {
			nb = joint[i]
		}
		o.quad(
			pt{a.x + na.x*a.half, a.y + na.y*a.half}, pt{b.x + nb.x*b.half, b.y + nb.y*b.half},
			pt{b.x - nb.x*b.half, b.y - nb.y*b.half}, pt{a.x - na.x*a.half, a.y - na.y*a.half},
		)
	}
	if !closed {
		first, last := joint[0], joint[spans-1]
		o.pie(line[0], first, math.Pi)
		o.pie(line[n-1], pt{-last.x, -last.y}, math.Pi)
	}
}

// corner rounds the outer side of a line that turns at d; p and q, of length 1,
// lie across it before and after.
func (o *outline) corner(d dot, p, q pt) {
	turn := math.Atan2(float64(p.x*q.y-p.y*q.x), float64(p.x*q.x+p.y*q.y))
	if turn > 0 { // towards the side of p: the other one is outside
		p = pt{-p.x, -p.y}
	}
	o.pie(d, p, turn)
}

// pie adds the part of a circle from the direction p on, of length 1, by an
// angle.
func (o *outline) pie(d dot, p pt, angle float64) {
	if d.half <= 0 {
		return
	}
	n := max(1, int(math.Ceil(math.Abs(angle)/(2*math.Pi)*float64(roundness(d.half)))))
	round := make([]pt, 0, n+2)
	round = append(round, d.pt)
	for i := range n + 1 {
		s, c := math.Sincos(angle * float64(i) / float64(n))
		x, y := d.half*(p.x*float32(c)-p.y*float32(s)), d.half*(p.x*float32(s)+p.y*float32(c))
		round = append(round, pt{d.x + x, d.y + y})
	}
	o.shape(round...)
}

// quad adds a shape of four corners, as two of three where it would wind both
// ways.
func (o *outline) quad(a, b, c, d pt) {
	one, two := area([]pt{a, b, c}), area([]pt{a, c, d})
	if one*two >= 0 {
		o.shape(a, b, c, d)
		return
	}
	o.shape(a, b, c)
	o.shape(a, c, d)
}

// roundness returns of how many straight lines a circle is made so that they
// stray less than a twentieth of a pixel from it.
func roundness(radius float32) int {
	return min(max(12, int(math.Ceil(math.Pi/math.Acos(1-min(0.05/float64(radius), 1))))), 512)
}

// disc adds a circle.
func (o *outline) disc(d dot) {
	if d.half <= 0 {
		return
	}
	n := roundness(d.half)
	from := len(o.points)
	for i := range n {
		s, c := math.Sincos(2 * math.Pi * float64(i) / float64(n))
		o.points = append(o.points, pt{d.x + d.half*float32(c), d.y + d.half*float32(s)})
	}
	o.add(from)
}
