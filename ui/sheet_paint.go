package ui

import (
	"math"
	"strconv"

	"stillbeat/board/sheet"
)

// paint draws the part of the sheet in sight from top on.
func (v *sheetView) paint(p pen, top float64) {
	p.fill(0, 0, v.width+wallBarW, v.height, paper)
	if len(v.rows) == 0 {
		words := "No panels yet. What is on each frame will stand here, for the table."
		w := p.width(14, false, words)
		p.text(max(8, (v.width-w)/2), v.height/2, 14, false, inkSoft, words)
		return
	}
	first, last := v.inSight(top)
	for line := first; line < last; line++ {
		v.paintGround(p, line, sheetHeadH+float64(line)*sheetRowH-top)
	}
	v.paintLines(p, first, last, top)
	for line := first; line < last; line++ {
		y := sheetHeadH + float64(line)*sheetRowH - top
		row, named := v.rowAt(line)
		switch {
		case row >= len(v.rows):
		case named: // no column's line runs through the name
			p.fill(0, y+stroke(1), v.width, y+sheetRowH, paperDark)
		default:
			v.paintCells(p, row, y)
		}
	}
	v.texts = v.allWords(p, top, v.texts[:0])
	for _, t := range v.texts {
		if isLatin(t.s) {
			p.text(t.x, t.y, t.size, t.bold, t.c, p.shortened(t.s, t.size, t.bold, t.w))
		}
	}
	v.paintPlayhead(p, top)
	v.paintHead(p, v.firstRow(top))
}

// inSight returns the first line of which something is in sight and the one
// after the last.
func (v *sheetView) inSight(top float64) (first, last int) {
	first = max(0, int(top/sheetRowH))
	last = int(math.Ceil((top + v.height - sheetHeadH) / sheetRowH))
	return first, min(last, len(v.rows)+len(v.shots))
}

// paintGround paints what lies under a row, darker where a bar begins.
func (v *sheetView) paintGround(p pen, line int, y float64) {
	row, named := v.rowAt(line)
	switch {
	case row >= len(v.rows) || named:
	case v.rows[row].Accent&sheet.Downbeat != 0:
		p.fill(0, y, v.width, y+sheetRowH, paperTab)
	default:
		p.fill(0, y, v.width, y+sheetRowH, paperLight)
	}
}

// paintLines rules the sheet.
func (v *sheetView) paintLines(p pen, first, last int, top float64) {
	bottom := sheetHeadH + float64(last)*sheetRowH - top
	for _, c := range v.columns[1:] {
		p.fill(c.x, 0, c.x+stroke(1), bottom, paperEdge)
	}
	panel, pose := v.column(panelCell), v.column(poseCell)
	for line := first; line <= last; line++ {
		y := sheetHeadH + float64(line)*sheetRowH - top
		row, named := v.rowAt(line)
		if row >= len(v.rows) || row == 0 || named || v.headed && v.rows[row].Shot != v.rows[row-1].Shot {
			p.fill(0, y, v.width, y+stroke(1), paperEdge)
			continue
		}
		switch sheet.LineOver(v.rate, v.rows[row-1].Frame, v.rows[row].Frame) {
		case sheet.Second:
			p.fill(0, y-1, v.width, y+1, inkSoft)
		case sheet.Heavy:
			p.fill(0, y, v.width, y+1, inkFaint)
		default:
			p.fill(0, y, v.width, y+stroke(0.5), paperEdge)
		}
		if v.rows[row].Begins {
			p.fill(panel.x, y-0.5, pose.right, y+1, ink)
		}
	}
}

// paintCells paints the figures and signs of a row.
func (v *sheetView) paintCells(p pen, row int, y float64) {
	r := v.rows[row]
	for _, c := range v.columns {
		switch c.kind {
		case frameCell:
			v.figures(p, c, y, ink, strconv.FormatInt(int64(r.Frame), 10))
		case exposureCell:
			if r.Exposed {
				v.figures(p, c, y, inkSoft, strconv.FormatInt(r.Exposure, 10))
			}
		case timeCell:
			v.figures(p, c, y, inkSoft, r.Time)
		case beatCell:
			if r.Beat > 0 {
				beat := strconv.Itoa(r.Beat)
				if r.Bar > 0 {
					beat = strconv.Itoa(r.Bar) + "." + beat
				}
				v.figures(p, c, y, ink, beat)
			}
		case accentCell:
			paintAccent(p, c, y, r.Accent)
		case poseCell:
			v.paintPose(p, c, row, y)
		case tickCell:
			if r.Exposed {
				x := (c.x + c.right) / 2
				p.frame(x-5, y+4, x+5, y+14, stroke(1), inkFaint)
			}
		}
		if c.run >= 0 {
			v.paintLast(p, c, row, y)
		}
	}
}

