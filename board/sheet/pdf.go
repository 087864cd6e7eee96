package sheet

import (
	"fmt"
	"io"
	"slices"
	"strings"
	"time"

	"stillbeat/board"
	"stillbeat/board/internal/paper"
)

// Most and fewest rows of a page.
const (
	MinLines = 24
	MaxLines = 120
)

// Paper says how a sheet is printed.
type Paper struct {
	Size  string    // "a4" or "letter", upright; "": a4
	Lines int       // most rows of a page, MinLines to MaxLines; 0: whole seconds in up to 100
	Made  time.Time // when the file says it was made
}

// PDF writes the sheet for printing: upright pages of whole seconds, each shot
// from a new one.
func PDF(w io.Writer, b board.Board, o Options, p Paper) error {
	if p.Size == "" {
		p.Size = "a4"
	}
	size, err := paper.SizeNamed(p.Size)
	if err != nil {
		return err
	}
	if p.Lines == 0 {
		p.Lines = usualLines(b.Rate)
	}
	if p.Lines < MinLines || p.Lines > MaxLines {
		return fmt.Errorf("%d rows on a page: it takes %d to %d", p.Lines, MinLines, MaxLines)
	}
	rows, err := Rows(b, o)
	if err != nil {
		return err
	}
	d := &printer{
		Doc: paper.New(size, joined(", ", title(b), "exposure sheet"), p.Made), b: b, o: o,
		ruling: newRuling(b.Rate), names: ShotNames(b), shots: b.Shots(),
	}
	d.measure(p.Lines)
	shot := -1
	for _, page := range d.ruling.pages(rows, p.Lines) {
		d.AddPage()
		if page[0].Shot != shot {
			shot = page[0].Shot
			d.Bookmark(0, d.shotTitle(shot), 0)
		}
		d.page(page, shot)
	}
	if len(rows) == 0 {
		d.AddPage()
		d.page(nil, -1)
	}
	d.EachPage(func(n, of int) {
		d.Text(d.right, margin+4, fmt.Sprintf("%d/%d", n, of), paper.Style{Points: 11, Align: paper.Right})
	})
	_, err = d.WriteTo(w)
	return err
}

func title(b board.Board) string {
	if t := strings.Join(strings.Fields(b.Title), " "); t != "" {
		return t
	}
	return "Untitled film"
}

// printer prints pages.
type printer struct {
	*paper.Doc
	b       board.Board
	o       Options
	ruling  ruling
	names   []string
	shots   []int
	columns []column
	used    []int   // the caller's columns of this page, by their places in Options.Columns
	left    float64 // the columns' edges
	right   float64
	top     float64 // of the first row
	high    float64 // of a row
	words   paper.Style
}

const (
	margin   = 9.0 // mm
	headHigh = 11.0
	foot     = 5.0
)

// measure lays the page out for so many rows.
func (d *printer) measure(lines int) {
	d.left, d.right = margin, d.Size.Wide-margin
	d.top = margin + headHigh + 4
	d.high = min(6, (d.Size.High-margin-foot-d.top)/float64(lines))
	d.words = paper.Style{Points: min(7.5, d.high*0.8*72/25.4)}
}

// shotTitle names a shot in the head and in the outline.
func (d *printer) shotTitle(shot int) string {
	return joined(" ", "Shot", d.names[shot], strings.Join(strings.Fields(d.b.Panels[d.shots[shot]].Heading), " "))
}

// head prints what stands over the rows: film, shot, and how they are taken.
func (d *printer) head(shot int) {
	big, small := paper.Style{Points: 11, Bold: true}, paper.Style{Points: 8}
	room := d.right - d.left - 20 // beside the number of the page
	d.Text(d.left, margin+4, d.Cut(title(d.b), room, big), big)
	taken := joined(", ", d.b.Rate.String()+" fps", d.steps(shot))
	wide := d.Width(taken, small)
	d.Text(d.right, margin+9, taken, paper.Style{Points: 8, Align: paper.Right})
	if shot >= 0 {
		d.Text(d.left, margin+9, d.Cut(d.shotTitle(shot), d.right-d.left-wide-6, small), small)
	}
}

// steps names the steps of a shot.
func (d *printer) steps(shot int) string {
	if shot < 0 {
		return ""
	}
	return StepWords(d.b, d.shots[shot], d.shots[shot+1])
}

// StepWords names the steps of the panels from one up to another: "on ones and
// twos".
func StepWords(b board.Board, from, to int) string {
	var steps []int
	for i := from; i < to; i++ {
		if s := b.StepOf(i); !slices.Contains(steps, s) {
			steps = append(steps, s)
		}
	}
	slices.Sort(steps)
	out := "on "
	for i, s := range steps {
		switch {
		case i == 0:
		case i == len(steps)-1:
			out += " and "
		default:
			out += ", "
		}
		out += stepWord(s)
	}
	return out
}

func stepWord(step int) string {
	if words := []string{"ones", "twos", "threes", "fours"}; step >= 1 && step <= len(words) {
		return words[step-1]
	}
	return fmt.Sprintf("%ds", step)
}
