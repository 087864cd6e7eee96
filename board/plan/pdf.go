package plan

import (
	"fmt"
	"io"
	"strings"
	"time"

	"stillbeat/board"
	"stillbeat/board/internal/paper"
)

// Paper says how call sheets are printed.
type Paper struct {
	Size string    // "a4" or "letter", upright; "": a4
	Made time.Time // when the file says it was made
}

// PDF writes the call sheets of a plan made of b: a page for each session, and
// before them one with the whole of it if there are several. A session of more
// shots than a page has room for goes on over the page.
func (p Plan) PDF(w io.Writer, b board.Board, o Paper) error {
	if o.Size == "" {
		o.Size = "a4"
	}
	size, err := paper.SizeNamed(o.Size)
	if err != nil {
		return err
	}
	title := strings.Join(strings.Fields(b.Title), " ")
	if title == "" {
		title = "Untitled film"
	}
	d := &printer{Doc: paper.New(size, title+", call sheets", o.Made), p: p, b: b, title: title, numbers: b.Numbers()}
	d.left, d.right, d.bottom = margin, size.Wide-margin, size.High-margin
	if len(p.Sessions) != 1 {
		d.whole()
	}
	for n := range p.Sessions {
		d.session(n)
	}
	d.EachPage(func(n, of int) {
		d.Text(d.right, margin+4, fmt.Sprintf("%d/%d", n, of), paper.Style{Points: 11, Align: paper.Right})
	})
	_, err = d.WriteTo(w)
	return err
}

// printer prints pages. Measures are millimetres.
type printer struct {
	*paper.Doc
	p       Plan
	b       board.Board
	title   string
	numbers []string // of the panels

	left, right, bottom float64
	y                   float64 // the baseline of the last line
}

const margin = 12.0

var (
	big   = paper.Style{Points: 13, Bold: true}
	bold  = paper.Style{Points: 9.5, Bold: true}
	plain = paper.Style{Points: 8.5}
	small = paper.Style{Points: 8, Ink: paper.Grey(70)}
)

// page begins a page with a head.
func (d *printer) page(head string) {
	d.AddPage()
	d.Text(d.left, margin+4, d.Cut(d.title, d.right-d.left-20, big), big)
	d.Text(d.left, margin+10, head, bold)
	d.Rule(d.left, margin+12, d.right, margin+12, 0.4, paper.Black)
	d.y = margin + 13
}

// line prints a line of words between the edges, the next one down.
func (d *printer) line(indent float64, text string, s paper.Style) {
	d.y += s.Leading()
	room := d.right - d.left - indent
	text = d.Cut(text, room, s)
	if paper.RightToLeft(text) {
		s.Align = paper.Right
		d.Text(d.right, d.y, text, s)
		return
	}
	d.Text(d.left+indent, d.y, text, s)
}

// beside prints words at the right edge of the last line.
func (d *printer) beside(text string, s paper.Style) {
	s.Align = paper.Right
	d.Text(d.right, d.y, text, s)
}

// heading prints a heading with some room above.
func (d *printer) heading(text string) {
	d.y += 2
	d.line(0, text, bold)
	d.y += 0.5
}

// paragraph prints words on as many lines as they take.
func (d *printer) paragraph(left, wide float64, text string, s paper.Style) {
	for _, l := range d.Wrap(text, wide, s) {
		d.y += s.Leading()
		d.Text(left, d.y, l, s)
	}
}
