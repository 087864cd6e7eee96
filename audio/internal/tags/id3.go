package tags

import (
	"bytes"
	"encoding/binary"

	"stillbeat/audio/internal/input"
)

const (
	id3HeaderSize = 10
	id3v1Size     = 128
)

// SkipID3 returns data without the ID3v2 tags at its start. A tag that claims
// to be longer than data loses its header only.
func SkipID3(data []byte) []byte {
	for {
		n := id3Size(data)
		if n == 0 {
			return data
		}
		if n > len(data) {
			n = id3HeaderSize
		}
		data = data[n:]
	}
}

// PassID3 passes the ID3v2 tags before a sound, as SkipID3 does.
func PassID3(in *input.Window) error {
	for {
		head, err := in.Peek(id3HeaderSize)
		if err != nil {
			return err
		}
		n := int64(id3Size(head))
		if n == 0 {
			return nil
		}
		if n > in.Left() {
			n = id3HeaderSize
		}
		in.Pass(n)
	}
}

// id3Size returns the length of the ID3v2 tag at the start of data, header
// and footer included, 0 if there is none.
func id3Size(data []byte) int {
	if len(data) < id3HeaderSize || string(data[:3]) != "ID3" || data[3] == 0xFF || data[4] == 0xFF {
		return 0
	}
	for _, b := range data[6:10] {
		if b >= 0x80 {
			return 0
		}
	}
	n := id3HeaderSize + syncsafe(data[6:10])
	if data[5]&0x10 != 0 { // footer
		n += id3HeaderSize
	}
	return n
}

// syncsafe reads four bytes of seven bits each.
func syncsafe(b []byte) int {
	return int(b[0])<<21 | int(b[1])<<14 | int(b[2])<<7 | int(b[3])
}

// ID3Title returns the title in the first ID3v2 tag of data (frame TIT2, or
// TT2 in version 2.2), else the one in the ID3v1 tag at its end, else "".
//
// Layouts: https://id3.org/id3v2.4.0-structure, https://id3.org/id3v2.3.0,
// https://id3.org/id3v2-00, https://id3.org/ID3v1
func ID3Title(data []byte) string {
	if n := id3Size(data); n > 0 {
		if title := id3v2Title(data[:min(n, len(data))]); title != "" {
			return title
		}
	}
	if len(data) >= id3v1Size {
		if tail := data[len(data)-id3v1Size:]; string(tail[:3]) == "TAG" {
			return Clean(latin1(tail[3:33]))
		}
	}
	return ""
}

// id3v2Title looks for the title frame in a whole ID3v2 tag.
func id3v2Title(tag []byte) string {
	version, flags, body := tag[3], tag[5], tag[id3HeaderSize:]
	if flags&0x80 != 0 && version < 4 {
		body = resync(body)
	}
	if version >= 3 && flags&0x40 != 0 { // extended header
		if len(body) < 4 {
			return ""
		}
		n := syncsafe(body[:4])
		if version == 3 {
			n = 4 + int(binary.BigEndian.Uint32(body))
		}
		if n < 0 || n > len(body) {
			return ""
		}
		body = body[n:]
	}
	for {
		f, rest, ok := nextFrame(body, version)
		if !ok {
			return ""
		}
		if f.id == "TIT2" || f.id == "TT2" {
			return f.text()
		}
		body = rest
	}
}

// id3Frame is one field of an ID3v2 tag.
type id3Frame struct {
	id   string
	body []byte
}

// nextFrame splits off the first frame of body; ok is false at the end. The
// body of a compressed or encrypted frame is left out.
func nextFrame(body []byte, version byte) (f id3Frame, rest []byte, ok bool) {
	header, idSize := 10, 4
	if version == 2 {
		header, idSize = 6, 3
	}
	if len(body) < header || body[0] == 0 {
		return f, nil, false
	}
	var size int
	switch version {
	case 2:
		size = int(body[3])<<16 | int(body[4])<<8 | int(body[5])
	case 3:
		size = int(binary.BigEndian.Uint32(body[4:]))
	default:
		size = syncsafe(body[4:8])
	}
	f.id = string(body[:idSize])
	rest = body[header:]
	if size < 0 || size > len(rest) {
		return f, nil, false
	}
	f.body, rest = rest[:size], rest[size:]
	switch version {
	case 3:
		f.strip(body[9]&0xC0 != 0, body[9]&0x20 != 0, false, false)
	case 4:
		f.strip(body[9]&0x0C != 0, body[9]&0x40 != 0, body[9]&0x01 != 0, body[9]&0x02 != 0)
	}
	return f, rest, true
}

// strip undoes what the frame's flags say: packed bodies are dropped, the
// group byte and the four length bytes skipped, unsynchronisation reversed.
func (f *id3Frame) strip(packed, group, length, unsync bool) {
	skip := 0
	if group {
		skip++
	}
	if length {
		skip += 4
	}
	if packed || skip > len(f.body) {
		f.body = nil
		return
	}
	f.body = f.body[skip:]
	if unsync {
		f.body = resync(f.body)
	}
}

// resync undoes unsynchronisation: a zero byte was put after each 0xFF.
func resync(b []byte) []byte {
	return bytes.ReplaceAll(b, []byte{0xFF, 0x00}, []byte{0xFF})
}

// text decodes a text frame: one byte for the encoding, then the text.
func (f id3Frame) text() string {
	if len(f.body) < 2 {
		return ""
	}
	text := f.body[1:]
	switch f.body[0] {
	case 0:
		return Clean(latin1(text))
	case 1:
		return Clean(decodeUTF16(text, false))
	case 2:
		return Clean(decodeUTF16(text, true))
	case 3:
		return Clean(string(text))
	}
	return ""
}
