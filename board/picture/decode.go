// Package picture turns a panel into pixels. Viewer, thumbnails and exports
// all draw through it, so that they show the same.
package picture

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/draw"
	"image/jpeg"
	"image/png"
	"io"
)

// Extensions names the files that can be brought in, for file dialogs.
var Extensions = []string{".png", ".jpg", ".jpeg"}

// MaxPixels is the largest picture accepted, width times height.
const MaxPixels = 100_000_000

// ErrFormat is wrapped when bytes are not a PNG or JPEG picture.
var ErrFormat = errors.New("not a PNG or JPEG picture")

// format is one kind of picture that can be brought in. They are told apart
// here and not by what package image knows, which depends on what else the
// program links.
type format struct {
	signature string
	config    func(io.Reader) (image.Config, error)
	decode    func(io.Reader) (image.Image, error)
	density   int // most pixels that one byte of the file can hold
}

var formats = []format{
	// A deflate code of 2 bits gives at most 258 bytes (RFC 1951, 3.2.5) of
	// at most 8 pixels each.
	{"\x89PNG\r\n\x1a\n", png.DecodeConfig, png.Decode, 4 * 258 * 8},
	// One component at least has all pixels, and each of its blocks of 8 x 8
	// takes a bit or more (ITU-T T.81, A.1.1 and F.1.2).
	{"\xff\xd8", jpeg.DecodeConfig, jpeg.Decode, 8 * 64},
}

func formatOf(data []byte) (format, error) {
	for _, f := range formats {
		if bytes.HasPrefix(data, []byte(f.signature)) {
			return f, nil
		}
	}
	return format{}, ErrFormat
}

// Probe checks that data is a picture that can be brought in, from its header
// alone, and returns its width and height in pixels as it will be shown.
func Probe(data []byte) (w, h int, err error) {
	f, err := formatOf(data)
	if err != nil {
		return 0, 0, err
	}
	c, err := f.config(bytes.NewReader(data))
	switch {
	case err != nil:
		return 0, 0, fmt.Errorf("the picture is damaged (%w)", err)
	case c.Width <= 0 || c.Height <= 0:
		return 0, 0, errors.New("the picture is empty")
	case c.Width > MaxPixels/c.Height:
		return 0, 0, fmt.Errorf("the picture is %d x %d pixels: the most is %d megapixels", c.Width, c.Height, MaxPixels/1_000_000)
	}
	if c.Width*c.Height/f.density > len(data) {
		return 0, 0, fmt.Errorf("the picture is damaged (%d bytes cannot hold %d x %d pixels)", len(data), c.Width, c.Height)
	}
	size := orientation(data).upright(image.Pt(c.Width, c.Height))
	return size.X, size.Y, nil
}

// Decode returns the picture upright: the turn a camera noted in EXIF is
// applied.
func Decode(data []byte) (image.Image, error) {
	img, o, err := decode(data)
	if err != nil {
		return nil, err
	}
	return o.apply(img), nil
}

// decode returns the picture as it is stored and the turn that sets it
// upright.
func decode(data []byte) (image.Image, turn, error) {
	if _, _, err := Probe(data); err != nil {
		return nil, 0, err
	}
	f, err := formatOf(data)
	if err != nil {
		return nil, 0, err
	}
	img, err := f.decode(bytes.NewReader(data))
	if err != nil {
		return nil, 0, fmt.Errorf("the picture is damaged (%w)", err)
	}
	return img, orientation(data), nil
}

// apply returns img turned upright.
func (o turn) apply(img image.Image) image.Image {
	if o == 1 {
		return img
	}
	b := img.Bounds()
	src := image.NewRGBA(image.Rect(0, 0, b.Dx(), b.Dy()))
	draw.Draw(src, src.Bounds(), img, b.Min, draw.Src)
	size := o.upright(b.Size())
	w, h := size.X, size.Y
	dst := image.NewRGBA(image.Rect(0, 0, w, h))
	for y := range h {
		for x := range w {
			sx, sy := o.source(x, y, w, h)
			copy(dst.Pix[dst.PixOffset(x, y):][:4], src.Pix[src.PixOffset(sx, sy):][:4])
		}
	}
	return dst
}