// figures writes figures at a column's right edge.
func (v *sheetView) figures(p pen, c sheetColumn, y float64, colour tint, s string) {
	room := c.right - c.x - 2*sheetInset + 4
	s = p.shortened(s, sheetText, false, room)
	p.text(c.right-sheetInset-p.width(sheetText, false, s), y+13, sheetText, false, colour, s)
}

// paintAccent paints a diamond for a downbeat and a cross for an onset.
func paintAccent(p pen, c sheetColumn, y float64, a sheet.Accent) {
	y += sheetRowH / 2
	if a&sheet.Downbeat != 0 {
		x := c.x + (c.right-c.x)*0.32
		p.shape(ink, x-4, y, x, y-4, x+4, y, x, y+4)
	}
	if a&sheet.Onset != 0 {
		x, k, w := c.x+(c.right-c.x)*0.7, 3.0, 0.9
		p.shape(ink, x-k-w, y-k, x-k, y-k-w, x+k+w, y+k, x+k, y+k+w)
		p.shape(ink, x-k-w, y+k, x-k, y+k+w, x+k+w, y-k, x+k, y-k-w)
	}
}

// paintPose writes a pose on the row it is taken, and a line down the rows it
// is held; X on the first of a panel with nothing on it.
func (v *sheetView) paintPose(p pen, c sheetColumn, row int, y float64) {
	r, x := v.rows[row], (c.x+c.right)/2
	words := strconv.FormatInt(r.Pose, 10)
	switch {
	case r.Nothing && r.Begins:
		words = "X"
	case r.Nothing:
		return
	case !r.Exposed:
		p.fill(x-0.6, y+1, x+0.6, y+sheetRowH-1, inkSoft)
		return
	}
	p.text(x-p.width(sheetText, false, words)/2, y+13, sheetText, false, ink, words)
}

// paintLast draws the line beside words that last, with a foot where they end.
func (v *sheetView) paintLast(p pen, c sheetColumn, row int, y float64) {
	if !lasts(c.run, v.rows[row]) {
		return
	}
	x, from, to := c.x+4, y, y+sheetRowH
	if v.begins[c.run][row] == row {
		from += 3
		p.fill(x-2, from, x+3, from+1, inkSoft)
	}
	if v.ends[c.run][row] == row+1 {
		to -= 3
		p.fill(x-2, to-1, x+3, to, inkSoft)
	}
	p.fill(x, from, x+1, to, inkSoft)
}

// paintPlayhead marks the row of the playhead.
func (v *sheetView) paintPlayhead(p pen, top float64) {
	row := v.rowOf(v.at)
	if row < 0 {
		return
	}
	y := v.y(row) - top
	if y+sheetRowH < sheetHeadH || y > v.height {
		return
	}
	p.frame(0, y-0.5, v.width, y+sheetRowH+0.5, 2, red)
	c := v.columns[0]
	p.fill(0, y, c.right, y+sheetRowH, red)
	v.figures(p, c, y, paperLight, strconv.FormatInt(int64(v.rows[row].Frame), 10))
}

// paintHead writes the titles of the columns; those of moves say what moves in
// the shot of the first row in sight.
func (v *sheetView) paintHead(p pen, row int) {
	p.fill(0, 0, v.width+wallBarW, sheetHeadH, paperDark)
	p.fill(0, sheetHeadH-1, v.width+wallBarW, sheetHeadH, inkFaint)
	for _, c := range v.columns {
		if c.x > 0 {
			p.fill(c.x, 4, c.x+stroke(1), sheetHeadH-4, paperEdge)
		}
		if title := v.titleOf(c, row); isLatin(title) {
			p.text(c.x+sheetInset, 15, 10.5, false, inkSoft, p.shortened(title, 10.5, false, c.right-c.x-sheetInset))
		}
	}
}
