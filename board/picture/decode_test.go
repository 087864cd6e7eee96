package picture

import (
	"bytes"
	"errors"
	"image"
	"image/color"
	"image/draw"
	"math"
	"runtime"
	"strings"
	"testing"
)

func TestDecodeReads(t *testing.T) {
	img := quartered(48, 32)
	as := func(dst draw.Image) []byte {
		draw.Draw(dst, dst.Bounds(), img, image.Point{}, draw.Src)
		return asPNG(t, dst)
	}
	palette := color.Palette{quarters[0], quarters[1], quarters[2], quarters[3]}
	var greys, greys709 [4]color.RGBA
	for i, c := range quarters {
		y := color.GrayModel.Convert(c).(color.Gray).Y
		greys[i] = color.RGBA{y, y, y, 255}
		// The encoder of grey.jpg used the luma of Rec. 709.
		v := uint8(math.Round(0.2126*float64(c.R) + 0.7152*float64(c.G) + 0.0722*float64(c.B)))
		greys709[i] = color.RGBA{v, v, v, 255}
	}
	for _, c := range []struct {
		name      string
		data      []byte
		want      [4]color.RGBA
		tolerance int
	}{
		{"PNG", asPNG(t, img), quarters, 0},
		{"PNG with alpha", as(image.NewNRGBA(img.Rect)), quarters, 0},
		{"PNG of 16 bits", as(image.NewNRGBA64(img.Rect)), quarters, 0},
		{"PNG grey", as(image.NewGray(img.Rect)), greys, 0},
		{"PNG grey of 16 bits", as(image.NewGray16(img.Rect)), greys, 1},
		{"PNG with a palette", as(image.NewPaletted(img.Rect, palette)), quarters, 0},
		{"PNG interlaced", testFile(t, "interlaced.png"), quarters, 0},
		{"JPEG baseline", testFile(t, "baseline.jpg"), quarters, 8},
		{"JPEG progressive", testFile(t, "progressive.jpg"), quarters, 8},
		{"JPEG grey", testFile(t, "grey.jpg"), greys709, 8},
		{"JPEG of inks", testFile(t, "cmyk.jpg"), quarters, 12},
		{"JPEG with bytes after its end", append(testFile(t, "baseline.jpg"), "maker's notes"...), quarters, 8},
	} {
		t.Run(c.name, func(t *testing.T) {
			w, h, err := Probe(c.data)
			if w != 48 || h != 32 || err != nil {
				t.Errorf("Probe = %d, %d, %v, want 48, 32", w, h, err)
			}
			got, err := Decode(c.data)
			if err != nil {
				t.Fatal(err)
			}
			if got.Bounds().Size() != image.Pt(48, 32) {
				t.Errorf("the picture is %v", got.Bounds())
			}
			checkCorners(t, got, c.want, c.tolerance)
		})
	}
}

