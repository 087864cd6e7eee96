// Package printed makes the printed board of a film: a cover with what the film
// is and how it lies on its song, then its panels as pictures with their words,
// some to a page, as PDF.
package printed

import (
	"context"
	"errors"
	"fmt"
	"io"
	"time"

	"stillbeat/board"
	"stillbeat/board/internal/paper"
	"stillbeat/board/picture"
	"stillbeat/board/sheet"
)

// Panels of a page.
const (
	MostPerPage  = 12
	UsualPerPage = 6
)

// ErrEmpty is returned for a film that has nothing to print.
var ErrEmpty = errors.New("the film has no panels to print")

// Options say how a board is printed. The zero value is six panels to an
// upright page of A4, without a waveform.
type Options struct {
	PerPage   int       // panels of a page, 1 to MostPerPage; 0: UsualPerPage
	Paper     string    // "a4" or "letter"; "": a4
	Landscape bool      // the page lies on its long side
	Made      time.Time // the date on the cover, and when the file says it was made; zero: none

	// Wave gives the waveform between two seconds of the song as n columns of
	// one width, silence before and after the song. nil: no waveform.
	Wave func(from, to float64, n int) []Peak

	Progress func(done float64) // told the part done, 0..1; may be nil
}

// Peak is a column of a waveform: its smallest and its largest sample, -1..1.
type Peak struct{ Min, Max float32 }

// Board writes the printed board of b to w, nothing if it fails or ctx ends. It
// returns ErrEmpty for a film without panels. Pictures are drawn one at a time;
// what they come to as JPEG is held until the end, twice while it is written.
func Board(ctx context.Context, w io.Writer, b board.Board, pics *picture.Cache, o Options) error {
	p, err := newPrinter(b, pics, o)
	if err != nil {
		return err
	}
	if err := p.print(ctx); err != nil {
		return err
	}
	p.EachPage(p.head)
	_, err = p.WriteTo(w)
	return err
}

// printer prints one board.
type printer struct {
	*paper.Doc
	b        board.Board
	o        Options
	starts   []board.Frame
	numbers  []string
	openings []string       // what each panel opens, in words
	shots    map[int]string // what shots are called, by their first panels
	scenes   int            // how many there are
	shown    *picture.Film
	dpi      float64
	names    map[picture.Shot]string // of those in the document
	grid     grid
	bare     bool // pictures are left out
}

// Measures of a page in mm.
const (
	margin   = 10.0
	headHigh = 8.0
)

func newPrinter(b board.Board, pics *picture.Cache, o Options) (*printer, error) {
	if len(b.Panels) == 0 {
		return nil, ErrEmpty
	}
	if o.PerPage == 0 {
		o.PerPage = UsualPerPage
	}
	if o.PerPage < 1 || o.PerPage > MostPerPage {
		return nil, fmt.Errorf("%d panels on a page: it takes 1 to %d", o.PerPage, MostPerPage)
	}
	if o.Paper == "" {
		o.Paper = "a4"
	}
	size, err := paper.SizeNamed(o.Paper)
	if err != nil {
		return nil, err
	}
	if o.Landscape {
		size = size.Landscape()
	}
	p := &printer{
		Doc: paper.New(size, title(b), o.Made), b: b, o: o, starts: b.Starts(), numbers: b.Numbers(),
		openings: openings(b), shots: map[int]string{}, scenes: len(b.Scenes()) - 1, shown: picture.NewFilm(pics, overviews(b)), names: map[picture.Shot]string{},
	}
	for k, name := range sheet.ShotNames(b) {
		p.shots[b.Shots()[k]] = name
	}
	body := paper.Box{X: margin, Y: margin + headHigh, Wide: size.Wide - 2*margin, High: size.High - 2*margin - headHigh}
	p.grid = layGrid(body, o.PerPage, b.Aspect.Ratio())
	p.dpi = p.sharpness()
	return p, nil
}

// print prints the cover and all panels in order.
func (p *printer) print(ctx context.Context) error {
	p.AddPage()
	p.cover()
	for n := range p.o.Pages(p.b) {
		if err := p.page(ctx, n); err != nil {
			return err
		}
	}
	return nil
}

// page prints the cards of page n, 0 the first after the cover.
func (p *printer) page(ctx context.Context, n int) error {
	p.AddPage()
	for cell := range p.o.PerPage {
		i := n*p.o.PerPage + cell
		if i >= len(p.b.Panels) {
			break
		}
		if err := ctx.Err(); err != nil {
			return err
		}
		if err := p.card(i, p.grid.at(cell)); err != nil {
			return err
		}
		if p.o.Progress != nil {
			p.o.Progress(float64(i+1) / float64(len(p.b.Panels)))
		}
	}
	return nil
}

// head prints what stands over the cards of a page: film, number of the page.
func (p *printer) head(page, of int) {
	s := paper.Style{Points: 9, Ink: paper.Grey(60)}
	number := fmt.Sprintf("%d/%d", page, of)
	right := p.Size.Wide - margin
	p.Text(right, margin+3.5, number, paper.Style{Points: 9, Ink: paper.Grey(60), Align: paper.Right})
	if page > 1 {
		p.Text(margin, margin+3.5, p.Cut(title(p.b), right-margin-p.Width(number, s)-6, s), s)
	}
}
