package picture

import (
	"bytes"
	"encoding/binary"
	"image"
)

// turn is the EXIF orientation of a JPEG file, 1 (upright) to 8; TIFF 6.0 and
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

// orientation finds the turn in a JPEG file's APP1 segment; 1 where there is
// none or it cannot be read.
func orientation(data []byte) turn {
	if len(data) < 4 || data[0] != 0xff || data[1] != 0xd8 {
		return 1
	}
	for p := 2; p+4 <= len(data) && data[p] == 0xff; {
		if data[p+1] == 0xff { // any number of these may stand before a marker
			p++
			continue
		}
		marker, size := data[p+1], int(binary.BigEndian.Uint16(data[p+2:]))
		if marker == 0xda || size < 2 || p+2+size > len(data) {
			return 1
		}
		if body := data[p+4 : p+2+size]; marker == 0xe1 && bytes.HasPrefix(body, []byte("Exif\x00\x00")) {
			return tiffTurn(body[6:])
		}
		p += 2 + size
	}
	return 1
}

func tiffTurn(b []byte) turn {
	if len(b) < 8 {
		return 1
	}
	var order binary.ByteOrder
	switch string(b[:4]) {
	case "II*\x00":
		order = binary.LittleEndian
	case "MM\x00*":
		order = binary.BigEndian
	default:
		return 1
	}
	at := int64(order.Uint32(b[4:]))
	if at+2 > int64(len(b)) {
		return 1
	}
	n := int64(order.Uint16(b[at:]))
	for e := at + 2; n > 0 && e+12 <= int64(len(b)); e, n = e+12, n-1 {
		if order.Uint16(b[e:]) == 0x0112 {
			if v := turn(order.Uint16(b[e+8:])); v >= 1 && v <= 8 {
				return v
			}
			return 1
		}
	}
	return 1
}
