package picture

import (
	"encoding/binary"
	"image"
	"math"
)

// affine maps pixels of the frame to pixels of a picture: (x, y) to
// (a*x + b*y + c, d*x + e*y + f), both counted from the upper left corner of
// the first pixel.
type affine struct{ a, b, c, d, e, f float64 }

// shrinks returns how many pixels of the picture go into one of the frame.
func (m affine) shrinks() float64 { return math.Hypot(m.a, m.d) }

// after returns the map that m and then scaling by s make.
func (m affine) after(sx, sy float64) affine {
	return affine{m.a * sx, m.b * sx, m.c * sx, m.d * sy, m.e * sy, m.f * sy}
}

// lay draws src, whose bounds begin at 0, over dst as m maps it, within clip.
// Levels between four pixels are mixed in proportion, and towards nothing at
// the edges of src.
func lay(dst *image.RGBA, clip image.Rectangle, src *image.RGBA, m affine) {
	clip = clip.Intersect(dst.Rect)
	if clip.Empty() || src.Rect.Empty() {
		return
	}
	s := sampler{src: src, w: src.Rect.Dx(), h: src.Rect.Dy()}
	inBands(clip.Dy(), rowsAtOnce, func(from, to int) {
		for y := clip.Min.Y + from; y < clip.Min.Y+to; y++ {
			s.row(dst, clip, y, m)
		}
	})
}

type sampler struct {
	src  *image.RGBA
	w, h int
}

// fixedOne is a pixel in the sampler's whole numbers.
const fixedOne = 1 << 16

// row draws one row of dst. Along it the place in src moves by a fixed step.
func (s sampler) row(dst *image.RGBA, clip image.Rectangle, y int, m affine) {
	px, py := float64(clip.Min.X)+0.5, float64(y)+0.5
	u0, v0 := m.a*px+m.b*py+m.c-0.5, m.d*px+m.e*py+m.f-0.5
	// What touches src at all, and what has four pixels of it about it.
	n := clip.Dx()
	from, to := span(n, u0, m.a, -1, float64(s.w))
	from2, to2 := span(n, v0, m.d, -1, float64(s.h))
	from, to = max(from, from2), min(to, to2)
	if from >= to {
		return
	}
	in, out := span(n, u0, m.a, 0.001, float64(s.w)-1.001)
	in2, out2 := span(n, v0, m.d, 0.001, float64(s.h)-1.001)
	in, out = min(max(in, in2, from), to), max(min(out, out2, to), from)
	out = max(in, out)
	pix := dst.Pix[dst.PixOffset(clip.Min.X, y):]
	for x := from; x < in; x++ {
		s.edge(pix[4*x:], u0+m.a*float64(x), v0+m.d*float64(x))
	}
	for x := out; x < to; x++ {
		s.edge(pix[4*x:], u0+m.a*float64(x), v0+m.d*float64(x))
	}
	if in == out {
		return
	}
	u, v := int64((u0+m.a*float64(in))*fixedOne), int64((v0+m.d*float64(in))*fixedOne)
	du, dv := int64(math.Round(m.a*fixedOne)), int64(math.Round(m.d*fixedOne))
	// The step is rounded, which may add up to a part of a pixel over a row.
	n = out - in - 1
	for n >= 0 && !s.within(u+int64(n)*du, v+int64(n)*dv) {
		s.edge(pix[4*(in+n):], u0+m.a*float64(in+n), v0+m.d*float64(in+n))
		n--
	}
	s.inner(pix[4*in:4*(in+n+1)], u, v, du, dv)
}

// within reports whether four pixels lie about a place in the sampler's numbers.
func (s sampler) within(u, v int64) bool {
	return u >= 0 && v >= 0 && u>>16 <= int64(s.w-2) && v>>16 <= int64(s.h-2)
}

// span returns for which x of 0..n the place at + step*x lies in lo..hi.
func span(n int, at, step, lo, hi float64) (int, int) {
	if lo > hi {
		return 0, 0
	}
	if math.Abs(step) < 1e-12 {
		if at >= lo && at <= hi {
			return 0, n
		}
		return 0, 0
	}
	a, z := (lo-at)/step, (hi-at)/step
	if a > z {
		a, z = z, a
	}
	limit := func(v float64) int { return int(math.Min(math.Max(v, 0), float64(n))) }
	return limit(math.Ceil(a)), limit(math.Floor(z) + 1)
}

// inner draws pixels that lie well within src.
func (s sampler) inner(pix []uint8, u, v, du, dv int64) {
	src, stride := s.src.Pix, s.src.Stride
	for ; len(pix) >= 4; pix = pix[4:] {
		o := int(v>>16)*stride + 4*int(u>>16)
		fx, fy := uint64(u>>8)&255, uint64(v>>8)&255
		// Two pixels above and two below, red and blue apart from green and
		// alpha, so that each channel has room for its products.
		top, low := binary.LittleEndian.Uint64(src[o:]), binary.LittleEndian.Uint64(src[o+stride:])
		even, odd := mix(top&lanes, low&lanes, fy), mix(top>>8&lanes, low>>8&lanes, fy)
		all := mix(even&0xffffffff|odd<<32, even>>32|odd&^0xffffffff, fx)
		pixel := uint32(all) | uint32(all>>32)<<8
		if pixel>>24 == 255 {
			binary.LittleEndian.PutUint32(pix, pixel)
		} else {
			over(pix[:4:4], uint8(pixel), uint8(pixel>>8), uint8(pixel>>16), uint8(pixel>>24))
		}
		u, v = u+du, v+dv
	}
}

func spread(p []uint8) uint64 {
	_ = p[3]
	return uint64(p[0]) | uint64(p[1])<<16 | uint64(p[2])<<32 | uint64(p[3])<<48
}

// lanes are four channels of 8 bits with 8 bits of room each, halves a half of
// 256 in each.
const (
	lanes  = 0x00ff00ff00ff00ff
	halves = 0x0080008000800080
)

// mix goes the part f of 256 from a to b in each of four channels.
func mix(a, b, f uint64) uint64 {
	return (a*(256-f) + b*f + halves) >> 8 & lanes
}

// over lays a colour, its alpha multiplied in, over a pixel.
func over(pix []uint8, r, g, b, a uint8) {
	if a == 255 {
		pix[0], pix[1], pix[2], pix[3] = r, g, b, a
		return
	}
	rest := 255 - uint32(a)
	pix[0] = r + uint8((uint32(pix[0])*rest+127)/255)
	pix[1] = g + uint8((uint32(pix[1])*rest+127)/255)
	pix[2] = b + uint8((uint32(pix[2])*rest+127)/255)
	pix[3] = a + uint8((uint32(pix[3])*rest+127)/255)
}

// edge draws a pixel of which some of the four about it may lie outside src.
func (s sampler) edge(pix []uint8, u, v float64) {
	x, y := int(math.Floor(u)), int(math.Floor(v))
	fx, fy := uint64((u-float64(x))*256), uint64((v-float64(y))*256)
	at := func(x, y int) uint64 {
		if x < 0 || y < 0 || x >= s.w || y >= s.h {
			return 0
		}
		o := y*s.src.Stride + 4*x
		return spread(s.src.Pix[o : o+4])
	}
	all := mix(mix(at(x, y), at(x+1, y), fx), mix(at(x, y+1), at(x+1, y+1), fx), fy)
	over(pix[:4:4], uint8(all), uint8(all>>16), uint8(all>>32), uint8(all>>48))
}