func TestDecodeRefuses(t *testing.T) {
	photo, drawing := testFile(t, "baseline.jpg"), asPNG(t, quartered(48, 32))
	const large = "the picture is 60000 x 60000 pixels: the most is 100 megapixels"
	for _, c := range []struct {
		name string
		data []byte
		is   error
		want string // start of the sentence
		late bool   // the header is sound: only Decode can tell
	}{
		{"nothing", nil, ErrFormat, "not a PNG, JPEG, GIF, WebP, BMP or TIFF picture", false},
		{"one byte", []byte{0xff}, ErrFormat, "not a PNG, JPEG, GIF, WebP, BMP or TIFF picture", false},
		{"text", []byte("Bring the kettle in on the second beat."), ErrFormat, "not a PNG, JPEG, GIF, WebP, BMP or TIFF picture", false},
		{"a film", []byte("\x00\x00\x00\x1cftypheic\x00\x00\x00\x00"), ErrFormat, "not a PNG, JPEG, GIF, WebP, BMP or TIFF picture", false},
		{"two bytes of a JPEG", photo[:2], nil, "the picture is damaged (", false},
		{"JPEG cut in its header", photo[:30], nil, "the picture is damaged (", false},
		{"JPEG cut in its pixels", photo[:len(photo)-20], nil, "the picture is damaged (", false},
		{"PNG cut in its header", drawing[:20], nil, "the picture is damaged (", false},
		{"PNG cut in its pixels", drawing[:len(drawing)-30], nil, "the picture is damaged (", false},
		{"PNG with a flipped byte", flipped(drawing, len(drawing)/2), nil, "the picture is damaged (", true},
		{"PNG without height", pngClaiming(10, 0), nil, "the picture is", false},
		{"JPEG without width", jpegClaiming(t, photo, 0, 32), nil, "the picture is", false},
		{"PNG claiming 60000 x 60000", pngClaiming(60000, 60000), nil, large, false},
		{"JPEG claiming 60000 x 60000", jpegClaiming(t, photo, 60000, 60000), nil, large, false},
		{"progressive JPEG claiming 60000 x 60000", jpegClaiming(t, testFile(t, "progressive.jpg"), 60000, 60000), nil, large, false},
		{"PNG far too short for 9000 x 9000", pngClaiming(9000, 9000), nil, "the picture is damaged (", false},
		{"JPEG far too short for 9000 x 9000", jpegClaiming(t, photo, 9000, 9000), nil, "the picture is damaged (342 bytes cannot hold 9000 x 9000 pixels)", false},
	} {
		t.Run(c.name, func(t *testing.T) {
			check := func(call string, err error) {
				t.Helper()
				if err == nil || !strings.HasPrefix(err.Error(), c.want) || strings.Contains(err.Error(), "\n") {
					t.Errorf("%s: %v, want %q", call, err, c.want)
				}
				if c.is != nil && !errors.Is(err, c.is) {
					t.Errorf("%s: %v is not %v", call, err, c.is)
				}
			}
			before := allocated()
			_, _, err := Probe(c.data)
			if !c.late {
				check("Probe", err)
			} else if err != nil {
				t.Errorf("Probe: %v", err)
			}
			img, err := Decode(c.data)
			check("Decode", err)
			if img != nil {
				t.Errorf("Decode gave a picture of %v beside its error", img.Bounds())
			}
			if got := allocated() - before; got > 2<<20 {
				t.Errorf("%d bytes were allocated for a file of %d", got, len(c.data))
			}
		})
	}
}

func flipped(data []byte, at int) []byte {
	out := bytes.Clone(data)
	out[at] ^= 0xff
	return out
}

// allocated returns the bytes allocated so far in all.
func allocated() uint64 {
	var m runtime.MemStats
	runtime.ReadMemStats(&m)
	return m.TotalAlloc
}

func TestPicturesThatHoldMuchInFewBytes(t *testing.T) {
	for _, c := range []struct {
		name string
		data []byte
	}{
		{"PNG of one colour", asPNG(t, image.NewPaletted(image.Rect(0, 0, 4000, 3000), color.Palette{Blank, Surround}))},
		{"JPEG of one colour", asJPEG(t, image.NewGray(image.Rect(0, 0, 4000, 3000)))},
	} {
		if w, h, err := Probe(c.data); w != 4000 || h != 3000 || err != nil {
			t.Errorf("%s of %d bytes: Probe = %d, %d, %v, want 4000, 3000", c.name, len(c.data), w, h, err)
		}
	}
}

func FuzzDecode(f *testing.F) {
	for _, name := range []string{"baseline.jpg", "progressive.jpg", "cmyk.jpg", "grey.jpg", "interlaced.png"} {
		f.Add(testFile(f, name))
	}
	f.Add(asPNG(f, quartered(5, 3)))
	f.Add(pngClaiming(60000, 60000))
	f.Add(withEXIF(asJPEG(f, quartered(16, 8)), tiffBlock("MM", 6)))
	f.Add([]byte{})
	f.Fuzz(fuzzDecode)
}

// fuzzDecode is what holds for whatever is decoded.
func fuzzDecode(t *testing.T, data []byte) {
	if len(data) > 1<<16 {
		return // larger than the fuzz target looks at
	}
	w, h, err := Probe(data)
	if err != nil {
		if img, err := Decode(data); err == nil {
			t.Fatalf("Probe refused what Decode took: %v", img.Bounds())
		}
		return
	}
	if w < 1 || h < 1 || w*h > MaxPixels {
		t.Fatalf("Probe = %d, %d", w, h)
	}
	if w*h > 1<<20 {
		return // more pixels than the fuzz target looks at
	}
	img, err := Decode(data)
	if err != nil {
		return
	}
	if got := img.Bounds().Size(); got != image.Pt(w, h) {
		t.Fatalf("Probe = %d, %d but the picture is %v", w, h, got)
	}
	if got := fitted(img, 32, 18).Bounds().Size(); got != image.Pt(32, 18) {
		t.Fatalf("a frame of %v", got)
	}
}
