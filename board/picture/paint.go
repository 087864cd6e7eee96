package picture

import (
	"image"
	"image/color"
	"image/draw"
	"math"

	"stillbeat/board"
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
	return fit(float64(w), float64(h), box)
}

// FitShape returns the largest rectangle of a film's shape centred in box.
func FitShape(a board.Aspect, box image.Rectangle) image.Rectangle { return fit(a.Ratio(), 1, box) }

func fit(w, h float64, box image.Rectangle) image.Rectangle {
	scale := math.Min(float64(box.Dx())/w, float64(box.Dy())/h)
	fw := max(1, int(math.Round(w*scale)))
	fh := max(1, int(math.Round(h*scale)))
	x := box.Min.X + (box.Dx()-fw)/2
	y := box.Min.Y + (box.Dy()-fh)/2
	return image.Rect(x, y, x+fw, y+fh)
}

// frameIn returns where the film's frame lies in w x h pixels: all of them if
// they have its shape to the nearest pixels, as the sizes of films have that
// must be even.
func frameIn(a board.Aspect, w, h int) image.Rectangle {
	whole := image.Rect(0, 0, w, h)
	if whole.Empty() {
		return whole
	}
	r := a.Ratio()
	if math.Abs(float64(w)-float64(h)*r) <= max(2, 2*r) {
		return whole
	}
	if fw := int(math.Round(float64(h) * r)); fw < w {
		x := (w - fw) / 2
		return image.Rect(x, 0, x+max(fw, 1), h)
	}
	fh := max(1, int(math.Round(float64(w)/r)))
	y := (h - fh) / 2
	return image.Rect(0, y, w, y+fh)
}

// mounted puts a frame into w x h pixels, the surround beside it.
func mounted(frame *image.RGBA, at image.Rectangle, w, h int) *image.RGBA {
	dst := filled(w, h, Surround)
	draw.Draw(dst, at, frame, image.Point{}, draw.Src)
	return dst
}

func filled(w, h int, c color.RGBA) *image.RGBA {
	dst := image.NewRGBA(image.Rect(0, 0, w, h))
	if len(dst.Pix) == 0 {
		return dst
	}
	row := dst.Pix[:4*w]
	for i := 0; i < len(row); i += 4 {
		row[i], row[i+1], row[i+2], row[i+3] = c.R, c.G, c.B, c.A
	}
	for y := 1; y < h; y++ {
		copy(dst.Pix[y*dst.Stride:][:4*w], row)
	}
	return dst
}
