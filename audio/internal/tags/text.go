// Package tags finds the title in the tags of sound files.
package tags

import (
	"strings"
	"unicode"
	"unicode/utf16"
	"unicode/utf8"
)

// maxTitle is the longest title kept, in characters.
const maxTitle = 200

// Clean makes a title fit for one line on the screen: it ends at the first
// NUL, holds no control characters and has at most 200 characters.
func Clean(s string) string {
	s, _, _ = strings.Cut(s, "\x00")
	s = strings.ToValidUTF8(s, "\uFFFD")
	s = strings.Map(func(r rune) rune {
		if unicode.IsControl(r) {
			return ' '
		}
		return r
	}, s)
	s = strings.TrimSpace(s)
	if utf8.RuneCountInString(s) > maxTitle {
		s = strings.TrimSpace(string([]rune(s)[:maxTitle]))
	}
	return s
}

// Text decodes a title whose encoding the file does not state: UTF-8 if it is
// valid, otherwise Latin-1.
func Text(b []byte) string {
	if utf8.Valid(b) {
		return Clean(string(b))
	}
	return Clean(latin1(b))
}

// latin1 decodes ISO 8859-1, in which each byte is its own code point.
func latin1(b []byte) string {
	runes := make([]rune, len(b))
	for i, c := range b {
		runes[i] = rune(c)
	}
	return string(runes)
}

// decodeUTF16 decodes UTF-16. A byte order mark wins over bigEndian.
func decodeUTF16(b []byte, bigEndian bool) string {
	if len(b) >= 2 {
		switch {
		case b[0] == 0xFF && b[1] == 0xFE:
			b, bigEndian = b[2:], false
		case b[0] == 0xFE && b[1] == 0xFF:
			b, bigEndian = b[2:], true
		}
	}
	units := make([]uint16, len(b)/2)
	for i := range units {
		lo, hi := b[2*i], b[2*i+1]
		if bigEndian {
			lo, hi = hi, lo
		}
		units[i] = uint16(hi)<<8 | uint16(lo)
	}
	return string(utf16.Decode(units))
}
