package picture

import (
	"bytes"
	"encoding/binary"
	"flag"
	"hash/crc32"
	"image"
	"image/color"
	"image/draw"
	"image/jpeg"
	"image/png"
	"os"
	"path/filepath"
	"testing"
)

// The quarters of the test picture: top left, top right, bottom left, bottom
// right. testdata/README.md says how its files were made.
var quarters = [4]color.RGBA{{200, 40, 30, 255}, {40, 160, 60, 255}, {40, 70, 190, 255}, {240, 235, 220, 255}}

// quartered returns a picture of four coloured quarters.
func quartered(w, h int) *image.RGBA {
	img := image.NewRGBA(image.Rect(0, 0, w, h))
	for i, c := range quarters {
		x, y := i%2*w/2, i/2*h/2
		draw.Draw(img, image.Rect(x, y, x+(w+1)/2, y+(h+1)/2), image.NewUniform(c), image.Point{}, draw.Src)
	}
	return img
}

// corners returns the colours in the middle of the four quarters.
func corners(img image.Image) [4]color.RGBA {
	var out [4]color.RGBA
	b := img.Bounds()
	for i := range out {
		x, y := b.Min.X+b.Dx()*(1+i%2*2)/4, b.Min.Y+b.Dy()*(1+i/2*2)/4
		out[i] = rgba(img.At(x, y))
	}
	return out
}

func rgba(c color.Color) color.RGBA { return color.RGBAModel.Convert(c).(color.RGBA) }

// near reports whether colours differ by at most tolerance in each channel.
func near(a, b color.RGBA, tolerance int) bool {
	for _, d := range []int{int(a.R) - int(b.R), int(a.G) - int(b.G), int(a.B) - int(b.B), int(a.A) - int(b.A)} {
		if d > tolerance || d < -tolerance {
			return false
		}
	}
	return true
}

func checkCorners(t *testing.T, img image.Image, want [4]color.RGBA, tolerance int) {
	t.Helper()
	for i, got := range corners(img) {
		if !near(got, want[i], tolerance) {
			t.Errorf("quarter %d is %v, want %v within %d", i, got, want[i], tolerance)
		}
	}
}

func asPNG(t testing.TB, img image.Image) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := png.Encode(&b, img); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func asJPEG(t testing.TB, img image.Image) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := jpeg.Encode(&b, img, &jpeg.Options{Quality: 92}); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func testFile(t testing.TB, name string) []byte {
	t.Helper()
	data, err := os.ReadFile(filepath.Join("testdata", name))
	if err != nil {
		t.Fatal(err)
	}
	return data
}

// pngClaiming returns a PNG whose header says it is w x h, with sound
// checksums (PNG specification, 5.3).
func pngClaiming(w, h uint32) []byte {
	header := binary.BigEndian.AppendUint32(nil, w)
	header = binary.BigEndian.AppendUint32(header, h)
	header = append(header, 8, 2, 0, 0, 0)
	out := []byte("\x89PNG\r\n\x1a\n")
	for _, c := range []struct {
		kind string
		body []byte
	}{{"IHDR", header}, {"IDAT", []byte{0x78, 0x9c, 0x63, 0, 0}}, {"IEND", nil}} {
		out = binary.BigEndian.AppendUint32(out, uint32(len(c.body)))
		typed := append([]byte(c.kind), c.body...)
		out = append(out, typed...)
		out = binary.BigEndian.AppendUint32(out, crc32.ChecksumIEEE(typed))
	}
	return out
}

// jpegClaiming returns jpeg with the size in its frame header changed
// (ITU-T T.81, B.2.2).
func jpegClaiming(t testing.TB, data []byte, w, h uint16) []byte {
	t.Helper()
	out := bytes.Clone(data)
	for p := 2; p+9 < len(out); p += 2 + int(binary.BigEndian.Uint16(out[p+2:])) {
		if m := out[p+1]; m == 0xc0 || m == 0xc2 {
			binary.BigEndian.PutUint16(out[p+5:], h)
			binary.BigEndian.PutUint16(out[p+7:], w)
			return out
		}
	}
	t.Fatal("no frame header")
	return nil
}

var update = flag.Bool("update", false, "rewrite golden files")

// golden compares a picture with the one in testdata/name.png. Rounding may
// differ between machines by a level or two.
func golden(t *testing.T, name string, got *image.RGBA) {
	t.Helper()
	path := filepath.Join("testdata", name+".png")
	if *update {
		if err := os.WriteFile(path, asPNG(t, got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	img, err := png.Decode(bytes.NewReader(testFile(t, name+".png")))
	if err != nil {
		t.Fatal(err)
	}
	want := image.NewRGBA(img.Bounds())
	draw.Draw(want, want.Rect, img, image.Point{}, draw.Src)
	if got.Rect != want.Rect {
		t.Fatalf("%s is %v, want %v", name, got.Rect, want.Rect)
	}
	if d := furthest(got, want); d > 2 {
		t.Errorf("%s differs from its golden file by up to %d", name, d)
	}
}
