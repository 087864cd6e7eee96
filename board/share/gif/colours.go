package gif

import (
	"image"
	"image/color"

	"github.com/ericpauley/go-quantize/quantize"
)

// quantizer finds 256 colours for a picture and which of them each pixel takes.
type quantizer struct {
	nearest [1 << 15]int16 // of colours at 5 bits a channel, -1 while not looked for
	pixels  []byte
	sample  *image.RGBA
}

// mostSampled is how many pixels of a picture its colours are chosen by.
const mostSampled = 1 << 16

// of returns a palette for a part of a picture, three bytes a colour, and its
// pixels row by row. The slice is good until the next call.
func (q *quantizer) of(img *image.RGBA, part image.Rectangle) (palette [3 * 256]byte, pixels []byte) {
	colours := quantize.MedianCutQuantizer{}.Quantize(make(color.Palette, 0, 256), q.thinned(img, part))
	for i, c := range colours {
		r, g, b, _ := c.RGBA()
		palette[3*i], palette[3*i+1], palette[3*i+2] = byte(r>>8), byte(g>>8), byte(b>>8)
	}
	for i := range q.nearest {
		q.nearest[i] = -1
	}
	q.pixels = q.pixels[:0]
	for y := part.Min.Y; y < part.Max.Y; y++ {
		row := img.Pix[y*img.Stride+4*part.Min.X:][:4*part.Dx()]
		for i := 0; i < len(row); i += 4 {
			key := int(row[i]>>3)<<10 | int(row[i+1]>>3)<<5 | int(row[i+2]>>3)
			k := q.nearest[key]
			if k < 0 {
				k = nearest(palette[:3*max(1, len(colours))], row[i], row[i+1], row[i+2])
				q.nearest[key] = k
			}
			q.pixels = append(q.pixels, byte(k))
		}
	}
	return palette, q.pixels
}

// thinned takes pixels out of a large part, evenly, so that choosing colours
// takes no longer than for a small one.
func (q *quantizer) thinned(img *image.RGBA, part image.Rectangle) *image.RGBA {
	step := 1
	for part.Dx()/step*(part.Dy()/step) > mostSampled {
		step++
	}
	w, h := (part.Dx()+step-1)/step, (part.Dy()+step-1)/step
	if q.sample == nil || q.sample.Rect.Dx() != w || q.sample.Rect.Dy() != h {
		q.sample = image.NewRGBA(image.Rect(0, 0, w, h))
	}
	for y := range h {
		from := img.Pix[(part.Min.Y+y*step)*img.Stride+4*part.Min.X:]
		to := q.sample.Pix[y*q.sample.Stride:]
		for x := range w {
			copy(to[4*x:4*x+3], from[4*x*step:])
			to[4*x+3] = 0xff
		}
	}
	return q.sample
}

// nearest returns the colour of a palette that is nearest; green counts most
// and blue least, about as the eye tells them apart (weights from memory).
func nearest(palette []byte, r, g, b byte) int16 {
	best, least := int16(0), 1<<30
	for k := 0; k < len(palette); k += 3 {
		dr, dg, db := int(palette[k])-int(r), int(palette[k+1])-int(g), int(palette[k+2])-int(b)
		if d := 3*dr*dr + 4*dg*dg + 2*db*db; d < least {
			best, least = int16(k/3), d
		}
	}
	return best
}
