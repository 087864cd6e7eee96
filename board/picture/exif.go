package picture

import (
	"bytes"
	"encoding/binary"
	"image"
)

// turn is the EXIF orientation of a picture, 1 (upright) to 8; TIFF 6.0 and
// EXIF 2.3 give the meaning of each (tag 0x0112).
type turn int

func (o turn) swaps() bool { return o >= 5 }

// upright returns the size of a picture after the turn, or before it.
func (o turn) upright(size image.Point) image.Point {
	if o.swaps() {
		return image.Pt(size.Y, size.X)
	}
	return size
}

// source returns which pixel of the stored picture stands at (x, y) of the
// upright one, which is w x h.
func (o turn) source(x, y, w, h int) (int, int) {
	switch o {
	case 2: // mirrored left to right
		return w - 1 - x, y
	case 3: // upside down
		return w - 1 - x, h - 1 - y
	case 4: // mirrored top to bottom
		return x, h - 1 - y
	case 5: // mirrored along the main diagonal
		return y, x
	case 6: // lies on its left side: turn right
		return y, w - 1 - x
	case 7: // mirrored along the other diagonal
		return h - 1 - y, w - 1 - x
	case 8: // lies on its right side: turn left
		return h - 1 - y, x
	}
	return x, y
}

// orientation finds the turn that a picture's EXIF asks for: in a JPEG file's
// APP1 segment, the eXIf part of a PNG, the EXIF part of a WebP, or the tags of a
// TIFF; 1 where there is none or it cannot be read.
func orientation(data []byte) turn {
	var exif []byte
	switch {
	case begins("\xff\xd8")(data):
		exif = jpegEXIF(data)
	case begins("\x89PNG\r\n\x1a\n")(data):
		exif = pngEXIF(data)
	case isWebP(data):
		_ = eachWebP(data, func(id string, body []byte) error {
			if id == "EXIF" && exif == nil {
				exif = bytes.TrimPrefix(body, []byte("Exif\x00\x00")) // some writers keep JPEG's mark
			}
			return nil
		})
	case begins("II*\x00", "MM\x00*")(data):
		exif = data
	}
	if v := turn(tiffTags(exif)[tagOrientation]); v >= 1 && v <= 8 {
		return v
	}
	return 1
}

// jpegEXIF returns the EXIF of a JPEG file, nil if there is none.
func jpegEXIF(data []byte) []byte {
	for p := 2; p+4 <= len(data) && data[p] == 0xff; {
		if data[p+1] == 0xff { // any number of these may stand before a marker
			p++
			continue
		}
		marker, size := data[p+1], int(binary.BigEndian.Uint16(data[p+2:]))
		if marker == 0xda || size < 2 || p+2+size > len(data) {
			return nil
		}
		if body := data[p+4 : p+2+size]; marker == 0xe1 && bytes.HasPrefix(body, []byte("Exif\x00\x00")) {
			return body[6:]
		}
		p += 2 + size
	}
	return nil
}

// pngEXIF returns the EXIF of a PNG file, nil if there is none (PNG
// specification, third edition, 11.3.4.2).
func pngEXIF(data []byte) []byte {
	for rest := data[8:]; len(rest) >= 12; {
		n := int64(binary.BigEndian.Uint32(rest))
		if n > int64(len(rest))-12 {
			return nil
		}
		switch string(rest[4:8]) {
		case "eXIf":
			return rest[8 : 8+n]
		case "IEND":
			return nil
		}
		rest = rest[12+n:]
	}
	return nil
}

// Tags of TIFF that are looked at (TIFF 6.0, sections 8 and 15).
const (
	tagOrientation = 0x0112
	tagTileWidth   = 0x0142
	tagTileLength  = 0x0143
)

// tiffTags returns the tags above, of the first picture in a TIFF, as far as
// they can be read and are numbers of at most 16 bits or, for a tile, 32.
func tiffTags(b []byte) map[uint16]uint32 {
	if len(b) < 8 {
		return nil
	}
	var order binary.ByteOrder
	switch string(b[:4]) {
	case "II*\x00":
		order = binary.LittleEndian
	case "MM\x00*":
		order = binary.BigEndian
	default:
		return nil
	}
	at := int64(order.Uint32(b[4:]))
	if at+2 > int64(len(b)) {
		return nil
	}
	out := map[uint16]uint32{}
	n := int64(order.Uint16(b[at:]))
	for e := at + 2; n > 0 && e+12 <= int64(len(b)); e, n = e+12, n-1 {
		const long = 4
		switch tag := order.Uint16(b[e:]); {
		case tag != tagOrientation && tag != tagTileWidth && tag != tagTileLength:
		case tag != tagOrientation && order.Uint16(b[e+2:]) == long:
			out[tag] = order.Uint32(b[e+8:])
		default:
			out[tag] = uint32(order.Uint16(b[e+8:]))
		}
	}
	return out
}
