package file

import (
	"bytes"
	"compress/flate"
	"encoding/binary"
	"errors"
	"io"
)

// A patch leads from one text to another and back. It is a list of places at
// which the texts differ, each written as the number of bytes since the last
// one in which they agree, the lengths of the old and of the new bytes, and
// these themselves.
//
// An edit changes few fields of a board's JSON, or the same field of many
// panels, so texts that have equally many fields are compared field by field.

var errPatch = errors.New("a step of the history does not fit its board")

// makePatch returns the patch between two texts.
func makePatch(before, after []byte) []byte {
	same := commonPrefix(before, after)
	end := commonSuffix(before[same:], after[same:])
	before, after = before[same:len(before)-end], after[same:len(after)-end]
	if len(before) == 0 && len(after) == 0 {
		return nil
	}
	if bytes.Count(before, comma) != bytes.Count(after, comma) {
		return appendPlace(nil, same, before, after)
	}
	var out, oldRun, newRun []byte
	for len(before) > 0 || len(after) > 0 {
		oldField, newField := field(&before), field(&after)
		if !bytes.Equal(oldField, newField) {
			oldRun, newRun = append(oldRun, oldField...), append(newRun, newField...)
			continue
		}
		if len(oldRun) > 0 || len(newRun) > 0 {
			out = appendPlace(out, same, oldRun, newRun)
			same, oldRun, newRun = 0, oldRun[:0], newRun[:0]
		}
		same += len(oldField)
	}
	return appendPlace(out, same, oldRun, newRun)
}

var comma = []byte{','}

// field cuts the text up to and with its first comma off.
func field(text *[]byte) []byte {
	n := bytes.IndexByte(*text, ',') + 1
	if n == 0 {
		n = len(*text)
	}
	out := (*text)[:n]
	*text = (*text)[n:]
	return out
}

func appendPlace(out []byte, same int, before, after []byte) []byte {
	for _, n := range []int{same, len(before), len(after)} {
		out = binary.AppendUvarint(out, uint64(n))
	}
	return append(append(out, before...), after...)
}

// applyPatch returns the text after a patch given the one before it, or, with
// back, the other way round. A text of more than limit bytes is refused.
func applyPatch(text, patch []byte, back bool, limit int) ([]byte, error) {
	var out []byte
	for len(patch) > 0 {
		same, oldRun, newRun := uvarint(&patch), uvarint(&patch), uvarint(&patch)
		if same < 0 || oldRun < 0 || newRun < 0 || oldRun > len(patch) || newRun > len(patch)-oldRun {
			return nil, errPatch
		}
		from, to := patch[:oldRun], patch[oldRun:oldRun+newRun]
		patch = patch[oldRun+newRun:]
		if back {
			from, to = to, from
		}
		if same > len(text) || !bytes.HasPrefix(text[same:], from) || len(out)+same+len(to) > limit {
			return nil, errPatch
		}
		out = append(append(out, text[:same]...), to...)
		text = text[same+len(from):]
	}
	if len(out)+len(text) > limit {
		return nil, errPatch
	}
	return append(out, text...), nil
}

// uvarint cuts a number off; -1 if there is none.
func uvarint(data *[]byte) int {
	v, n := binary.Uvarint(*data)
	if n <= 0 || v > maxJSON {
		return -1
	}
	*data = (*data)[n:]
	return int(v)
}

func commonPrefix(a, b []byte) int {
	n := 0
	const stride = 4096
	for len(a)-n >= stride && len(b)-n >= stride && bytes.Equal(a[n:n+stride], b[n:n+stride]) {
		n += stride
	}
	for n < len(a) && n < len(b) && a[n] == b[n] {
		n++
	}
	return n
}

func commonSuffix(a, b []byte) int {
	n := 0
	const stride = 4096
	for len(a)-n >= stride && len(b)-n >= stride && bytes.Equal(a[len(a)-n-stride:len(a)-n], b[len(b)-n-stride:len(b)-n]) {
		n += stride
	}
	for n < len(a) && n < len(b) && a[len(a)-1-n] == b[len(b)-1-n] {
		n++
	}
	return n
}

// mostPacked bounds how far a text is packed, so that a small damaged file
// cannot ask for much memory. Text that would be packed further is packed
// with its letters alone, which is at most eightfold.
const mostPacked = 100

// pack deflates a text.
func pack(text []byte) []byte {
	packed := deflate(text, flate.BestSpeed)
	if len(text) > unpacked(len(packed)) {
		packed = deflate(text, flate.HuffmanOnly)
	}
	return packed
}

// unpacked is the size of the largest text in so many packed bytes.
func unpacked(packed int) int { return mostPacked * (packed + 100) }

func deflate(text []byte, level int) []byte {
	var out bytes.Buffer
	w, err := flate.NewWriter(&out, level)
	if err == nil {
		_, err = w.Write(text)
	}
	if err == nil {
		err = w.Close()
	}
	if err != nil {
		panic(err) // only a level that is none, or a full buffer
	}
	return out.Bytes()
}

// unpack returns what was packed.
func unpack(packed []byte) ([]byte, error) {
	limit := unpacked(len(packed))
	text, err := io.ReadAll(io.LimitReader(flate.NewReader(bytes.NewReader(packed)), int64(limit)+1))
	if err != nil || len(text) > limit {
		return nil, errPatch
	}
	return text, nil
}
