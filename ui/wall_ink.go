package ui

import (
	"encoding/binary"
	"image"
)

// drawn returns the part of a picture that is not clear.
func drawn(img *image.RGBA) image.Rectangle {
	var out image.Rectangle
	for y := img.Rect.Min.Y; y < img.Rect.Max.Y; y++ {
		for x := img.Rect.Min.X; x < img.Rect.Max.X; x++ {
			if img.RGBAAt(x, y).A != 0 {
				out = out.Union(image.Rect(x, y, x+1, y+1))
			}
		}
	}
	return out
}

// stretch draws src over the rectangle, pixel by pixel where it has another
// size: it stands in for a sharp one.
func stretch(dst *image.RGBA, at image.Rectangle, src *image.RGBA) {
	in := at.Intersect(dst.Rect)
	if in.Empty() || src.Rect.Empty() {
		return
	}
	same := src.Rect.Size() == at.Size()
	last := -1
	for y := in.Min.Y; y < in.Max.Y; y++ {
		row := dst.Pix[dst.PixOffset(in.Min.X, y):dst.PixOffset(in.Max.X, y)]
		if same {
			copy(row, src.Pix[src.PixOffset(src.Rect.Min.X+in.Min.X-at.Min.X, src.Rect.Min.Y+y-at.Min.Y):])
			continue
		}
		sy := (y - at.Min.Y) * src.Rect.Dy() / at.Dy()
		if sy == last {
			copy(row, dst.Pix[dst.PixOffset(in.Min.X, y-1):])
			continue
		}
		last = sy
		from := src.Pix[sy*src.Stride:]
		step := (uint64(src.Rect.Dx())<<32 + uint64(at.Dx()) - 1) / uint64(at.Dx()) // rounded up, not to fall short of a pixel
		sx := uint64(in.Min.X-at.Min.X) * step
		for i := 0; i+4 <= len(row); i += 4 {
			binary.LittleEndian.PutUint32(row[i:], binary.LittleEndian.Uint32(from[sx>>32<<2:]))
			sx += step
		}
	}
}

// fade mixes three parts of paper into what is drawn in the rectangle.
func (p pen) fade(x0, y0, x1, y1 float64) {
	r := image.Rect(p.px(x0), p.px(y0), p.px(x1), p.px(y1)).Intersect(p.img.Rect)
	c := paper.rgba()
	add := uint64(c.R/4*3) | uint64(c.G/4*3)<<8 | uint64(c.B/4*3)<<16 | uint64(0xff-0xff/4)<<24
	add |= add << 32 // two pixels at a time
	for y := r.Min.Y; y < r.Max.Y; y++ {
		row := p.img.Pix[p.img.PixOffset(r.Min.X, y):p.img.PixOffset(r.Max.X, y)]
		for ; len(row) >= 8; row = row[8:] {
			binary.LittleEndian.PutUint64(row, binary.LittleEndian.Uint64(row)>>2&0x3f3f3f3f3f3f3f3f+add)
		}
		if len(row) == 4 {
			binary.LittleEndian.PutUint32(row, binary.LittleEndian.Uint32(row)>>2&0x3f3f3f3f+uint32(add))
		}
	}
}

// shortened cuts s to the width, with dots for what is missing.
func (p pen) shortened(s string, size float64, bold bool, width float64) string {
	if p.width(size, bold, s) <= width {
		return s
	}
	room := width - p.width(size, bold, "…")
	l, at := lettersOf(size*p.scale, bold), 0.0
	for k, r := range s {
		if at += l.advance(r) / p.scale; at > room {
			if k == 0 {
				return ""
			}
			return s[:k] + "…"
		}
	}
	return s
}
