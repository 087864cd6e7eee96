package folder

import (
	"bytes"
	"encoding/json"
)

// lineWidth is the longest object or list that is put on one line, in bytes.
const lineWidth = 100

// layout returns v in JSON as a person reads it: what holds no other object or
// list and is short is on one line, such as a beat; all else is indented.
func layout(v any) ([]byte, error) {
	var plain bytes.Buffer
	e := json.NewEncoder(&plain)
	e.SetEscapeHTML(false)
	if err := e.Encode(v); err != nil {
		return nil, err
	}
	out := make([]byte, 0, 2*plain.Len())
	var frames []bool // of the objects and lists around: is it on one line?
	for rest := bytes.TrimSpace(plain.Bytes()); len(rest) > 0; {
		c := rest[0]
		switch c {
		case '{', '[':
			frames = append(frames, leaf(rest))
			out = append(out, c)
			if rest[1] != c+2 { // '}' and ']' come two after their openings
				out = newline(out, frames)
			}
		case '}', ']':
			last := len(frames) - 1
			if before := out[len(out)-1]; before != c-2 && !frames[last] {
				out = indent(out, last)
			}
			out, frames = append(out, c), frames[:last]
		case ',':
			out = append(out, c)
			if frames[len(frames)-1] {
				out = append(out, ' ')
			} else {
				out = newline(out, frames)
			}
		case ':':
			out = append(out, ": "...)
		default:
			n := scalar(rest)
			out = append(out, rest[:n]...)
			rest = rest[n:]
			continue
		}
		rest = rest[1:]
	}
	return append(out, '\n'), nil
}

// newline goes on inside the innermost frame.
func newline(out []byte, frames []bool) []byte {
	if frames[len(frames)-1] {
		return out
	}
	return indent(out, len(frames))
}

func indent(out []byte, depth int) []byte {
	out = append(out, '\n')
	for range depth {
		out = append(out, "  "...)
	}
	return out
}

// leaf reports whether the object or list that text begins with fits on one
// line and holds no other.
func leaf(text []byte) bool {
	for n := 1; n < min(len(text), lineWidth); {
		switch text[n] {
		case '{', '[':
			return false
		case '}', ']':
			return true
		case ',', ':':
			n++
		default:
			n += scalar(text[n:])
		}
	}
	return false
}

// scalar returns the length of the string, number or word that text begins
// with.
func scalar(text []byte) int {
	if text[0] != '"' {
		if n := bytes.IndexAny(text, ",:]}"); n > 0 {
			return n
		}
		return len(text)
	}
	for n := 1; n < len(text); n++ {
		switch text[n] {
		case '\\':
			n++
		case '"':
			return n + 1
		}
	}
	return len(text)
}
