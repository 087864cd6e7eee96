package picture

import (
	"cmp"
	"image"
	"image/color"
	"image/draw"
	"math"
	"slices"

	"golang.org/x/image/vector"
)

// pt is a point in pixels, y down.
type pt struct{ x, y float32 }

// outline is what a pen or a letter covers: the union of closed shapes. Where
// they wind about a place more than once it is covered once.
type outline struct {
	points []pt
	shapes []part
}

// part is one closed shape: points from..to, and how far they reach.
type part struct {
	from, to    int
	top, low    float32
	left, right float32
}

// add closes the shape made of the points from the given one on.
func (o *outline) add(from int) {
	p := part{from, len(o.points), math.MaxFloat32, -math.MaxFloat32, math.MaxFloat32, -math.MaxFloat32}
	for _, q := range o.points[from:] {
		p.top, p.low = min(p.top, q.y), max(p.low, q.y)
		p.left, p.right = min(p.left, q.x), max(p.right, q.x)
	}
	o.shapes = append(o.shapes, p)
}

// shape adds a closed shape, turned so that all of them wind the same way.
func (o *outline) shape(p ...pt) {
	from := len(o.points)
	if area(p) >= 0 {
		o.points = append(o.points, p...)
	} else {
		for i := len(p) - 1; i >= 0; i-- {
			o.points = append(o.points, p[i])
		}
	}
	o.add(from)
}

// area is twice the area of a shape, negative if it winds the other way.
func area(p []pt) float32 {
	var sum float32
	for i, a := range p {
		b := p[(i+1)%len(p)]
		sum += a.x*b.y - b.x*a.y
	}
	return sum
}

// bandRows is how many rows are covered at a time. A long slanting line then
// looks at few pixels that it does not touch.
const bandRows = 16

// reach is from where to where a shape reaches across a band.
type reach struct {
	left, right float32
	part
}

// bands calls do for each stretch of each band of rows that the outline touches
// in clip, with a rasteriser that has taken it up and the pixels it is about.
func (o *outline) bands(clip image.Rectangle, do func(z *vector.Rasterizer, r image.Rectangle)) {
	var z vector.Rasterizer
	var row []reach
	top, low := float32(math.MaxFloat32), float32(-math.MaxFloat32)
	for _, s := range o.shapes {
		top, low = min(top, s.top), max(low, s.low)
	}
	x0, x1 := float32(clip.Min.X), float32(clip.Max.X)
	first := clip.Min.Y + int(max(top, float32(clip.Min.Y))-float32(clip.Min.Y))/bandRows*bandRows
	for y := first; y < clip.Max.Y && float32(y) < low; y += bandRows {
		r := image.Rect(clip.Min.X, y, clip.Max.X, min(y+bandRows, clip.Max.Y))
		row = row[:0]
		for _, s := range o.shapes {
			if s.low > float32(r.Min.Y) && s.top < float32(r.Max.Y) && s.right > x0 && s.left < x1 {
				row = append(row, reach{max(s.left, x0), min(s.right, x1), s})
			}
		}
		slices.SortFunc(row, func(a, b reach) int { return cmp.Compare(a.left, b.left) })
		for len(row) > 0 {
			n, right := 1, row[0].right
			for n < len(row) && row[n].left < right+2 { // a pixel apart at least
				right = max(right, row[n].right)
				n++
			}
			r.Min.X, r.Max.X = int(row[0].left), min(int(right)+1, clip.Max.X)
			if !r.Empty() {
				o.take(&z, row[:n], r)
				do(&z, r)
			}
			row = row[n:]
		}
	}
}

// take makes a rasteriser cover shapes in the pixels r.
func (o *outline) take(z *vector.Rasterizer, shapes []reach, r image.Rectangle) {
	z.Reset(r.Dx(), r.Dy())
	ox, oy := float32(r.Min.X), float32(r.Min.Y)
	for _, s := range shapes {
		p := o.points[s.from:s.to]
		z.MoveTo(p[0].x-ox, p[0].y-oy)
		for _, q := range p[1:] {
			z.LineTo(q.x-ox, q.y-oy)
		}
		z.ClosePath()
	}
}

// box returns the pixels of an image that the outline may touch.
func (o *outline) box(clip image.Rectangle) image.Rectangle {
	r := image.Rectangle{}
	for _, s := range o.shapes {
		if s.right < float32(clip.Min.X) || s.left > float32(clip.Max.X) || s.low < float32(clip.Min.Y) || s.top > float32(clip.Max.Y) {
			continue
		}
		left, top := max(s.left, float32(clip.Min.X)), max(s.top, float32(clip.Min.Y))
		right, low := min(s.right, float32(clip.Max.X)), min(s.low, float32(clip.Max.Y))
		r = r.Union(image.Rect(int(left), int(top), int(right)+2, int(low)+2).Intersect(clip))
	}
	return r
}

// paint lays a colour over what the outline covers of dst.
func (o *outline) paint(dst *image.RGBA, c color.Color) {
	src := image.NewUniform(c)
	o.bands(dst.Rect, func(z *vector.Rasterizer, r image.Rectangle) {
		z.DrawOp = draw.Over
		z.Draw(dst, r, src, image.Point{})
	})
}

// erase makes what the outline covers of dst clear.
func (o *outline) erase(dst *image.RGBA) {
	var mask *image.Alpha
	o.bands(dst.Rect, func(z *vector.Rasterizer, r image.Rectangle) {
		if mask == nil || mask.Rect.Dx() < r.Dx() {
			mask = image.NewAlpha(image.Rect(0, 0, dst.Rect.Dx(), bandRows))
		}
		within := image.Rectangle{Max: r.Size()}
		z.DrawOp = draw.Src
		z.Draw(mask, within, image.Opaque, image.Point{})
		for y := range within.Max.Y {
			pix := dst.Pix[dst.PixOffset(r.Min.X, r.Min.Y+y):]
			for x, a := range mask.Pix[y*mask.Stride:][:within.Max.X] {
				if a == 0 {
					continue
				}
				for c := 4 * x; c < 4*x+4; c++ {
					pix[c] = uint8((uint32(pix[c])*(255-uint32(a)) + 127) / 255)
				}
			}
		}
	})
}
