package picture

import (
	"strings"

	"github.com/go-text/typesetting/font"
	ot "github.com/go-text/typesetting/font/opentype"
	"github.com/go-text/typesetting/shaping"

	"stillbeat/board/internal/letters"
)

// lineStep is from one baseline to the next, in ems; rise is how far letters
// reach above the baseline and fall how far below. Noto Sans has room for
// these; scripts with marks above marks take more.
const (
	lineStep = 1.3
	rise     = 1.0
	fall     = 0.3
)

// glyph is a letter's place in a block of words, in ems from the left end of
// the block's first baseline, y down.
type glyph struct {
	face *font.Font
	id   font.GID
	x, y float64
}

// block is words set in lines. Lengths are in ems.
type block struct {
	glyphs  []glyph
	lines   int
	wide    float64 // of the longest line
	missing bool    // a character is in none of the fonts
}

// high returns the height of the block.
func (b block) high() float64 {
	if b.lines == 0 {
		return 0
	}
	return rise + fall + lineStep*float64(b.lines-1)
}

// set breaks words into lines of at most wide ems, each centred.
func set(text string, wide float64) block {
	s := letters.Get()
	defer s.Put()
	var out block
	for _, paragraph := range strings.Split(strings.TrimRight(text, " \t\r\n"), "\n") {
		out.paragraph(s, []rune(strings.TrimRight(paragraph, "\r")), wide)
	}
	if text == "" || strings.TrimSpace(text) == "" {
		return block{}
	}
	return out
}

// paragraph adds the lines of one paragraph.
func (b *block) paragraph(s *letters.Setter, text []rune, wide float64) {
	if len(text) == 0 {
		b.lines++
		return
	}
	for _, line := range s.Lines(text, wide) {
		b.line(line)
	}
}

// line adds one line, its runs from left to right.
func (b *block) line(line shaping.Line) {
	wide := letters.Wide(line)
	b.wide = max(b.wide, wide)
	y := lineStep * float64(b.lines)
	b.lines++
	x := -wide / 2
	for _, run := range letters.LeftToRight(line) {
		for _, g := range run.Glyphs {
			b.missing = b.missing || g.GlyphID == 0
			b.glyphs = append(b.glyphs, glyph{run.Face.Font, g.GlyphID, x + letters.Ems(g.XOffset), y - letters.Ems(g.YOffset)})
			x += letters.Ems(g.XAdvance)
		}
	}
}

// outline adds the letters of a block to an outline, em pixels high, centred
// on at; nib is how far their edges are moved out, for bold letters and lines
// around letters.
func (b block) outline(o *outline, at pt, em, nib float64) {
	top := float64(at.y) - b.high()*em/2 + rise*em
	faces := map[*font.Font]*font.Face{}
	for _, g := range b.glyphs {
		face := faces[g.face]
		if face == nil {
			face = font.NewFace(g.face)
			faces[g.face] = face
		}
		shape, ok := face.GlyphData(g.id).(font.GlyphOutline)
		if !ok {
			continue
		}
		k := em / float64(face.Upem())
		o.letter(shape.Segments, float64(at.x)+g.x*em, top+g.y*em, k, nib)
	}
}

// letter adds the shapes of one letter, k pixels to a unit of its font.
func (o *outline) letter(segments []ot.Segment, x, y, k, nib float64) {
	at := func(p ot.SegmentPoint) pt { return pt{float32(x + float64(p.X)*k), float32(y - float64(p.Y)*k)} }
	var contours [][]pt
	var now []pt
	for _, s := range segments {
		switch s.Op {
		case ot.SegmentOpMoveTo:
			contours = append(contours, now)
			now = []pt{at(s.Args[0])}
		case ot.SegmentOpLineTo:
			now = append(now, at(s.Args[0]))
		case ot.SegmentOpQuadTo:
			a, b, c := now[len(now)-1], at(s.Args[0]), at(s.Args[1])
			now = curve(now, a, pt{a.x + (b.x-a.x)*2/3, a.y + (b.y-a.y)*2/3}, pt{c.x + (b.x-c.x)*2/3, c.y + (b.y-c.y)*2/3}, c)
		case ot.SegmentOpCubeTo:
			now = curve(now, now[len(now)-1], at(s.Args[0]), at(s.Args[1]), at(s.Args[2]))
		}
	}
	for _, c := range append(contours, now) {
		if len(c) < 3 {
			continue
		}
		from := len(o.points)
		o.points = append(o.points, c...)
		o.add(from)
		if nib > 0 {
			line := make([]dot, len(c))
			for i, p := range c {
				line[i] = dot{p, float32(nib)}
			}
			o.pen(distinct(line), true)
		}
	}
}

// distinct leaves out dots that lie where the one before does.
func distinct(line []dot) []dot {
	out := line[:1]
	for _, d := range line[1:] {
		if d.pt != out[len(out)-1].pt {
			out = append(out, d)
		}
	}
	if n := len(out); n > 1 && out[0].pt == out[n-1].pt {
		out = out[:n-1]
	}
	return out
}

// curve adds a cubic Bezier curve from a to d in straight lines that stray
// less than a tenth of a pixel from it.
func curve(line []pt, a, b, c, d pt) []pt {
	// The second differences bound the distance: n lines stray by at most a
	// quarter of 3 times their length over n squared.
	away := max(hypot(a.x-2*b.x+c.x, a.y-2*b.y+c.y), hypot(b.x-2*c.x+d.x, b.y-2*c.y+d.y))
	n := 1
	for float32(n*n) < 0.75*away/0.1 && n < 64 {
		n++
	}
	for i := 1; i <= n; i++ {
		t := float32(i) / float32(n)
		u := 1 - t
		k0, k1, k2, k3 := u*u*u, 3*u*u*t, 3*u*t*t, t*t*t
		line = append(line, pt{k0*a.x + k1*b.x + k2*c.x + k3*d.x, k0*a.y + k1*b.y + k2*c.y + k3*d.y})
	}
	return line
}
