package picture

import (
	"image"
	"image/color"
	"image/draw"
	"math"

	xdraw "golang.org/x/image/draw"
)

// Width and Height are the film's picture in pixels where nothing else is
// asked for.
const (
	Width  = 1280
	Height = 720
)

// Colours of what is not the picture itself.
var (
	Surround = color.RGBA{0x26, 0x23, 0x20, 0xff} // beside a picture of another shape
	Blank    = color.RGBA{0xf4, 0xee, 0xe1, 0xff} // a panel without a picture
)

// Fit returns the largest rectangle of the shape w x h centred in box.
func Fit(w, h int, box image.Rectangle) image.Rectangle {
	scale := math.Min(float64(box.Dx())/float64(w), float64(box.Dy())/float64(h))
	fw := max(1, int(math.Round(float64(w)*scale)))
	fh := max(1, int(math.Round(float64(h)*scale)))
	x := box.Min.X + (box.Dx()-fw)/2
	y := box.Min.Y + (box.Dy()-fh)/2
	return image.Rect(x, y, x+fw, y+fh)
}

// Frame draws a picture fitted into w x h; nil draws the blank card.
func Frame(img image.Image, w, h int) *image.RGBA { return frame(img, 1, w, h) }

// frame is Frame for a picture that must be turned upright. It is turned when
// it is small, which saves two copies of it in full size.
func frame(img image.Image, o turn, w, h int) *image.RGBA {
	dst := image.NewRGBA(image.Rect(0, 0, w, h))
	if img == nil {
		draw.Draw(dst, dst.Bounds(), image.NewUniform(Blank), image.Point{}, draw.Src)
		return dst
	}
	draw.Draw(dst, dst.Bounds(), image.NewUniform(Surround), image.Point{}, draw.Src)
	size := o.upright(img.Bounds().Size())
	r := Fit(size.X, size.Y, dst.Bounds())
	if o == 1 {
		scale(dst, r, img)
		return dst
	}
	lying := image.NewRGBA(image.Rectangle{Max: o.upright(r.Size())})
	scale(lying, lying.Bounds(), img)
	draw.Draw(dst, r, o.apply(lying), image.Point{}, draw.Over)
	return dst
}

// scale draws img into r. A picture much larger than r is first averaged in
// whole blocks, which keeps the cost near that of reading it once.
func scale(dst *image.RGBA, r image.Rectangle, img image.Image) {
	b := img.Bounds()
	if b.Dx() == r.Dx() && b.Dy() == r.Dy() {
		draw.Draw(dst, r, img, b.Min, draw.Over)
		return
	}
	if k := min(b.Dx()/r.Dx(), b.Dy()/r.Dy()) / 2; k >= 2 {
		img = shrink(img, min(k, maxBlock))
		b = img.Bounds()
	}
	xdraw.CatmullRom.Scale(dst, r, img, b, draw.Over, nil)
}

// maxBlock is the widest block whose sum of bytes fits 32 bits.
const maxBlock = 4096

// shrink averages blocks of k x k pixels.
func shrink(img image.Image, k int) *image.RGBA {
	b := img.Bounds()
	w, h := b.Dx()/k, b.Dy()/k
	out := image.NewRGBA(image.Rect(0, 0, w, h))
	strip := image.NewRGBA(image.Rect(0, 0, w*k, k))
	sum := make([]uint32, 4*w)
	for y := range h {
		draw.Draw(strip, strip.Bounds(), img, image.Pt(b.Min.X, b.Min.Y+y*k), draw.Src)
		clear(sum)
		for sy := range k {
			row := strip.Pix[sy*strip.Stride:]
			for x := range w {
				s := sum[4*x : 4*x+4 : 4*x+4]
				for range k {
					s[0] += uint32(row[0])
					s[1] += uint32(row[1])
					s[2] += uint32(row[2])
					s[3] += uint32(row[3])
					row = row[4:]
				}
			}
		}
		n := uint32(k * k)
		for i, s := range sum {
			out.Pix[y*out.Stride+i] = uint8((s + n/2) / n)
		}
	}
	return out
}
