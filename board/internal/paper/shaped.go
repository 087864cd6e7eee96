package paper

import (
	"slices"
	"strings"

	"github.com/go-text/typesetting/di"
	"github.com/go-text/typesetting/font"
	ot "github.com/go-text/typesetting/font/opentype"
	"github.com/go-text/typesetting/shaping"

	"stillbeat/assets/fonts"
	"stillbeat/board/internal/letters"
)

// setLine is a line that was shaped. Lengths are in ems from its left end.
type setLine struct {
	runs []setRun
	wide float64
}

// setRun is a part of a line in one font and direction.
type setRun struct {
	text    string // as it stands, from left to right
	plain   bool   // to be written letter by letter
	x, wide float64
	glyphs  []glyph
}

type glyph struct {
	shape shapeOf
	x, y  float64 // y up
}

type shapeOf struct {
	font *font.Font
	id   font.GID
}

// lineOf shapes a line.
func (d *Doc) lineOf(text string) setLine {
	if l, ok := d.set[text]; ok {
		return l
	}
	setter := letters.Get()
	defer setter.Put()
	runes := []rune(text)
	var out setLine
	for _, l := range setter.Lines(runes, 1e9, features(text)...) {
		for _, run := range letters.LeftToRight(l) {
			r := runOf(runes, run)
			r.x, r.wide = out.wide, letters.Ems(run.Advance)
			x := out.wide
			for _, g := range run.Glyphs {
				r.glyphs = append(r.glyphs, glyph{shapeOf{run.Face.Font, g.GlyphID}, x + letters.Ems(g.XOffset), letters.Ems(g.YOffset)})
				x += letters.Ems(g.XAdvance)
			}
			out.wide += r.wide
			out.runs = append(out.runs, r)
		}
	}
	d.set[text] = out
	return out
}

func runOf(text []rune, run *shaping.Output) setRun {
	part := slices.Clone(text[run.Runes.Offset : run.Runes.Offset+run.Runes.Count])
	r := setRun{plain: run.Direction == di.DirectionLTR && run.Face.Font == letters.Load(fonts.Usual) && simple(string(part))}
	if run.Direction == di.DirectionRTL {
		slices.Reverse(part)
	}
	r.text = string(part)
	return r
}

// features are those text is shaped with: what is written letter by letter is
// measured so.
func features(text string) []shaping.FontFeature {
	if !simple(text) {
		return nil
	}
	return []shaping.FontFeature{{Tag: ot.MustNewTag("kern")}, {Tag: ot.MustNewTag("liga")}}
}

// plain writes text in the usual font, stretched to so much of its width.
func (d *Doc) plain(x, y float64, text string, stretch float64, s Style) {
	d.setPoints(s.points())
	state := "q " + fill(s.ink())
	if s.Bold {
		state += "2 Tr " + stroke(s.ink()) + d.thick(boldNib*s.em())
	}
	d.raw(state + stretched(stretch))
	d.pdf.Text(x, y, text)
	d.raw("Q")
}

// hidden writes text that is found but not seen.
func (d *Doc) hidden(x, y float64, r setRun, s Style) {
	text := strings.Map(func(c rune) rune {
		if c > 0xffff {
			return '\uFFFD' // the library writes 16 bits a letter
		}
		return c
	}, r.text)
	natural := d.natural(text)
	if natural <= 0 || r.wide <= 0 {
		return
	}
	d.setPoints(s.points())
	d.raw("q 3 Tr " + stretched(r.wide/natural))
	d.pdf.Text(x, y, text)
	d.raw("Q")
}

// boldNib is how thick the line is that bold letters are drawn with, in ems.
const boldNib = 0.035

func stretched(k float64) string {
	if k == 1 {
		return ""
	}
	return num(100*k) + "Tz"
}

func (d *Doc) setPoints(points float64) {
	if d.points != points {
		d.pdf.SetFontSize(points)
		d.points = points
	}
}

// shaped writes a line of any script.
func (d *Doc) shaped(x, y float64, text string, s Style) {
	em := s.em()
	for _, r := range d.lineOf(text).runs {
		if r.plain {
			if natural := d.natural(r.text); natural > 0 {
				d.plain(x+r.x*em, y, r.text, r.wide/natural, s)
			}
			continue
		}
		var b strings.Builder
		b.WriteString("q " + fill(s.ink()) + stroke(s.ink()))
		for _, g := range r.glyphs {
			shape := d.shape(g.shape)
			if shape == "" {
				continue
			}
			k := em * mm / float64(g.shape.font.Upem())
			b.WriteString("q " + fine(k) + "0 0 " + fine(k) + d.at(x+g.x*em, y-g.y*em) + "cm ")
			if s.Bold {
				b.WriteString(num(boldNib*float64(g.shape.font.Upem())) + "w ")
			}
			b.WriteString(shape)
			if s.Bold {
				b.WriteString("B Q ")
			} else {
				b.WriteString("f Q ")
			}
		}
		b.WriteString("Q")
		d.raw(b.String())
		d.hidden(x+r.x*em, y, r, s)
	}
}
