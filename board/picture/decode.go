// Package picture turns a panel into pixels. Viewer, thumbnails and exports
// all draw through it, so that they show the same.
package picture

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/draw"
	_ "image/jpeg" // pictures that can be brought in
	_ "image/png"
)

// Extensions names the files that can be brought in, for file dialogs.
var Extensions = []string{".png", ".jpg", ".jpeg"}

// MaxPixels is the largest picture accepted, width times height.
const MaxPixels = 100_000_000

// ErrFormat is wrapped when bytes are not a PNG or JPEG picture.
var ErrFormat = errors.New("not a PNG or JPEG picture")

// Probe checks that data is a picture that can be brought in, from its header
// alone, and returns its width and height in pixels as it will be shown.
func Probe(data []byte) (w, h int, err error) {
	c, _, err := image.DecodeConfig(bytes.NewReader(data))
	switch {
	case errors.Is(err, image.ErrFormat) || len(data) == 0:
		return 0, 0, ErrFormat
	case err != nil:
		return 0, 0, fmt.Errorf("the picture is damaged (%w)", err)
	case c.Width <= 0 || c.Height <= 0:
		return 0, 0, errors.New("the picture is empty")
	case c.Width > MaxPixels/c.Height:
		return 0, 0, fmt.Errorf("the picture is %d x %d pixels: the most is %d megapixels", c.Width, c.Height, MaxPixels/1_000_000)
	}
	if orientation(data).swaps() {
		return c.Height, c.Width, nil
	}
	return c.Width, c.Height, nil
}

// Decode returns the picture upright: the turn a camera noted in EXIF is
// applied.
func Decode(data []byte) (image.Image, error) {
	if _, _, err := Probe(data); err != nil {
		return nil, err
	}
	img, _, err := image.Decode(bytes.NewReader(data))
	if err != nil {
		return nil, fmt.Errorf("the picture is damaged (%w)", err)
	}
	return orientation(data).apply(img), nil
}

// apply returns img turned upright.
func (o turn) apply(img image.Image) image.Image {
	if o <= 1 || o > 8 {
		return img
	}
	b := img.Bounds()
	src := image.NewRGBA(image.Rect(0, 0, b.Dx(), b.Dy()))
	draw.Draw(src, src.Bounds(), img, b.Min, draw.Src)
	w, h := b.Dx(), b.Dy()
	if o.swaps() {
		w, h = h, w
	}
	dst := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			sx, sy := o.source(x, y, w, h)
			copy(dst.Pix[dst.PixOffset(x, y):][:4], src.Pix[src.PixOffset(sx, sy):][:4])
		}
	}
	return dst
}
