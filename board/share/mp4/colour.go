package mp4

import (
	"bytes"
	"image"
)

// BT.709 in 8-bit limited range (ITU-R BT.709-6, sections 3 and 4), from R'G'B'
// of 0..255, times 1<<16. Each row of chroma weights sums to 0 and the luma
// weights sum to 219/255, so that greys stay grey and white is 235.
const (
	lumaR, lumaG, lumaB = 11966, 40254, 4064
	cbR, cbG, cbB       = -6596, -22189, 28785
	crR, crG, crB       = 28785, -26145, -2640

	lumaBias   = 16<<16 + 1<<15
	chromaBias = 128<<19 + 1<<18 // chroma sums eight pixel weights, 3 bits more
)

// converter converts pictures to 4:2:0 one after the other. Rows that are as in
// the picture before are not converted anew: much of most films stands still.
type converter struct {
	out  *image.YCbCr
	last []uint8 // the rows of the picture before, nil before the first
}

func newConverter(width, height int) *converter {
	return &converter{out: image.NewYCbCr(image.Rect(0, 0, width, height), image.YCbCrSubsampleRatio420)}
}

// convert puts src into c.out.
func (c *converter) convert(src *image.RGBA) {
	row := 4 * src.Rect.Dx()
	size := row * src.Rect.Dy()
	known := len(c.last) == size
	if !known {
		c.last = make([]uint8, size)
	}
	toYCbCr(c.out, src, func(y int, top, bottom []uint8) bool {
		was := c.last[y*row : min((y+2)*row, size)]
		if known && bytes.Equal(was[:row], top) && bytes.Equal(was[len(was)-row:], bottom) {
			return false
		}
		copy(was, top)
		copy(was[len(was)-row:], bottom)
		return true
	})
}

// toYCbCr converts src to 4:2:0 into dst, whose size is src's rounded up to
// even; the last column and row are repeated. Chroma is sited as H.264 has it
// by default: with the left column of each pair, midway between the rows. Of
// each pair of rows from an even y on, due says whether dst is to have it; nil
// says so of all.
func toYCbCr(dst *image.YCbCr, src *image.RGBA, due func(y int, top, bottom []uint8) bool) {
	b := src.Bounds()
	w, h := b.Dx(), b.Dy()
	row := func(y int) []uint8 {
		at := src.PixOffset(b.Min.X, b.Min.Y+min(y, h-1))
		return src.Pix[at : at+4*w]
	}
	for y := 0; y < dst.Rect.Dy(); y += 2 {
		top, bottom := row(y), row(y+1)
		if due != nil && !due(y, top, bottom) {
			continue
		}
		lumaRow(dst.Y[y*dst.YStride:], top)
		lumaRow(dst.Y[(y+1)*dst.YStride:], bottom)
		at := y / 2 * dst.CStride
		chromaRow(dst.Cb[at:], dst.Cr[at:], top, bottom)
	}
}

// lumaRow converts one row of RGBA pixels; an odd row gets one value more.
func lumaRow(dst, pix []uint8) {
	n := len(pix) / 4
	for x := 0; x < n; x++ {
		p := pix[4*x : 4*x+3 : 4*x+3]
		dst[x] = uint8((lumaR*int(p[0]) + lumaG*int(p[1]) + lumaB*int(p[2]) + lumaBias) >> 16)
	}
	if n%2 == 1 {
		dst[n] = dst[n-1]
	}
}

// chromaRow converts two rows of RGBA pixels to one of chroma, weighing each
// even column with its neighbours 1, 2, 1.
func chromaRow(cb, cr, top, bottom []uint8) {
	n := len(top) / 4
	pair := func(x, c int) int { return int(top[4*x+c]) + int(bottom[4*x+c]) }
	r, g, b := pair(0, 0), pair(0, 1), pair(0, 2) // the column to the left
	for x := 0; x < n; x += 2 {
		right := min(x+1, n-1)
		r2, g2, b2 := pair(right, 0), pair(right, 1), pair(right, 2)
		r += 2*pair(x, 0) + r2
		g += 2*pair(x, 1) + g2
		b += 2*pair(x, 2) + b2
		cb[x/2] = uint8((cbR*r + cbG*g + cbB*b + chromaBias) >> 19)
		cr[x/2] = uint8((crR*r + crG*g + crB*b + chromaBias) >> 19)
		r, g, b = r2, g2, b2
	}
}
