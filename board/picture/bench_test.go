package picture

import (
	"image"
	"image/color"
	"math/rand/v2"
	"testing"
)

// photo returns a JPEG of w x h with the grain of a photograph.
func photo(b *testing.B, w, h int) []byte {
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	r := rand.New(rand.NewPCG(1, 2))
	for y := range h {
		for x := range w {
			v := uint8(40 + 160*x/w + r.IntN(24))
			img.SetRGBA(x, y, color.RGBA{v, uint8(40 + 160*y/h), 220 - v, 255})
		}
	}
	return asJPEG(b, img)
}

// BenchmarkPhoto brings a photograph of 24 megapixels to the viewer and to
// the timeline, as it lies and turned by the camera.
func BenchmarkPhoto(b *testing.B) {
	data := photo(b, 6000, 4000)
	standing := withEXIF(data, tiff("II", 6))
	for _, c := range []struct {
		name string
		data []byte
		w, h int
	}{
		{"1280x720", data, Width, Height},
		{"160x90", data, 160, 90},
		{"turned-1280x720", standing, Width, Height},
	} {
		b.Run(c.name, func(b *testing.B) {
			b.SetBytes(int64(len(c.data)))
			b.ReportAllocs()
			for b.Loop() {
				if _, err := NewCache(media{"photo": c.data}, 0).Frame("photo", c.w, c.h); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
	img, err := Decode(data)
	if err != nil {
		b.Fatal(err)
	}
	b.Run("without-decoding", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			Frame(img, Width, Height)
		}
	})
}

func BenchmarkCacheHit(b *testing.B) {
	c := NewCache(media{"cup": asPNG(b, quartered(1280, 720))}, 0)
	b.ReportAllocs()
	for b.Loop() {
		if _, err := c.Frame("cup", Width, Height); err != nil {
			b.Fatal(err)
		}
	}
}
