package picture

import (
	"bytes"
	"encoding/binary"
	"hash/crc32"
	"image"
	"image/color"
	"image/draw"
	"image/gif"
	"strings"
	"testing"

	"golang.org/x/image/bmp"
	"golang.org/x/image/tiff"
)

// blocky returns the quarters as a picture with a palette.
func blocky(at image.Rectangle) *image.Paletted {
	img := image.NewPaletted(at, color.Palette{quarters[0], quarters[1], quarters[2], quarters[3], color.RGBA{}})
	draw.Draw(img, at, quartered(at.Dx(), at.Dy()), image.Point{}, draw.Src)
	return img
}

// gifOf returns a GIF of these pictures on a screen.
func gifOf(t testing.TB, screen image.Point, pictures ...*image.Paletted) []byte {
	t.Helper()
	g := gif.GIF{Image: pictures, Delay: make([]int, len(pictures)), Config: image.Config{Width: screen.X, Height: screen.Y}}
	var out bytes.Buffer
	if err := gif.EncodeAll(&out, &g); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

func asTIFF(t testing.TB, img image.Image, how tiff.CompressionType) []byte {
	t.Helper()
	var out bytes.Buffer
	if err := tiff.Encode(&out, img, &tiff.Options{Compression: how}); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

func asBMP(t testing.TB, img image.Image) []byte {
	t.Helper()
	var out bytes.Buffer
	if err := bmp.Encode(&out, img); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

func TestFormatsAreRead(t *testing.T) {
	whole := image.Rect(0, 0, 48, 32)
	other := blocky(whole)
	draw.Draw(other, whole, image.White, image.Point{}, draw.Src)
	var half [4]color.RGBA // the quarters at half their opacity, multiplied in
	for i, c := range quarters {
		half[i] = rgba(color.NRGBA{c.R, c.G, c.B, 128})
	}
	for _, c := range []struct {
		name      string
		data      []byte
		want      [4]color.RGBA
		tolerance int
	}{
		{"GIF", testFile(t, "still.gif"), quarters, 4},
		{"GIF of 1987", append([]byte("GIF87a"), gifOf(t, whole.Max, blocky(whole))[6:]...), quarters, 0},
		{"the first picture of a GIF", gifOf(t, whole.Max, blocky(whole), other), quarters, 0},
		{"WebP without loss", testFile(t, "lossless.webp"), quarters, 0},
		{"WebP with loss", testFile(t, "lossy.webp"), quarters, 3},
		{"WebP half clear", testFile(t, "alpha.webp"), half, 3},
		{"BMP", testFile(t, "true.bmp"), quarters, 0},
		{"BMP with alpha", testFile(t, "alpha.bmp"), quarters, 0},
		{"BMP with a palette", asBMP(t, blocky(whole)), quarters, 0},
		{"TIFF with PackBits", testFile(t, "packbits.tiff"), quarters, 0},
		{"TIFF with LZW", testFile(t, "lzw.tiff"), quarters, 0},
		{"TIFF with deflate", testFile(t, "deflate.tiff"), quarters, 0},
		{"TIFF of 16 bits", testFile(t, "deep.tiff"), quarters, 1},
		{"TIFF as it is", asTIFF(t, quartered(48, 32), tiff.Uncompressed), quarters, 0},
	} {
		t.Run(c.name, func(t *testing.T) {
			if w, h, err := Probe(c.data); w != 48 || h != 32 || err != nil {
				t.Errorf("Probe = %d, %d, %v, want 48, 32", w, h, err)
			}
			img, err := Decode(c.data)
			if err != nil {
				t.Fatal(err)
			}
			checkCorners(t, img, c.want, c.tolerance)
		})
	}
}

// The first picture of a GIF may fill a part of its screen.
func TestGIFSmallerThanItsScreen(t *testing.T) {
	img, err := Decode(gifOf(t, image.Pt(60, 50), blocky(image.Rect(6, 9, 54, 41))))
	if err != nil {
		t.Fatal(err)
	}
	if img.Bounds() != image.Rect(0, 0, 60, 50) {
		t.Fatalf("the picture is %v", img.Bounds())
	}
	if got := rgba(img.At(2, 2)); got != (color.RGBA{}) {
		t.Errorf("beside the picture the screen is %v, want clear", got)
	}
	if got := rgba(img.At(10, 12)); got != quarters[0] {
		t.Errorf("the picture begins with %v", got)
	}
	frame := fitted(img, 60, 50)
	if frame.RGBAAt(2, 2) != Surround || frame.RGBAAt(10, 12) != quarters[0] {
		t.Errorf("drawn it is %v and %v", frame.RGBAAt(2, 2), frame.RGBAAt(10, 12))
	}
}

// webpChunk returns one part of a WebP file, padded to an even length.
func webpChunk(id string, body []byte) []byte {
	out := binary.LittleEndian.AppendUint32([]byte(id), uint32(len(body)))
	out = append(out, body...)
	return append(out, make([]byte, len(body)%2)...)
}

// extended returns a lossless WebP with its EXIF (Google, WebP Container
// Specification: VP8X with bit 3, then the picture, then EXIF).
func extended(t testing.TB, exif []byte) []byte {
	plain := testFile(t, "lossless.webp")
	body := []byte("WEBP")
	body = append(body, webpChunk("VP8X", []byte{1 << 3, 0, 0, 0, 47, 0, 0, 31, 0, 0})...)
	body = append(body, plain[12:]...)
	body = append(body, webpChunk("EXIF", exif)...)
	return append(binary.LittleEndian.AppendUint32([]byte("RIFF"), uint32(len(body))), body...)
}

// withPNGChunk puts a chunk behind the header of a PNG.
func withPNGChunk(data []byte, kind string, body []byte) []byte {
	const head = 8 + 12 + 13
	typed := append([]byte(kind), body...)
	chunk := append(binary.BigEndian.AppendUint32(nil, uint32(len(body))), typed...)
	chunk = binary.BigEndian.AppendUint32(chunk, crc32.ChecksumIEEE(typed))
	return append(append(bytes.Clone(data[:head]), chunk...), data[head:]...)
}

// withTIFFTurn adds the tag of a turn, the last of its directory, to a TIFF of
// Go's encoder, whose tags end before it.
func withTIFFTurn(t testing.TB, o uint16) []byte {
	data := asTIFF(t, quartered(48, 32), tiff.Uncompressed)
	at := binary.LittleEndian.Uint32(data[4:])
	n := binary.LittleEndian.Uint16(data[at:])
	entries := data[at+2 : at+2+12*uint32(n)]
	out := bytes.Clone(data[:len(data)])
	binary.LittleEndian.PutUint32(out[4:], uint32(len(out)))
	out = binary.LittleEndian.AppendUint16(out, n+1)
	placed := false
	tag := []byte{0x12, 0x01, 3, 0, 1, 0, 0, 0, byte(o), 0, 0, 0}
	for e := entries; len(e) > 0; e = e[12:] { // tags ascend
		if !placed && binary.LittleEndian.Uint16(e) > tagOrientation {
			out, placed = append(out, tag...), true
		}
		out = append(out, e[:12]...)
	}
	return binary.LittleEndian.AppendUint32(out, 0)
}

func TestTurnsOfOtherFormats(t *testing.T) {
	for o := 1; o <= 8; o++ {
		for name, data := range map[string][]byte{
			"PNG":                 withPNGChunk(asPNG(t, quartered(48, 32)), "eXIf", tiffBlock("MM", uint16(o))),
			"WebP":                extended(t, tiffBlock("II", uint16(o))),
			"WebP with JPEG mark": extended(t, append([]byte("Exif\x00\x00"), tiffBlock("MM", uint16(o))...)),
			"TIFF":                withTIFFTurn(t, uint16(o)),
		} {
			img, err := Decode(data)
			if err != nil {
				t.Errorf("%s, turn %d: %v", name, o, err)
				continue
			}
			if want := turn(o).upright(image.Pt(48, 32)); img.Bounds().Size() != want {
				t.Errorf("%s, turn %d: the picture is %v", name, o, img.Bounds())
			}
			checkCorners(t, img, uprightQuarters(o), 0)
		}
	}
}

// bombs are small files that claim to be large pictures, or claim large parts.
func bombs(t testing.TB) map[string][]byte {
	put16 := func(data []byte, at int, v uint16) []byte {
		out := bytes.Clone(data)
		binary.LittleEndian.PutUint16(out[at:], v)
		return out
	}
	put32 := func(data []byte, at int, v uint32) []byte {
		out := bytes.Clone(data)
		binary.LittleEndian.PutUint32(out[at:], v)
		return out
	}
	webp := testFile(t, "lossless.webp")
	still := gifOf(t, image.Pt(48, 32), blocky(image.Rect(0, 0, 48, 32)))
	plain := asTIFF(t, quartered(48, 32), tiff.Deflate)
	setTag := func(tag uint16, v uint32) []byte {
		out := bytes.Clone(plain)
		at := binary.LittleEndian.Uint32(out[4:])
		for e := out[at+2:]; len(e) >= 12; e = e[12:] {
			if binary.LittleEndian.Uint16(e) == tag {
				binary.LittleEndian.PutUint16(e[2:], 4) // LONG
				binary.LittleEndian.PutUint32(e[8:], v)
				break
			}
		}
		return out
	}
	tiled := func() []byte { // the tags of strips made tags of one huge tile
		out := bytes.Clone(plain)
		at := binary.LittleEndian.Uint32(out[4:])
		n := int(binary.LittleEndian.Uint16(out[at:]))
		for i := range n {
			e := out[int(at)+2+12*i:]
			if binary.LittleEndian.Uint16(e) == 0x0117 { // strip byte counts, the tag before a tile's
				binary.LittleEndian.PutUint16(e, tagTileWidth)
				binary.LittleEndian.PutUint32(e[8:], 1<<30)
			}
		}
		return out
	}
	return map[string][]byte{
		"GIF of 65535 x 65535":            put16(put16(still, 6, 65535), 8, 65535),
		"GIF of 9000 x 9000":              put16(put16(still, 6, 9000), 8, 9000),
		"WebP of 16384 x 16384":           put32(webp, 21, 0x0fffffff),
		"WebP of 16384 x 4096":            put32(webp, 21, 4095<<14|16383),
		"WebP longer than its file":       put32(webp, 4, 1<<30),
		"WebP with a part beyond the end": put32(webp, 16, 1<<30),
		"BMP of 2 billion":                put32(put32(testFile(t, "true.bmp"), 18, 46340), 22, 46340),
		"BMP of 9000 x 9000":              put32(put32(testFile(t, "true.bmp"), 18, 9000), 22, 9000),
		"TIFF of 4 billion":               setTag(0x0100, 1<<31),
		"TIFF of 48 x 2 million":          setTag(0x0101, 2_000_000),
		"TIFF with a huge tile":           tiled(),
	}
}

func TestBombsAreRefused(t *testing.T) {
	for name, data := range bombs(t) {
		before := allocated()
		_, _, err := Probe(data)
		img, also := Decode(data)
		if err == nil || also == nil || img != nil || strings.Contains(also.Error(), "\n") || !strings.HasPrefix(also.Error(), "the picture is") {
			t.Errorf("%s: Probe says %v, Decode says %v", name, err, also)
		}
		if got := allocated() - before; got > 2<<20 {
			t.Errorf("%s: %d bytes were allocated for a file of %d", name, got, len(data))
		}
	}
}

func TestDamagedFilesOfEachFormat(t *testing.T) {
	for _, name := range []string{"still.gif", "lossless.webp", "lossy.webp", "true.bmp", "packbits.tiff", "lzw.tiff", "deflate.tiff"} {
		data := testFile(t, name)
		for _, n := range []int{len(data) / 4, len(data) / 2, 14} {
			if img, err := Decode(data[:n]); err == nil || img != nil || strings.Contains(err.Error(), "\n") {
				t.Errorf("%s cut to %d bytes of %d: %v", name, n, len(data), err)
			}
		}
	}
	if _, err := Decode(testFile(t, "animated.webp")); err == nil || !strings.Contains(err.Error(), "animated") {
		t.Errorf("an animated WebP: %v", err)
	}
}

// fuzzFormat is FuzzDecode with the seeds of one format.
func fuzzFormat(f *testing.F, seeds ...[]byte) {
	for _, s := range seeds {
		f.Add(s)
	}
	for name, data := range bombs(f) {
		if bytes.HasPrefix(data, seeds[0][:2]) {
			f.Logf("seed: %s", name)
			f.Add(data)
		}
	}
	f.Fuzz(fuzzDecode)
}

func FuzzGIF(f *testing.F) {
	fuzzFormat(f, testFile(f, "still.gif"), gifOf(f, image.Pt(9, 9), blocky(image.Rect(2, 3, 6, 7))))
}

func FuzzWebP(f *testing.F) {
	fuzzFormat(f, testFile(f, "lossless.webp"), testFile(f, "lossy.webp"), testFile(f, "alpha.webp"), testFile(f, "animated.webp"), extended(f, tiffBlock("MM", 6)))
}

func FuzzBMP(f *testing.F) {
	fuzzFormat(f, asBMP(f, quartered(4, 4)), asBMP(f, blocky(image.Rect(0, 0, 5, 3))))
}

func FuzzTIFF(f *testing.F) {
	fuzzFormat(f, asTIFF(f, quartered(6, 4), tiff.Deflate), asTIFF(f, image.NewGray(image.Rect(0, 0, 5, 3)), tiff.Uncompressed), testFile(f, "lzw.tiff"), withTIFFTurn(f, 6))
}
