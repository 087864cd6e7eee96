package tags

import (
	"encoding/binary"
	"strings"
)

// VorbisTitle returns the TITLE field of a Vorbis comment block, as FLAC and
// Ogg Vorbis carry it, or "". Damaged blocks are read as far as they go.
//
// Layout: https://xiph.org/vorbis/doc/v-comment.html
func VorbisTitle(block []byte) string {
	_, block, ok := lengthPrefixed(block) // vendor
	if !ok || len(block) < 4 {
		return ""
	}
	count := binary.LittleEndian.Uint32(block)
	block = block[4:]
	for ; count > 0; count-- {
		var field []byte
		if field, block, ok = lengthPrefixed(block); !ok {
			return ""
		}
		const name = "TITLE="
		if len(field) > len(name) && strings.EqualFold(string(field[:len(name)]), name) {
			return Text(field[len(name):])
		}
	}
	return ""
}

// lengthPrefixed splits off a field that follows its length.
func lengthPrefixed(b []byte) (field, rest []byte, ok bool) {
	if len(b) < 4 {
		return nil, nil, false
	}
	n := binary.LittleEndian.Uint32(b)
	b = b[4:]
	if uint64(n) > uint64(len(b)) {
		return nil, nil, false
	}
	return b[:n], b[n:], true
}
