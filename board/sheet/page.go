package sheet

import (
	"strconv"
	"strings"

	"stillbeat/board/internal/paper"
)

// inset is the room between a column's line and its words, mm.
const inset = 0.8

// titles is the style of the columns' titles.
var titles = paper.Style{Points: 6.5, Ink: paper.Grey(60)}

// page prints the rows of one page.
func (d *printer) page(rows []Row, shot int) {
	d.head(shot)
	d.setColumns(rows)
	bottom := d.top + float64(len(rows))*d.high
	d.ground(rows)
	for k, c := range d.columns {
		if k != frameColumn {
			d.Rule(c.x, d.top-4, c.x, bottom, 0.1, paper.Grey(110))
		}
		d.Text(c.x+inset, d.top-1.2, d.Cut(c.title, c.right-c.x-inset, titles), titles)
	}
	d.Frame(paper.Box{X: d.left, Y: d.top - 4, Wide: d.right - d.left, High: bottom - d.top + 4}, 0.3, paper.Black)
	for i := range rows {
		d.row(rows, i)
	}
	d.running(rows, soundColumn, func(r Row) string {
		if r.SoundLasts && !r.Begins && r.Frame == rows[0].Frame { // it goes on from the page before
			return "(" + strings.TrimSpace(d.b.Panels[r.Panel].Sound) + ")"
		}
		return r.Sound
	}, func(r Row) bool { return r.SoundLasts })
	d.running(rows, cameraColumn, func(r Row) string { return r.Camera }, func(r Row) bool { return r.CameraLasts })
	d.running(rows, marksColumn, func(r Row) string {
		if r.Begins || r.Frame == rows[0].Frame {
			return r.Marks
		}
		return ""
	}, func(r Row) bool { return r.Marks != "" })
	d.running(rows, panelColumn, func(r Row) string { return r.Action }, nil)
	d.running(rows, noteColumn, func(r Row) string { return r.Note }, nil)
}

// ground prints what lies under the words: tints of accents and lines.
func (d *printer) ground(rows []Row) {
	for i, r := range rows {
		y := d.y(i)
		if r.Accent&Downbeat != 0 {
			d.Fill(paper.Box{X: d.left, Y: y, Wide: d.right - d.left, High: d.high}, paper.Grey(232))
		}
	}
	for i, r := range rows {
		thick, ink := 0.08, paper.Grey(165)
		if i > 0 {
			switch d.ruling.over(rows[i-1].Frame, r.Frame) {
			case Second:
				thick, ink = 0.6, paper.Black
			case Heavy:
				thick, ink = 0.3, paper.Black
			}
		}
		d.Rule(d.left, d.y(i), d.right, d.y(i), thick, ink)
		if r.Begins && i > 0 {
			c := d.columns[panelColumn]
			d.Rule(c.x, d.y(i), d.columns[poseColumn].right, d.y(i), 0.4, paper.Black)
		}
	}
}

func (d *printer) y(row int) float64 { return d.top + float64(row)*d.high }

// row prints the short cells of a row.
func (d *printer) row(rows []Row, i int) {
	r := rows[i]
	frame := strconv.FormatInt(int64(r.Frame), 10)
	d.figures(frameColumn, i, frame)
	d.figures(timeColumn, i, r.Time)
	if r.Exposed {
		d.figures(exposureColumn, i, strconv.FormatInt(r.Exposure, 10))
		box := d.columns[tickColumn]
		side := min(3, d.high*0.7)
		d.Tick(paper.Box{X: (box.x + box.right - side) / 2, Y: d.y(i) + (d.high-side)/2, Wide: side, High: side}, false)
	}
	if r.Beat > 0 {
		beat := strconv.Itoa(r.Beat)
		if r.Bar > 0 {
			beat = strconv.Itoa(r.Bar) + "." + beat
		}
		d.figures(beatColumn, i, beat)
	}
	d.accent(i, r.Accent)
	d.pose(rows, i)
	for k, from := range d.used {
		d.cell(len(printed)+k, i, r.Columns[from])
	}
}

// figures prints figures at a column's right edge.
func (d *printer) figures(column, row int, text string) {
	c, s := d.columns[column], d.words
	s.Align = paper.Right
	d.Text(c.right-inset, s.Centred(d.y(row), d.high), d.Cut(text, c.right-c.x-inset, s), s)
}

// cell prints words in a column, from the side they are read from.
func (d *printer) cell(column, row int, text string) {
	c, s := d.columns[column], d.words
	d.line(c.x+inset, c.right-inset, row, d.Cut(text, c.right-c.x-2*inset, s))
}

