package printed

import (
	"fmt"
	"math"

	"stillbeat/board"
	"stillbeat/board/internal/paper"
)

// card prints panel i at a place of the page.
func (p *printer) card(i int, at grid) error {
	p.bookmark(i, at.card.Y)
	p.cardHead(i, at)
	if err := p.picture(i, at.picture); err != nil {
		return err
	}
	p.words(i, at)
	return nil
}

// bookmark lets the outline lead to the scene and the shot that begin here.
// Shots stand below scenes where there are several.
func (p *printer) bookmark(i int, y float64) {
	if p.b.Opening(i) == board.GoesOn {
		return
	}
	shot, level := "Shot "+p.shots[i], 0
	if p.scenes > 1 {
		if p.b.Opening(i) == board.OpensScene {
			p.Bookmark(0, p.openings[i], y)
			p.Bookmark(1, shot, y)
			return
		}
		level = 1
	}
	p.Bookmark(level, joined(" ", shot, p.openings[i]), y)
}

// cardHead prints the line over a picture: a rule that is thicker where a shot
// or a scene begins, the number, what begins, and the hold.
func (p *printer) cardHead(i int, at grid) {
	c := at.card
	thick := map[board.Opening]float64{board.GoesOn: 0.1, board.OpensShot: 0.4, board.OpensScene: 0.9}[p.b.Opening(i)]
	p.Rule(c.X, c.Y+thick/2, c.X+c.Wide, c.Y+thick/2, thick, paper.Black)
	number := paper.Style{Points: at.points + 1, Bold: true}
	words := paper.Style{Points: at.points, Ink: paper.Grey(60)}
	y := number.Centred(c.Y+0.9, at.headHigh()-0.9-0.3)

	frames := p.starts[i+1] - p.starts[i]
	seconds := p.b.Rate.Seconds(p.starts[i+1]) - p.b.Rate.Seconds(p.starts[i])
	hold := fmt.Sprintf("%s, %.2f s", counted(int64(frames), "frame"), seconds)
	if p.Width(hold, words) > 0.5*c.Wide {
		hold = fmt.Sprintf("%d f, %.2f s", frames, seconds)
	}
	p.Text(c.X+c.Wide, y, hold, paper.Style{Points: at.points, Align: paper.Right})
	room := c.Wide - p.Width(hold, words) - 2
	n := p.Cut(p.numbers[i], room, number)
	p.Text(c.X, y, n, number)
	left := p.Width(n, number) + 2
	if opening := p.openings[i]; opening != "" && room-left > 6 {
		p.Text(c.X+left, y, p.Cut(opening, room-left, words), words)
	}
}

// picture prints panel i as it begins, or all of a move of the camera with the
// framings drawn on it.
func (p *printer) picture(i int, at paper.Box) error {
	shot := p.shown.PanelShot(i, 0)
	defer p.Frame(at, 0.15, paper.Grey(90))
	if shot.Blank() || p.bare {
		return nil
	}
	name, known := p.names[shot]
	if known {
		p.Place(name, at)
	} else {
		w, h := pixels(at, p.dpi)
		img, err := p.shown.Panel(i, 0, w, h)
		if err != nil {
			return err
		}
		name = fmt.Sprint("picture ", len(p.names)+1)
		if err := p.Picture(name, img, at); err != nil {
			return err
		}
		p.names[shot] = name
	}
	p.framings(i, at)
	return nil
}

func pixels(at paper.Box, dpi float64) (w, h int) {
	return max(1, int(math.Round(at.Wide/25.4*dpi))), max(1, int(math.Round(at.High/25.4*dpi)))
}

// Pictures are printed at mostDPI, at fewer dots to an inch where the film has
// more than easyPixels of them, and at fewer than leastDPI only where it would
// else have more than mostPixels, so that thousands of panels fit in memory.
const (
	mostDPI    = 300
	leastDPI   = 200
	easyPixels = 200e6
	mostPixels = 1200e6
)

// sharpness returns the dots to an inch that pictures are printed at.
func (p *printer) sharpness() float64 {
	w, h := pixels(p.grid.picture, mostDPI)
	all := map[any]bool{}
	for i := range p.b.Panels {
		all[p.shown.PanelShot(i, 0)] = true
	}
	return dotsFor(float64(len(all)) * float64(w) * float64(h))
}

// dotsFor returns the dots to an inch for pictures that have so many pixels at
// mostDPI.
func dotsFor(pixels float64) float64 {
	dpi := max(leastDPI, mostDPI*min(1, math.Sqrt(easyPixels/pixels)))
	return min(dpi, mostDPI*math.Sqrt(mostPixels/pixels))
}
