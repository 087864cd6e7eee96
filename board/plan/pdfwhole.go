package plan

import (
	"fmt"
	"strings"

	"stillbeat/board/internal/paper"
)

// whole prints the first page: what all of it takes, and the sessions.
func (d *printer) whole() {
	d.page("The shoot")
	d.Bookmark(0, "The shoot", 0)
	for _, l := range d.p.Summary() {
		d.line(0, l[0], plain)
		d.Text(d.left+42, d.y, d.Cut(l[1], d.right-d.left-42, plain), plain)
	}
	findings := d.p.Findings(d.b)
	if len(findings) > 0 {
		d.heading("To be seen to")
	}
	for i, f := range findings {
		if left := len(findings) - i; i >= 12 && left > 1 {
			d.line(0, fmt.Sprintf("and %d more", left), plain)
			break
		}
		d.paragraph(d.left, d.right-d.left, "Panel "+d.numbers[f.Panel]+": "+f.Reason, plain)
	}
	d.sessions()
	d.shots()
}

// A cell is where a word stands in a table: so far from an edge.
type cell struct {
	text string
	at   float64 // from the left edge; below 0 it ends so far from the right one
}

// row prints the cells of a table's row, on a new page under the title and the
// head if this one is full.
func (d *printer) row(title string, head, cells []cell) {
	if d.y+plain.Leading() > d.bottom {
		d.page("The shoot, continued")
		d.table(title, head)
	}
	d.y += plain.Leading()
	d.cells(cells, plain)
}

// table prints the title and head of a table.
func (d *printer) table(title string, head []cell) {
	if d.y+30 > d.bottom {
		d.page("The shoot, continued")
	}
	d.heading(title)
	d.y += small.Leading()
	d.cells(head, small)
}

func (d *printer) cells(cells []cell, s paper.Style) {
	for _, c := range cells {
		if at := s; c.at < 0 {
			at.Align = paper.Right
			d.Text(d.right+c.at+1, d.y, c.text, at)
			continue
		}
		d.Text(d.left+c.at, d.y, d.Cut(c.text, d.right-d.left-c.at-55, s), s)
	}
}

func (d *printer) sessions() {
	head := []cell{{"session", 0}, {"shots, risky ones first", 14}, {"exposures", -26}, {"time", -1}}
	d.table("Sessions", head)
	for n, s := range d.p.Sessions {
		d.row("Sessions", head, []cell{{fmt.Sprint(n + 1), 0}, {d.shotList(s), 14}, {fmt.Sprint(s.Take), -26}, {Hours(s.Minutes), -1}})
	}
}

func (d *printer) shots() {
	head := []cell{{"shot", 0}, {"heading", 18}, {"mind", 70}, {"session", -50}, {"to take (sheet)", -26}, {"time", -1}}
	d.table("Shots", head)
	in := d.p.Begins()
	for i, s := range d.p.Shots {
		session := "none"
		if n, ok := in[i]; ok {
			session = fmt.Sprint(n + 1)
		}
		heading := d.Cut(s.Heading, 50, plain)
		d.row("Shots", head, []cell{{s.Name, 0}, {heading, 18}, {s.Mind(), 70}, {session, -50},
			{fmt.Sprintf("%d (%d)", s.Take, s.OnSheet), -26}, {Hours(s.Minutes), -1}})
	}
	if len(d.p.Scenes) < 2 {
		return
	}
	head = []cell{{"scene", 0}, {"shots", 18}, {"to take (sheet)", -26}, {"time", -1}}
	d.table("Scenes", head)
	for _, s := range d.p.Scenes {
		d.row("Scenes", head, []cell{{s.Name, 0}, {fmt.Sprint(s.Shots), 18}, {fmt.Sprintf("%d (%d)", s.Take, s.OnSheet), -26}, {Hours(s.Minutes), -1}})
	}
}

// shotList names the shots of a session: "1, 2 (1 of 3)".
func (d *printer) shotList(s Session) string {
	var out []string
	for _, piece := range s.Pieces {
		out = append(out, d.p.PieceName(piece))
	}
	return strings.Join(out, ", ")
}
