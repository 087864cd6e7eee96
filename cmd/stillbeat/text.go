package main

import (
	"strings"
	"unicode"

	"golang.org/x/text/width"
)

// oneLine makes text safe to show on one line of a terminal: line breaks
// become "; ", other control and format characters a space.
func oneLine(text string) string {
	text = strings.ReplaceAll(strings.TrimSpace(text), "\n", "; ")
	return strings.Map(func(r rune) rune {
		if unicode.IsControl(r) || (unicode.Is(unicode.Cf, r) && r != zeroWidthJoiner && r != zeroWidthNonJoiner) {
			return ' '
		}
		return r
	}, text)
}

// Joiners shape letters in Persian, Hindi and others; they are harmless.
const (
	zeroWidthNonJoiner = '\u200c'
	zeroWidthJoiner    = '\u200d'
)

// cells returns how many columns text takes on a terminal: East Asian wide
// characters two (Unicode Standard Annex 11), combining ones none.
func cells(text string) int {
	n := 0
	for _, r := range text {
		switch {
		case unicode.In(r, unicode.Mn, unicode.Me, unicode.Cf):
		case width.LookupRune(r).Kind() == width.EastAsianWide, width.LookupRune(r).Kind() == width.EastAsianFullwidth:
			n += 2
		default:
			n++
		}
	}
	return n
}

// shorten returns the start of text that fits into n columns, with an ellipsis
// if something had to go.
func shorten(text string, n int) string {
	if cells(text) <= n {
		return text
	}
	var b strings.Builder
	used := 0
	for _, r := range text {
		c := cells(string(r))
		if used+c > n-1 {
			break
		}
		b.WriteRune(r)
		used += c
	}
	return b.String() + "…"
}

// table lays rows out in columns.
type table struct {
	right []int // columns that are flush right
	rows  [][]string
}

func (t *table) add(fields ...string) { t.rows = append(t.rows, fields) }

// String returns the rows, two spaces between columns, none at line ends.
func (t *table) String() string {
	var widths []int
	for _, row := range t.rows {
		for i, field := range row {
			if i == len(widths) {
				widths = append(widths, 0)
			}
			widths[i] = max(widths[i], cells(oneLine(field)))
		}
	}
	right := make(map[int]bool)
	for _, i := range t.right {
		right[i] = true
	}
	var b strings.Builder
	for _, row := range t.rows {
		var line strings.Builder
		for i, field := range row {
			field = oneLine(field)
			pad := strings.Repeat(" ", widths[i]-cells(field))
			if i > 0 {
				line.WriteString("  ")
			}
			if right[i] {
				line.WriteString(pad + field)
			} else {
				line.WriteString(field + pad)
			}
		}
		b.WriteString(strings.TrimRight(line.String(), " ") + "\n")
	}
	return b.String()
}
