package picture

import (
	"bytes"
	"errors"
	"image"
	"image/color"
	"image/gif"
	"image/jpeg"
	"image/png"
	"io"

	"golang.org/x/image/bmp"
	"golang.org/x/image/tiff"
	"golang.org/x/image/webp"
)

// Extensions names the files that can be brought in, for file dialogs.
var Extensions = []string{".png", ".jpg", ".jpeg", ".gif", ".webp", ".bmp", ".tif", ".tiff"}

// ErrFormat is wrapped when bytes are no picture of a kind that can be
// brought in.
var ErrFormat = errors.New("not a PNG, JPEG, GIF, WebP, BMP or TIFF picture")

// format is one kind of picture that can be brought in. They are told apart
// here and not by what package image knows, which depends on what else the
// program links.
type format struct {
	is      func(data []byte) bool
	config  func(io.Reader) (image.Config, error)
	decode  func(io.Reader) (image.Image, error)
	check   func(data []byte) error // what the decoder would trust; may be nil
	density int                     // most pixels that one byte of the file can hold
	ending  string                  // of its files
}

var formats = []format{
	// A deflate code of 2 bits gives at most 258 bytes (RFC 1951, 3.2.5) of
	// at most 8 pixels each.
	{begins("\x89PNG\r\n\x1a\n"), png.DecodeConfig, png.Decode, checkPNG, 4 * 258 * 8, ".png"},
	// One component at least has all pixels, and each of its blocks of 8 x 8
	// takes a bit or more (ITU-T T.81, A.1.1 and F.1.2).
	{begins("\xff\xd8"), jpeg.DecodeConfig, jpeg.Decode, checkJPEG, 8 * 64, ".jpg"},
	// A code of LZW has at most 12 bits and adds one pixel to an earlier one
	// (GIF89a, appendix F), so the longest of 4096 gives fewer than as many.
	{begins("GIF87a", "GIF89a"), gif.DecodeConfig, decodeGIF, nil, 4096 * 8 / 12, ".gif"},
	// The lossless kind may spend no bit on a pixel at all; this is far beyond
	// what drawings on plain paper come to.
	{isWebP, webp.DecodeConfig, decodeWebP, checkWebP, 1 << 15, ".webp"},
	{begins("BM"), bmp.DecodeConfig, bmp.Decode, nil, 8, ".bmp"},
	// A bit may stand for a whole row of a fax (ITU-T T.6); see WebP.
	{begins("II*\x00", "MM\x00*"), tiff.DecodeConfig, tiff.Decode, checkTIFF, 1 << 15, ".tif"},
}

func begins(signatures ...string) func([]byte) bool {
	return func(data []byte) bool {
		for _, s := range signatures {
			if bytes.HasPrefix(data, []byte(s)) {
				return true
			}
		}
		return false
	}
}

func formatOf(data []byte) (format, error) {
	for _, f := range formats {
		if f.is(data) {
			return f, nil
		}
	}
	return format{}, ErrFormat
}

// Extension returns what the name of a picture's file ends in, with the dot, and
// ".bin" for what is no picture.
func Extension(data []byte) string {
	f, err := formatOf(data)
	if err != nil {
		return ".bin"
	}
	return f.ending
}

// decodeGIF returns the first picture of a GIF on the whole of its screen.
func decodeGIF(r io.Reader) (image.Image, error) {
	data, err := io.ReadAll(r)
	if err != nil {
		return nil, err
	}
	screen, err := gif.DecodeConfig(bytes.NewReader(data))
	if err != nil {
		return nil, err
	}
	first, err := gif.Decode(bytes.NewReader(data))
	if err != nil {
		return nil, err
	}
	whole := image.Rect(0, 0, screen.Width, screen.Height)
	if first.Bounds() == whole {
		return first, nil
	}
	return onScreen{first, whole}, nil
}

// onScreen is a picture on a larger clear screen.
type onScreen struct {
	first  image.Image
	screen image.Rectangle
}

func (p onScreen) Bounds() image.Rectangle { return p.screen }
func (p onScreen) ColorModel() color.Model { return color.RGBAModel }

func (p onScreen) At(x, y int) color.Color {
	if !image.Pt(x, y).In(p.first.Bounds()) {
		return color.RGBA{}
	}
	return p.first.At(x, y)
}

// checkTIFF refuses tiles far larger than the picture: decoders take memory
// for a whole tile.
func checkTIFF(data []byte) error {
	tags := tiffTags(data)
	w, h := uint64(tags[tagTileWidth]), uint64(tags[tagTileLength])
	if w*h > MaxPixels || w > 1<<16 || h > 1<<16 {
		return errors.New("its tiles are too large")
	}
	return nil
}
