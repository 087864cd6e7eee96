package paper

import (
	"strconv"
	"strings"

	"github.com/go-text/typesetting/font"
	ot "github.com/go-text/typesetting/font/opentype"
)

// shape returns the outline of a letter as operators, in units of its font;
// none if the letter leaves no mark.
func (d *Doc) shape(of shapeOf) string {
	if s, ok := d.shapes[of]; ok {
		return s
	}
	face := d.faces[of.font]
	if face == nil {
		face = font.NewFace(of.font)
		d.faces[of.font] = face
	}
	var s string
	if outline, ok := face.GlyphData(of.id).(font.GlyphOutline); ok {
		s = operators(outline.Segments)
	}
	d.shapes[of] = s
	return s
}

func operators(segments []ot.Segment) string {
	var b strings.Builder
	var now ot.SegmentPoint
	point := func(x, y float32) { b.WriteString(num(float64(x)) + num(float64(y))) }
	for i, s := range segments {
		a := s.Args
		switch s.Op {
		case ot.SegmentOpMoveTo:
			if i > 0 {
				b.WriteString("h ")
			}
			point(a[0].X, a[0].Y)
			b.WriteString("m ")
			now = a[0]
		case ot.SegmentOpLineTo:
			point(a[0].X, a[0].Y)
			b.WriteString("l ")
			now = a[0]
		case ot.SegmentOpQuadTo: // the same curve as a cubic one
			point(now.X+(a[0].X-now.X)*2/3, now.Y+(a[0].Y-now.Y)*2/3)
			point(a[1].X+(a[0].X-a[1].X)*2/3, a[1].Y+(a[0].Y-a[1].Y)*2/3)
			point(a[1].X, a[1].Y)
			b.WriteString("c ")
			now = a[1]
		case ot.SegmentOpCubeTo:
			point(a[0].X, a[0].Y)
			point(a[1].X, a[1].Y)
			point(a[2].X, a[2].Y)
			b.WriteString("c ")
			now = a[2]
		}
	}
	if b.Len() > 0 {
		b.WriteString("h ")
	}
	return b.String()
}

// fine writes a number that may be small.
func fine(v float64) string { return strconv.FormatFloat(v, 'f', 6, 64) + " " }
