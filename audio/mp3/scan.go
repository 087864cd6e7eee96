package mp3

import (
	"bytes"
	"encoding/binary"
)

// frame is the place of one MPEG frame in the file.
type frame struct {
	offset int
	header header
}

// scan returns the frames of the first MPEG stream in data. Rubbish between
// frames is passed over; a last frame that is cut short is left out.
func scan(data []byte) []frame {
	data = trimTail(data)
	start := findSync(data)
	if start < 0 {
		return nil
	}
	first, _ := parseHeader(data[start:])
	var frames []frame
	for pos := start; pos+headerBytes <= len(data); {
		h, ok := parseHeader(data[pos:])
		if ok && h.sameStream(first) && h.size() > 0 && pos+h.size() <= len(data) {
			frames = append(frames, frame{pos, h})
			pos += h.size()
			continue
		}
		pos = resync(data, pos+1, first)
	}
	return frames
}

// findSync returns the offset of the first frame: a header that two more of
// the same stream follow. In a file of one or two frames the last one ends
// with the data, and a single one starts with it too. It is -1 if there is no
// such frame.
func findSync(data []byte) int {
	for pos := 0; pos+headerBytes <= len(data); pos++ {
		step := bytes.IndexByte(data[pos:], 0xFF)
		if step < 0 {
			return -1
		}
		pos += step
		h, ok := parseHeader(data[pos:])
		if !ok || h.size() == 0 || pos+h.size() > len(data) {
			continue
		}
		next := pos + h.size()
		if next == len(data) && pos == 0 {
			return pos
		}
		if next+headerBytes <= len(data) && follows(data, next, h) && follows(data, next+sizeAt(data, next), h) {
			return pos
		}
	}
	return -1
}

// resync returns the offset of the next header at or after pos that belongs
// to the stream of first and is followed by another, len(data) if none is.
func resync(data []byte, pos int, first header) int {
	for ; pos+headerBytes <= len(data); pos++ {
		step := bytes.IndexByte(data[pos:], 0xFF)
		if step < 0 {
			break
		}
		pos += step
		h, ok := parseHeader(data[pos:])
		if ok && h.sameStream(first) && h.size() > 0 && pos+h.size() <= len(data) && follows(data, pos+h.size(), first) {
			return pos
		}
	}
	return len(data)
}

// follows reports whether a header of the same stream is at pos, or the data
// ends there, within a header's length.
func follows(data []byte, pos int, h header) bool {
	if pos+headerBytes > len(data) {
		return true
	}
	o, ok := parseHeader(data[pos:])
	return ok && o.sameStream(h)
}

// sizeAt returns the size of the frame at pos, len(data) if none is there.
func sizeAt(data []byte, pos int) int {
	if pos+headerBytes <= len(data) {
		if h, ok := parseHeader(data[pos:]); ok && h.size() > 0 {
			return h.size()
		}
	}
	return len(data)
}

// trimTail takes ID3v1 and APE tags off the end, whose bytes could pass for
// frames.
//
// APE layout: https://wiki.hydrogenaudio.org/index.php?title=APE_Tags_Header
func trimTail(data []byte) []byte {
	const id3v1Bytes, apeFooterBytes = 128, 32
	if n := len(data) - id3v1Bytes; n >= 0 && bytes.HasPrefix(data[n:], []byte("TAG")) {
		data = data[:n]
	}
	if n := len(data) - apeFooterBytes; n >= 0 && bytes.HasPrefix(data[n:], []byte("APETAGEX")) {
		size := int(binary.LittleEndian.Uint32(data[n+12:])) // footer included, header not
		if size >= apeFooterBytes && size <= len(data) {
			data = data[:len(data)-size]
		}
	}
	return data
}

// probeBytes is how far Probe looks for the first frame.
const probeBytes = 1 << 16

// Probe reports whether data, the start of a file after any ID3v2 tags, looks
// like MPEG audio: frames that follow each other start near its beginning.
func Probe(data []byte) bool {
	return findSync(data[:min(len(data), probeBytes)]) >= 0
}
