package picture

import (
	"image"
	"math"

	"stillbeat/board"
)

// stored is a picture as its file has it, and the turn that sets it upright.
type stored struct {
	img image.Image
	turn
}

// size returns the size of the picture upright.
func (s stored) size() image.Point { return s.upright(s.img.Bounds().Size()) }

// high returns how high a picture of a shape (width by height) is in a frame of
// a shape, in heights of the frame.
func high(p board.Placement, picture, frame float64) float64 {
	fit := math.Min(1, frame/picture)
	switch p.Fit {
	case board.Filled:
		return math.Max(1, frame/picture)
	case board.ByHand:
		return fit * p.Times()
	}
	return fit
}

// mapOf returns where in a picture of a size the pixels of the frame lie.
func mapOf(p board.Placement, size image.Point, eye lens, frame float64) affine {
	pw, ph := float64(size.X), float64(size.Y)
	k := ph / high(p, pw/ph, frame) // pixels of the picture in the height of the frame
	sin, cos := math.Sincos(p.Turn * math.Pi / 180)
	flip := 1.0
	if p.Flip {
		flip = -1
	}
	z := k / eye.scale
	// From the frame's pixel to the place relative to the middle of the
	// picture, turned back, flipped, and counted from its corner.
	m := affine{a: flip * z * cos, b: flip * z * sin, d: -z * sin, e: z * cos}
	x0, y0 := -eye.dx-p.At.X*eye.scale, -eye.dy-p.At.Y*eye.scale
	m.c = m.a*x0 + m.b*y0 + pw/2
	m.f = m.d*x0 + m.e*y0 + ph/2
	return m
}

// crop is a part of an upright picture in so many pixels of the frame: what is
// seen of a photograph that stands still and straight.
type crop struct {
	part box
	flip bool
	at   image.Rectangle // where it lies in the frame
}

// cropOf returns what is seen of a picture in a frame of w x h pixels, its edges
// on whole pixels; nothing of it may be seen.
func cropOf(p board.Placement, size image.Point, eye lens, w, h int) crop {
	pw, ph := float64(size.X), float64(size.Y)
	tall := high(p, pw/ph, float64(w)/float64(h)) * eye.scale
	middle := eye.at64(p.At)
	x0, x1 := wholeEdges(middle[0], tall*pw/ph)
	y0, y1 := wholeEdges(middle[1], tall)
	r := image.Rect(x0, y0, x1, y1)
	seen := r.Intersect(image.Rect(0, 0, w, h))
	if seen.Empty() {
		return crop{}
	}
	along := func(at, from, to int, size float64) float64 { return float64(at-from) / float64(to-from) * size }
	c := crop{at: seen, flip: p.Flip, part: box{
		along(seen.Min.X, x0, x1, pw), along(seen.Min.Y, y0, y1, ph),
		along(seen.Max.X, x0, x1, pw), along(seen.Max.Y, y0, y1, ph),
	}}
	if c.flip {
		c.part.x0, c.part.x1 = pw-c.part.x1, pw-c.part.x0
	}
	return c
}

// wholeEdges returns the whole pixels that a length about a middle takes.
func wholeEdges(middle, length float64) (int, int) {
	const far = 1 << 30
	n := max(1, int(min(math.Round(length), far)))
	from := int(math.Floor(min(max(middle-float64(n)/2+1e-6, -far), far)))
	return from, from + n
}

// scaled is a part of a picture in pixels of the frame.
type scaled struct {
	*image.RGBA
	opaque bool
}

// cut returns the crop of a picture in its pixels of the frame.
func (s stored) cut(c crop) scaled {
	lying := s.upright(c.at.Size())
	out := s.turned(resample(s.img, s.lying(c.part), lying.X, lying.Y))
	if c.flip {
		mirror(out)
	}
	return scaled{out, isOpaque(s.img)}
}

// lying returns where a part of the upright picture lies in the stored one.
func (s stored) lying(b box) box {
	size := s.size()
	w, h := float64(size.X), float64(size.Y)
	switch s.turn {
	case 2:
		return box{w - b.x1, b.y0, w - b.x0, b.y1}
	case 3:
		return box{w - b.x1, h - b.y1, w - b.x0, h - b.y0}
	case 4:
		return box{b.x0, h - b.y1, b.x1, h - b.y0}
	case 5:
		return box{b.y0, b.x0, b.y1, b.x1}
	case 6:
		return box{b.y0, w - b.x1, b.y1, w - b.x0}
	case 7:
		return box{h - b.y1, w - b.x1, h - b.y0, w - b.x0}
	case 8:
		return box{h - b.y1, b.x0, h - b.y0, b.x1}
	}
	return b
}

// mirror changes left and right over.
func mirror(img *image.RGBA) {
	w := img.Rect.Dx()
	for y := range img.Rect.Dy() {
		row := img.Pix[y*img.Stride:][:4*w]
		for i, j := 0, 4*(w-1); i < j; i, j = i+4, j-4 {
			a, b := row[i:i+4:i+4], row[j:j+4:j+4]
			a[0], a[1], a[2], a[3], b[0], b[1], b[2], b[3] = b[0], b[1], b[2], b[3], a[0], a[1], a[2], a[3]
		}
	}
}

// Pictures that move or are turned are drawn from a smaller one, each half as
// many pixels as the one before: levelSize tells how large number k is, and
// levelFor which of them still has a pixel for each of the frame.
func levelSize(size image.Point, k int) image.Point {
	by := math.Pow(2, -float64(k)/2)
	return image.Pt(max(1, int(math.Round(float64(size.X)*by))), max(1, int(math.Round(float64(size.Y)*by))))
}

func levelFor(m affine) int {
	return max(0, int(2*math.Log2(math.Max(m.shrinks(), 1))+1e-9))
}

// level returns the picture upright, as large as levelSize says.
func (s stored) level(k int) *image.RGBA {
	to := s.upright(levelSize(s.size(), k))
	b := s.img.Bounds()
	return s.turned(resample(s.img, box{0, 0, float64(b.Dx()), float64(b.Dy())}, to.X, to.Y))
}
