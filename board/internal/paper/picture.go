package paper

import (
	"bytes"
	"encoding/gob"
	"fmt"
	"image"
	"image/color"
	"image/jpeg"
	"image/png"

	"codeberg.org/go-pdf/fpdf"
)

// maxPixels is the most pixels of a picture that is put on paper.
const maxPixels = 1 << 27

// Has reports whether a picture of that name is in the document, so that it
// need not be made again: Place does.
func (d *Doc) Has(name string) bool { return d.pictures[name] }

// Place draws a picture that is in the document.
func (d *Doc) Place(name string, at Box) {
	d.pdf.ImageOptions(name, at.X, at.Y, at.Wide, at.High, false, fpdf.ImageOptions{ImageType: "jpg", AllowNegativePosition: true}, 0, "")
}

// Picture puts a picture into the document once, under a name, and draws it: a
// JPEG of good quality, or a PNG where it is not opaque. Under a name that is
// there it draws that one.
func (d *Doc) Picture(name string, img image.Image, at Box) error {
	if !d.Has(name) {
		kind, data, err := Coded(img)
		if err != nil {
			return fmt.Errorf("the picture %s: %w", name, err)
		}
		if err := d.register(name, kind, data); err != nil {
			return err
		}
	}
	d.Place(name, at)
	return nil
}

// Coded returns a picture as a document holds it, and whether that is a "jpg"
// or a "png".
func Coded(img image.Image) (kind string, data []byte, err error) {
	var b bytes.Buffer
	kind = "jpg"
	if o, ok := img.(interface{ Opaque() bool }); ok && o.Opaque() {
		err = jpeg.Encode(&b, img, &jpeg.Options{Quality: 90})
	} else {
		kind, err = "png", png.Encode(&b, eightBits(img))
	}
	return kind, b.Bytes(), err
}

// PictureFile is Picture for the bytes of a JPEG, which are taken as they are,
// or of a PNG. It does not turn a photograph by what its camera noted.
func (d *Doc) PictureFile(name string, data []byte, at Box) error {
	if d.Has(name) {
		d.Place(name, at)
		return nil
	}
	config, kind, err := image.DecodeConfig(bytes.NewReader(data))
	switch {
	case err != nil:
		return fmt.Errorf("the picture %s: %w", name, err)
	case config.Width*config.Height > maxPixels:
		return fmt.Errorf("the picture %s has %d by %d pixels, which is too many", name, config.Width, config.Height)
	case kind == "jpeg" && config.ColorModel != color.CMYKModel:
		if err := d.register(name, "jpg", data); err != nil {
			return err
		}
		d.Place(name, at)
		return nil
	}
	img, _, err := image.Decode(bytes.NewReader(data))
	if err != nil {
		return fmt.Errorf("the picture %s: %w", name, err)
	}
	return d.Picture(name, img, at)
}

func (d *Doc) register(name, kind string, data []byte) error {
	info := d.pdf.RegisterImageOptionsReader(name, fpdf.ImageOptions{ImageType: kind}, bytes.NewReader(data))
	if err := d.pdf.Error(); err != nil {
		d.pdf.ClearError()
		return fmt.Errorf("the picture %s: %w", name, err)
	}
	d.pictures[name] = true
	return ordered(info, len(d.pictures))
}

// ordered gives a picture its place among those as wide as it. The library
// writes pictures in the order of their widths and those of one width in any
// order; it writes the width itself as a whole number, so a trace more orders
// them and changes nothing else.
func ordered(info *fpdf.ImageInfoType, place int) error {
	stored, err := info.GobEncode()
	if err != nil {
		return err
	}
	// The fields in the order of the library's GobEncode; the fourth is the width.
	var data, mask, palette []byte
	var n, bits int
	var wide, high, scale, dpi float64
	var space, filter, parms string
	var through []int
	fields := []any{&data, &mask, &n, &wide, &high, &space, &palette, &bits, &filter, &parms, &through, &scale, &dpi}
	from := gob.NewDecoder(bytes.NewReader(stored))
	for _, f := range fields {
		if err := from.Decode(f); err != nil {
			return err
		}
	}
	wide += float64(place) * 1e-6
	var out bytes.Buffer
	to := gob.NewEncoder(&out)
	for _, f := range fields {
		if err := to.Encode(f); err != nil {
			return err
		}
	}
	return info.GobDecode(out.Bytes())
}

// eightBits returns a picture the library reads, of 8 bits and not in stripes.
func eightBits(img image.Image) image.Image {
	switch img.(type) {
	case *image.RGBA, *image.NRGBA, *image.Gray:
		return img
	}
	b := img.Bounds()
	out := image.NewNRGBA(image.Rect(0, 0, b.Dx(), b.Dy()))
	for y := range b.Dy() {
		for x := range b.Dx() {
			out.Set(x, y, img.At(b.Min.X+x, b.Min.Y+y))
		}
	}
	return out
}
