package mp4

import (
	"bytes"
	"image"
	"math/rand/v2"
	"testing"
)

// What is converted row by row, where something changed, is what is converted
// whole, in sizes even and odd and in parts of larger pictures.
func TestConverterSkipsNothingThatChanged(t *testing.T) {
	rnd := rand.New(rand.NewPCG(3, 4))
	for _, size := range []image.Point{{16, 16}, {17, 19}, {31, 18}} {
		even := image.Pt(size.X+size.X%2, size.Y+size.Y%2)
		c := newConverter(even.X, even.Y)
		large := image.NewRGBA(image.Rect(0, 0, size.X+5, size.Y+7))
		for k := range 60 {
			for range rnd.IntN(3) { // also pictures without a change
				large.Pix[rnd.IntN(len(large.Pix))] = uint8(rnd.Uint32())
			}
			src := large.SubImage(image.Rect(3, 4, 3+size.X, 4+size.Y)).(*image.RGBA)
			want := newPicture(even.X, even.Y)
			toYCbCr(want, src, nil)
			c.convert(src)
			if !bytes.Equal(c.out.Y, want.Y) || !bytes.Equal(c.out.Cb, want.Cb) || !bytes.Equal(c.out.Cr, want.Cr) {
				t.Fatalf("%v: picture %d differs", size, k)
			}
		}
	}
}