func (d *printer) line(left, right float64, row int, text string) {
	s, x := d.words, left
	if paper.RightToLeft(text) {
		s.Align, x = paper.Right, right
	}
	d.Text(x, s.Centred(d.y(row), d.high), text, s)
}

// accent prints a full diamond for a downbeat and a cross for an onset.
func (d *printer) accent(row int, a Accent) {
	c, y, r := d.columns[accentColumn], d.y(row)+d.high/2, min(1.2, d.high*0.36)
	if a&Downbeat != 0 {
		x := c.x + (c.right-c.x)*0.3
		d.Polygon([][2]float64{{x - r, y}, {x, y - r}, {x + r, y}, {x, y + r}}, paper.Black)
	}
	if a&Onset != 0 {
		x := c.x + (c.right-c.x)*0.7
		k := r * 0.7
		d.Rule(x-k, y-k, x+k, y+k, 0.2, paper.Black)
		d.Rule(x-k, y+k, x+k, y-k, 0.2, paper.Black)
	}
}

// pose prints a pose's number on its first row and a line down the rows it is
// held, X on the first of a panel with nothing on it.
func (d *printer) pose(rows []Row, i int) {
	r, c := rows[i], d.columns[poseColumn]
	x := (c.x + c.right) / 2
	s := d.words
	s.Align = paper.Middle
	switch {
	case r.Nothing && r.Begins:
		d.Text(x, s.Centred(d.y(i), d.high), "X", s)
	case r.Nothing:
	case r.Exposed:
		d.Text(x, s.Centred(d.y(i), d.high), strconv.FormatInt(r.Pose, 10), s)
	default:
		d.Rule(x, d.y(i), x, d.y(i)+d.high, 0.25, paper.Black)
	}
}

// running prints the words of a column that begin on a row and run down those
// after it, up to the next that begin; lasts, unless nil, says over which rows
// a line is drawn beside them.
func (d *printer) running(rows []Row, column int, words func(Row) string, lasts func(Row) bool) {
	c := d.columns[column]
	left := c.x + inset
	if lasts != nil {
		left += 1.4
		d.bars(rows, c.x+1.1, words, lasts)
	}
	for i := 0; i < len(rows); {
		text := words(rows[i])
		begins := text != "" || column == panelColumn && (rows[i].Begins || i == 0)
		end := i + 1
		for end < len(rows) && words(rows[end]) == "" && !(column == panelColumn && rows[end].Begins) {
			end++
		}
		if begins {
			d.run(left, c.right-inset, i, end, column == panelColumn, rows[i], text)
		}
		i = end
	}
}

// run prints words from row i on, above row end. Those of a panel follow its
// number, which is in brackets where the panel goes on from the page before.
func (d *printer) run(left, right float64, i, end int, panel bool, r Row, text string) {
	if panel {
		s := d.words
		s.Bold = true
		number := r.Number
		if !r.Begins {
			number = "(" + number + ")"
		}
		d.Text(left, s.Centred(d.y(i), d.high), d.Cut(number, right-left, s), s)
		left += min(right-left, max(4.5, d.Width(number, s)+1))
	}
	if strings.TrimSpace(text) == "" || right-left < 2 {
		return
	}
	lines := d.Wrap(strings.TrimSpace(text), right-left, d.words)
	if over := end - i; len(lines) > over {
		lines = lines[:over]
		lines[over-1] = d.Cut(lines[over-1]+"…", right-left, d.words)
	}
	for k, l := range lines {
		d.line(left, right, i+k, l)
	}
}

// bars prints a line down the rows something lasts, with a foot where it ends.
func (d *printer) bars(rows []Row, x float64, words func(Row) string, lasts func(Row) bool) {
	for i := 0; i < len(rows); i++ {
		if !lasts(rows[i]) {
			continue
		}
		from := i
		for i+1 < len(rows) && lasts(rows[i+1]) && words(rows[i+1]) == "" {
			i++
		}
		top, bottom := d.y(from)+d.high*0.2, d.y(i+1)-d.high*0.2
		d.Rule(x, top, x, bottom, 0.3, paper.Black)
		d.Rule(x-0.5, top, x+0.5, top, 0.3, paper.Black)
		if i+1 < len(rows) {
			d.Rule(x-0.5, bottom, x+0.5, bottom, 0.3, paper.Black)
		}
	}
}
