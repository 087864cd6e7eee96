// Package ink draws like a pen and a brush: flat washes inside soft masks and
// ink lines whose width breathes. It knows pixels and nothing of space.
package ink

import (
	"image"
	"image/color"
	"image/draw"
	"math"

	"golang.org/x/image/vector"
)

// margin is how far, in pixels, masks reach beyond the picture, so that an
// outline running out of the frame is not drawn along its edge.
const margin = 8

// Pt is a point in pixels, y down.
type Pt struct{ X, Y float64 }

// Canvas paints on an opaque picture. Use it on one goroutine.
type Canvas struct {
	Img  *image.RGBA
	Unit float64 // pixels per design unit; a picture 720 pixels high has 1

	// Clip, when set, keeps everything drawn inside it.
	Clip *image.Alpha

	raster vector.Rasterizer
}

// NewCanvas returns a canvas that paints on img.
func NewCanvas(img *image.RGBA) *Canvas {
	return &Canvas{Img: img, Unit: float64(img.Bounds().Dy()) / 720}
}

// Mask returns the union of the polygons, each filled whatever its direction,
// cut to the picture plus a small margin. It is nil when nothing is left.
func (c *Canvas) Mask(polys ...[]Pt) *image.Alpha {
	box := boundsOf(polys).Intersect(c.Img.Bounds().Inset(-margin))
	if box.Empty() {
		return nil
	}
	z := &c.raster
	z.Reset(box.Dx(), box.Dy())
	z.DrawOp = draw.Src
	for _, p := range polys {
		addPolygon(z, cropped(p, c.Img.Bounds()), box.Min)
	}
	mask := image.NewAlpha(box)
	z.Draw(mask, box, image.Opaque, image.Point{})
	if c.Clip != nil {
		return Within(mask, c.Clip)
	}
	return mask
}

// addPolygon adds p to z, always turning the same way, so that overlapping
// polygons add up to their union.
func addPolygon(z *vector.Rasterizer, p []Pt, origin image.Point) {
	if len(p) < 3 {
		return
	}
	at := func(i int) (float32, float32) {
		return float32(p[i].X - float64(origin.X)), float32(p[i].Y - float64(origin.Y))
	}
	n := len(p)
	if area(p) >= 0 {
		z.MoveTo(at(0))
		for i := 1; i < n; i++ {
			z.LineTo(at(i))
		}
	} else {
		z.MoveTo(at(n - 1))
		for i := n - 2; i >= 0; i-- {
			z.LineTo(at(i))
		}
	}
	z.ClosePath()
}

// area is twice the signed area of the polygon p.
func area(p []Pt) float64 {
	sum := 0.0
	for i := range p {
		q := p[(i+1)%len(p)]
		sum += p[i].X*q.Y - q.X*p[i].Y
	}
	return sum
}

func boundsOf(polys [][]Pt) image.Rectangle {
	x0, y0, x1, y1 := math.Inf(1), math.Inf(1), math.Inf(-1), math.Inf(-1)
	for _, p := range polys {
		for _, q := range p {
			x0, x1 = min(x0, q.X), max(x1, q.X)
			y0, y1 = min(y0, q.Y), max(y1, q.Y)
		}
	}
	if x0 > x1 {
		return image.Rectangle{}
	}
	limit := func(v float64) int { return int(min(max(v, -1e6), 1e6)) }
	return image.Rect(limit(math.Floor(x0))-1, limit(math.Floor(y0))-1, limit(math.Ceil(x1))+1, limit(math.Ceil(y1))+1)
}

// Paint lays colour over the picture through mask with opacity 0..1.
func (c *Canvas) Paint(mask *image.Alpha, col color.RGBA, opacity float64) {
	c.PaintFunc(mask, opacity, func(int, int) color.RGBA { return col })
}

// PaintFunc lays a colour that changes from pixel to pixel through mask.
func (c *Canvas) PaintFunc(mask *image.Alpha, opacity float64, at func(x, y int) color.RGBA) {
	c.each(mask, opacity, func(pix []uint8, x, y int, a uint32) {
		col := at(x, y)
		pix[0] = lay(pix[0], col.R, a)
		pix[1] = lay(pix[1], col.G, a)
		pix[2] = lay(pix[2], col.B, a)
	})
}

// Glaze multiplies the picture by colour through mask: a transparent wash, as
// used for shadows. White changes nothing.
func (c *Canvas) Glaze(mask *image.Alpha, col color.RGBA, opacity float64) {
	c.each(mask, opacity, func(pix []uint8, _, _ int, a uint32) {
		pix[0] = lay(pix[0], uint8(uint32(pix[0])*uint32(col.R)/255), a)
		pix[1] = lay(pix[1], uint8(uint32(pix[1])*uint32(col.G)/255), a)
		pix[2] = lay(pix[2], uint8(uint32(pix[2])*uint32(col.B)/255), a)
	})
}

// each visits the pixels under mask; a is the coverage, 0..65280.
func (c *Canvas) each(mask *image.Alpha, opacity float64, do func(pix []uint8, x, y int, a uint32)) {
	if mask == nil {
		return
	}
	scale := uint32(min(max(opacity, 0), 1) * 256)
	r := mask.Rect.Intersect(c.Img.Bounds())
	for y := r.Min.Y; y < r.Max.Y; y++ {
		row := mask.Pix[mask.PixOffset(r.Min.X, y):]
		o := c.Img.PixOffset(r.Min.X, y)
		for x := r.Min.X; x < r.Max.X; x++ {
			if a := uint32(row[x-r.Min.X]) * scale; a != 0 {
				do(c.Img.Pix[o:o+4:o+4], x, y, a)
			}
			o += 4
		}
	}
}

// lay mixes from towards to by a/65280.
func lay(from, to uint8, a uint32) uint8 {
	return uint8((uint32(from)*(65280-a) + uint32(to)*a + 32640) / 65280)
}

// Fill covers the whole picture with an opaque colour.
func (c *Canvas) Fill(col color.RGBA) {
	r := c.Img.Bounds()
	for y := r.Min.Y; y < r.Max.Y; y++ {
		row := c.Img.Pix[c.Img.PixOffset(r.Min.X, y):c.Img.PixOffset(r.Max.X, y)]
		for i := 0; i < len(row); i += 4 {
			row[i], row[i+1], row[i+2], row[i+3] = col.R, col.G, col.B, 255
		}
	}
}
