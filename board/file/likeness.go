package file

import (
	"encoding/binary"
	"errors"
)

// A likeness says how bytes are made of others, with which they have most in
// common: a list of pieces, each the number of new bytes, these themselves, and
// the place and length of what is taken from the others after them.

var errLikeness = errors.New("a sketch does not fit the one it was made from")

// likePiece is the shortest piece that is looked for in the others, and how far
// apart in them pieces begin that are found.
const likePiece = 16

// makeLikeness returns how to make data of base.
func makeLikeness(base, data []byte) []byte {
	places := make(map[[likePiece]byte]int, len(base)/likePiece)
	for at := 0; at+likePiece <= len(base); at += likePiece {
		if key := [likePiece]byte(base[at:]); places[key] == 0 {
			places[key] = at + 1
		}
	}
	var out []byte
	put := func(fresh []byte, at, n int) {
		out = append(binary.AppendUvarint(out, uint64(len(fresh))), fresh...)
		out = binary.AppendUvarint(binary.AppendUvarint(out, uint64(at)), uint64(n))
	}
	from := 0 // what is not written yet
	for i := 0; i+likePiece <= len(data); {
		at := places[[likePiece]byte(data[i:])] - 1
		if at < 0 {
			i++
			continue
		}
		n := commonPrefix(base[at:], data[i:])
		for i > from && at > 0 && base[at-1] == data[i-1] {
			i, at, n = i-1, at-1, n+1
		}
		put(data[from:i], at, n)
		i += n
		from = i
	}
	if from < len(data) {
		put(data[from:], 0, 0)
	}
	return out
}

// applyLikeness makes data of base. More than limit bytes are refused.
func applyLikeness(base, likeness []byte, limit int) ([]byte, error) {
	var out []byte
	for len(likeness) > 0 {
		fresh := uvarint(&likeness)
		if fresh < 0 || fresh > len(likeness) {
			return nil, errLikeness
		}
		out = append(out, likeness[:fresh]...)
		likeness = likeness[fresh:]
		at, n := uvarint(&likeness), uvarint(&likeness)
		if at < 0 || n < 0 || at > len(base) || n > len(base)-at || len(out)+n > limit {
			return nil, errLikeness
		}
		out = append(out, base[at:at+n]...)
	}
	return out, nil
}
