package picture

import (
	"encoding/binary"
	"errors"
	"image"
	"io"

	"golang.org/x/image/webp"
)

// isWebP looks at what is about the length of the rest in the first bytes.
func isWebP(data []byte) bool {
	return len(data) >= 12 && string(data[:4]) == "RIFF" && string(data[8:12]) == "WEBP"
}

var (
	errCut      = errors.New("it is cut short")
	errAnimated = errors.New("it is animated, which is not read")
)

// checkWebP sees to it that the file is as long as it says: decoders take
// memory for each part on its word.
func checkWebP(data []byte) error {
	if int64(binary.LittleEndian.Uint32(data[4:])) > int64(len(data))-8 {
		return errCut
	}
	return eachWebP(data, func(id string, body []byte) error {
		if id == "VP8X" && len(body) > 0 && body[0]&2 != 0 {
			return errAnimated
		}
		return nil
	})
}

// eachWebP calls do with each part of a WebP file.
func eachWebP(data []byte, do func(id string, body []byte) error) error {
	for rest := data[12:]; len(rest) >= 8; {
		n := int64(binary.LittleEndian.Uint32(rest[4:]))
		if n > int64(len(rest))-8 {
			return errCut
		}
		if err := do(string(rest[:4]), rest[8:8+n]); err != nil {
			return err
		}
		rest = rest[min(8+n+n&1, int64(len(rest))):]
	}
	return nil
}

// decodeWebP returns the picture of a WebP. The kind with loss has its levels
// from 16 to 235, those of colour from 16 to 240 (RFC 6386, section 9.2, ITU-R
// BT.601), which the decoder hands on as if they had the whole range.
func decodeWebP(r io.Reader) (image.Image, error) {
	img, err := webp.Decode(r)
	switch v := img.(type) {
	case *image.YCbCr:
		return wholeRange(v, nil), err
	case *image.NYCbCrA:
		return wholeRange(&v.YCbCr, v), err
	}
	return img, err
}

func wholeRange(src *image.YCbCr, clear *image.NYCbCrA) *image.NRGBA {
	b := src.Rect
	out := image.NewNRGBA(image.Rect(0, 0, b.Dx(), b.Dy()))
	for y := range b.Dy() {
		pix := out.Pix[y*out.Stride:]
		for x := range b.Dx() {
			at, colour := src.YOffset(b.Min.X+x, b.Min.Y+y), src.COffset(b.Min.X+x, b.Min.Y+y)
			// In parts of 65536: 255/219 of the level; 255/224 of the colour
			// times 1.402, 0.344136, 0.714136 and 1.772.
			l := 76309*(int(src.Y[at])-16) + 32768
			cb, cr := int(src.Cb[colour])-128, int(src.Cr[colour])-128
			p := pix[4*x : 4*x+4 : 4*x+4]
			p[0] = clamped((l + 104597*cr) >> 16)
			p[1] = clamped((l - 25675*cb - 53279*cr) >> 16)
			p[2] = clamped((l + 132201*cb) >> 16)
			p[3] = 255
			if clear != nil {
				p[3] = clear.A[clear.AOffset(b.Min.X+x, b.Min.Y+y)]
			}
		}
	}
	return out
}

func clamped(v int) uint8 { return uint8(min(max(v, 0), 255)) }
