// Package picture turns a panel into pixels. Viewer, thumbnails and exports
// all draw through it, so that they show the same.
package picture

import (
	"bytes"
	"errors"
	"fmt"
	"image"
	"image/draw"
	"io"
)

// MaxPixels is the largest picture accepted, width times height.
const MaxPixels = 100_000_000

// Probe checks that data is a picture that can be brought in, from its header
// alone, and returns its width and height in pixels as it will be shown.
func Probe(data []byte) (w, h int, err error) {
	f, err := formatOf(data)
	if err != nil {
		return 0, 0, err
	}
	size, err := f.probe(data)
	if err != nil {
		return 0, 0, err
	}
	size = orientation(data).upright(size)
	return size.X, size.Y, nil
}

// probe returns the size of the picture as it is stored.
func (f format) probe(data []byte) (size image.Point, err error) {
	defer recovered(&err)
	if f.check != nil {
		if err := f.check(data); err != nil {
			return size, damaged(err)
		}
	}
	c, err := f.config(bytes.NewReader(data))
	switch {
	case err != nil:
		return size, damaged(err)
	case c.Width <= 0 || c.Height <= 0:
		return size, errors.New("the picture is empty")
	case c.Width > MaxPixels/c.Height:
		return size, fmt.Errorf("the picture is %d x %d pixels: the most is %d megapixels", c.Width, c.Height, MaxPixels/1_000_000)
	}
	if c.Width*c.Height/f.density > len(data) {
		return size, fmt.Errorf("the picture is damaged (%d bytes cannot hold %d x %d pixels)", len(data), c.Width, c.Height)
	}
	return image.Pt(c.Width, c.Height), nil
}

// damaged says that a picture is; what ends too early is cut short.
func damaged(err error) error {
	if errors.Is(err, io.EOF) || errors.Is(err, io.ErrUnexpectedEOF) {
		err = errCut
	}
	return fmt.Errorf("the picture is damaged (%w)", err)
}

// recovered makes an error of a decoder's panic.
func recovered(err *error) {
	if p := recover(); p != nil {
		*err = fmt.Errorf("the picture is damaged (%v)", p)
	}
}

// Decode returns the picture upright: the turn a camera noted in EXIF is
// applied. Of an animation it is the first picture.
func Decode(data []byte) (image.Image, error) {
	img, o, err := decode(data)
	if err != nil {
		return nil, err
	}
	return o.apply(img), nil
}

// decode returns the picture as it is stored and the turn that sets it
// upright.
func decode(data []byte) (img image.Image, o turn, err error) {
	f, err := formatOf(data)
	if err != nil {
		return nil, 0, err
	}
	size, err := f.probe(data)
	if err != nil {
		return nil, 0, err
	}
	defer func() {
		if err != nil {
			img = nil
		}
	}()
	defer recovered(&err)
	img, err = f.decode(bytes.NewReader(data))
	if err != nil {
		return nil, 0, damaged(err)
	}
	if img.Bounds().Size() != size {
		return nil, 0, errors.New("the picture is damaged (its header gives another size)")
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
	return o.turned(src)
}

// turned returns src, whose bounds begin at 0, turned upright.
func (o turn) turned(src *image.RGBA) *image.RGBA {
	if o == 1 {
		return src
	}
	size := o.upright(src.Rect.Size())
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
