package printed

import (
	"fmt"
	"image"
	"image/color"
	"image/draw"
	"math"

	"stillbeat/board"
	"stillbeat/board/internal/paper"
	"stillbeat/board/picture"
)

// Pages returns how many pages of panels a board has, beside its cover.
func (o Options) Pages(b board.Board) int {
	each := o.PerPage
	if each == 0 {
		each = UsualPerPage
	}
	return (len(b.Panels) + each - 1) / each
}

// Preview draws page n of a printed board, 0 the first after the cover, so many
// pixels high, to be looked at before it is printed: pictures as they lie on
// paper, and a bar for each line of words, which are too small to be read.
func Preview(b board.Board, pics *picture.Cache, o Options, n, high int) (*image.RGBA, error) {
	p, err := newPrinter(b, pics, o)
	if err != nil {
		return nil, err
	}
	if pages := o.Pages(b); n < 0 || n >= pages {
		return nil, fmt.Errorf("there is no page %d of %d", n+1, pages)
	}
	p.AddPage() // text is measured on a page
	v := newView(p.Size, high)
	words := paper.Style{Points: 9}
	v.bar(margin, margin+3.5, p.Width(title(b), words), words.Points, grey)
	for cell := range p.o.PerPage {
		i := n*p.o.PerPage + cell
		if i >= len(b.Panels) {
			break
		}
		at := p.grid.at(cell)
		v.fill(paper.Box{X: at.card.X, Y: at.card.Y, Wide: at.card.Wide, High: 0.4}, ink)
		number := paper.Style{Points: at.points + 1, Bold: true}
		v.bar(at.card.X, number.Centred(at.card.Y+0.9, at.headHigh()-1.2), p.Width(p.numbers[i], number), number.Points, ink)
		if err := v.picture(p, i, at.picture); err != nil {
			return nil, err
		}
		for _, l := range p.lines(i, at) {
			x := l.x
			if l.style.Align == paper.Right {
				x -= p.Width(l.text, l.style)
			}
			v.bar(x, l.y, p.Width(l.text, l.style), at.points, grey)
		}
	}
	return v.to, nil
}

var (
	ink  = color.Gray{40}
	grey = color.Gray{170}
)

// view is a page that is looked at.
type view struct {
	to    *image.RGBA
	scale float64 // pixels to a millimetre
}

func newView(size paper.Size, high int) *view {
	v := &view{scale: float64(high) / size.High}
	v.to = image.NewRGBA(image.Rect(0, 0, max(1, int(math.Round(size.Wide*v.scale))), max(1, high)))
	draw.Draw(v.to, v.to.Rect, image.White, image.Point{}, draw.Src)
	return v
}

// pixels returns where a part of the page lies; nothing is less than a pixel.
func (v *view) pixels(b paper.Box) image.Rectangle {
	at := func(mm float64) int { return int(math.Round(mm * v.scale)) }
	r := image.Rect(at(b.X), at(b.Y), at(b.X+b.Wide), at(b.Y+b.High))
	r.Max.X, r.Max.Y = max(r.Max.X, r.Min.X+1), max(r.Max.Y, r.Min.Y+1)
	return r
}

func (v *view) fill(b paper.Box, c color.Color) {
	draw.Draw(v.to, v.pixels(b), image.NewUniform(c), image.Point{}, draw.Src)
}

// bar stands for words of so many points whose line is at y.
func (v *view) bar(x, y, wide, points float64, c color.Color) {
	high := points / 72 * 25.4 * 0.5
	v.fill(paper.Box{X: x, Y: y - high, Wide: wide, High: high}, c)
}

func (v *view) picture(p *printer, i int, at paper.Box) error {
	edge := 0.3
	v.fill(paper.Box{X: at.X - edge, Y: at.Y - edge, Wide: at.Wide + 2*edge, High: at.High + 2*edge}, grey)
	r := v.pixels(at)
	if p.shown.PanelShot(i, 0).Blank() {
		draw.Draw(v.to, r, image.White, image.Point{}, draw.Src)
		return nil
	}
	img, err := p.shown.Panel(i, 0, r.Dx(), r.Dy())
	if err != nil {
		return err
	}
	draw.Draw(v.to, r, img, img.Rect.Min, draw.Src)
	return nil
}
