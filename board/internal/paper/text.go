package paper

import (
	"image/color"
	"strings"
	"unicode"

	"github.com/go-text/typesetting/di"
	"github.com/go-text/typesetting/language"
	"golang.org/x/text/unicode/norm"

	"stillbeat/assets/fonts"
	"stillbeat/board/internal/letters"
)

// Align says which part of a line of text stands at the x it is written at.
type Align int

// The ways.
const (
	Left Align = iota
	Middle
	Right
)

// Style is how text is written. The zero value is black, 10 points.
type Style struct {
	Points float64 // size of the letters, 0: 10
	Bold   bool    // thicker lines; the width stays
	Ink    color.RGBA
	Align  Align
}

func (s Style) points() float64 {
	if s.Points <= 0 {
		return 10
	}
	return s.Points
}

func (s Style) ink() color.RGBA {
	if s.Ink.A == 0 {
		return Black
	}
	return s.Ink
}

// em returns the size of the letters in millimetres. Capitals are 0.714 of it
// high, and lines are well set 1.36 of it apart (the font's own measures).
func (s Style) em() float64 { return s.points() / mm }

// Leading returns the distance of baselines in millimetres.
func (s Style) Leading() float64 { return 1.36 * s.em() }

// Centred returns the baseline that puts capitals and figures in the middle of
// what reaches from y high millimetres down.
func (s Style) Centred(y, high float64) float64 { return y + high/2 + 0.357*s.em() }

// Text writes one line with its baseline at y. What is not to be shaped is
// real text; other scripts are drawn, with text that cannot be seen over them,
// so that both are found by a search.
func (d *Doc) Text(x, y float64, text string, s Style) {
	text = line(text)
	if strings.TrimSpace(text) == "" {
		return
	}
	switch s.Align {
	case Middle:
		x -= d.Width(text, s) / 2
	case Right:
		x -= d.Width(text, s)
	}
	if simple(text) {
		d.plain(x, y, text, 1, s)
		return
	}
	d.shaped(x, y, text, s)
}

// Width returns the width of a line in millimetres.
func (d *Doc) Width(text string, s Style) float64 {
	text = line(text)
	if simple(text) {
		return d.natural(text) * s.em()
	}
	return d.lineOf(text).wide * s.em()
}

// natural returns the width of text in the usual font without kerning, in ems.
func (d *Doc) natural(text string) float64 {
	if d.points == 0 {
		d.pdf.SetFont(family, "", 10) // no page is there yet
		d.points = 10
	}
	return float64(d.pdf.GetStringSymbolWidth(text)) / 1000
}

// Cut returns a line that is no wider than wide millimetres: the text, or as
// much of its beginning as fits with an ellipsis, or nothing.
func (d *Doc) Cut(text string, wide float64, s Style) string {
	text = line(text)
	if d.Width(text, s) <= wide {
		return text
	}
	runes := []rune(text)
	low, high := 0, len(runes) // low runes with an ellipsis fit
	for low+1 < high {
		if mid := (low + high) / 2; d.Width(string(runes[:mid])+"…", s) <= wide {
			low = mid
		} else {
			high = mid
		}
	}
	for low > 0 && unicode.Is(unicode.M, runes[low]) {
		low-- // a letter is not parted from its marks
	}
	if low == 0 && d.Width("…", s) > wide {
		return ""
	}
	return strings.TrimRight(string(runes[:low]), " ") + "…"
}

// Wrap breaks text into lines no wider than wide millimetres, at line ends,
// between words, and within a word that is too long. Lines of one direction
// keep it when they are written one by one.
func (d *Doc) Wrap(text string, wide float64, s Style) []string {
	setter := letters.Get()
	defer setter.Put()
	var out []string
	for _, paragraph := range strings.Split(strings.ReplaceAll(text, "\r\n", "\n"), "\n") {
		paragraph = strings.TrimRight(line(paragraph), " ")
		if paragraph == "" {
			out = append(out, "")
			continue
		}
		runes := []rune(paragraph)
		direction := letters.DirectionOf(runes)
		for _, l := range setter.Lines(runes, wide/s.em(), features(paragraph)...) {
			from, to := len(runes), 0
			for _, run := range l {
				from = min(from, run.Runes.Offset)
				to = max(to, run.Runes.Offset+run.Runes.Count)
			}
			if from < to {
				out = append(out, facing(direction, strings.TrimRight(string(runes[from:to]), " ")))
			}
		}
	}
	return out
}

// facing gives a line the direction of its paragraph, with a mark that is not
// seen where its own letters would give it another (Unicode Standard Annex 9).
func facing(d di.Direction, text string) string {
	switch {
	case letters.DirectionOf([]rune(text)) == d:
		return text
	case d == di.DirectionRTL:
		return "\u200f" + text
	}
	return "\u200e" + text
}

// RightToLeft reports whether text runs from the right, and so is best written
// with Right.
func RightToLeft(text string) bool { return letters.DirectionOf([]rune(text)) == di.DirectionRTL }

// line makes text one line of whole characters: what controls is a space.
func line(text string) string {
	text = strings.ToValidUTF8(text, "\uFFFD")
	text = strings.Map(func(r rune) rune {
		if unicode.IsControl(r) || r == '\u2028' || r == '\u2029' {
			return ' '
		}
		return r
	}, text)
	return norm.NFC.String(text)
}

// simple reports whether text is written right letter by letter in the usual
// font.
func simple(text string) bool {
	for _, r := range text {
		if r >= 0x20 && r < 0x7f {
			continue
		}
		if !simpleRune(r) {
			return false
		}
	}
	return true
}

func simpleRune(r rune) bool {
	if r > 0xffff || unicode.Is(unicode.M, r) || unicode.Is(unicode.Cf, r) {
		return false
	}
	switch language.LookupScript(r) {
	case language.Common, language.Latin, language.Greek, language.Cyrillic:
		_, ok := letters.Load(fonts.Usual).NominalGlyph(r)
		return ok
	}
	return false
}
