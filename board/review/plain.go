package review

import (
	"strings"
	"unicode"
)

// plain returns text without what is not to be read: control characters, and
// those that turn the direction of text about, so that it reads as it is. Line
// breaks stay, in one form, unless it is to be one line; tabs become spaces.
// Letters of all scripts, and the joiners some of them need, stay.
func plain(text string, oneLine bool) string {
	text = strings.ReplaceAll(strings.ReplaceAll(text, "\r\n", "\n"), "\r", "\n")
	return strings.TrimSpace(strings.Map(func(r rune) rune {
		switch {
		case r == '\t' || r == '\u2028' || r == '\u2029' || oneLine && r == '\n':
			return ' '
		case r == '\n':
			return r
		case unicode.IsControl(r) || turns(r):
			return -1
		}
		return r
	}, text))
}

// turns reports whether a character embeds, overrides or isolates a direction
// (Unicode Standard Annex 9, 2).
func turns(r rune) bool { return r >= '\u202a' && r <= '\u202e' || r >= '\u2066' && r <= '\u2069' }
