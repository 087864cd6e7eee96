package ui

import (
	"image"
	"image/color"
	"image/draw"

	"stillbeat/board/picture"
)

// Strength of the onion's two skins, of 256.
const (
	beforeStrength = 250
	afterStrength  = 190
)

// onionKey is what an onion was made of: pictures are never drawn on, so their
// place in memory tells them apart.
type onionKey struct {
	now, before, after *image.RGBA
	w, h               int
}

// onion returns the picture with the outlines of the one before and of the one
// after laid over it in two tints: those of the one before in full lines, those
// of the one after dashed and weaker. Any of the three may be nil.
func onion(k onionKey) *image.RGBA {
	out := image.NewRGBA(image.Rect(0, 0, k.w, k.h))
	if k.now != nil {
		copy(out.Pix, k.now.Pix)
	} else {
		draw.Draw(out, out.Rect, image.NewUniform(picture.Blank), image.Point{}, draw.Src)
	}
	lumas := make([]uint8, k.w*k.h)
	skin(out, k.before, lumas, onionBefore.rgba(), beforeStrength, 0)
	skin(out, k.after, lumas, onionAfter.rgba(), afterStrength, max(3, k.w/160))
	return out
}

// skin lays the outlines of src over dst, which may be clear, in a colour, in dashes of a length in
// pixels or, with 0, whole. It uses lumas, a byte for each pixel.
func skin(dst, src *image.RGBA, lumas []uint8, colour color.RGBA, strength, dash int) {
	if src == nil || src.Rect != dst.Rect {
		return
	}
	w, h := dst.Rect.Dx(), dst.Rect.Dy()
	for y := range h {
		from, to := src.Pix[y*src.Stride:y*src.Stride+4*w], lumas[y*w:(y+1)*w]
		for x := range to {
			s := from[4*x : 4*x+3 : 4*x+3]
			// Luma of ITU-R BT.601 in 256ths.
			to[x] = uint8((77*uint32(s[0]) + 150*uint32(s[1]) + 29*uint32(s[2])) >> 8)
		}
	}
	const faint = 24 // a step of luma that is no outline yet
	reach := max(1, w/640)
	for y := reach; y < h-reach; y++ {
		row, up, down := lumas[y*w:(y+1)*w], lumas[(y-reach)*w:], lumas[(y+reach)*w:]
		for x := reach; x < w-reach; x++ {
			across, along := int(row[x+reach])-int(row[x-reach]), int(down[x])-int(up[x])
			edge := max(across, -across) + max(along, -along) - faint
			if edge <= 0 || dash > 0 && (x+y)/dash&1 == 1 {
				continue
			}
			a := uint32(min(255, 3*edge) * strength >> 8)
			d := dst.Pix[y*dst.Stride+4*x:][:4:4]
			d[0] = uint8((uint32(d[0])*(255-a) + uint32(colour.R)*a) / 255)
			d[1] = uint8((uint32(d[1])*(255-a) + uint32(colour.G)*a) / 255)
			d[2] = uint8((uint32(d[2])*(255-a) + uint32(colour.B)*a) / 255)
			d[3] = uint8((uint32(d[3])*(255-a) + 255*a) / 255)
		}
	}
}
