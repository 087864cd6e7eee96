package printed

import (
	"fmt"
	"math"

	"stillbeat/board"
	"stillbeat/board/internal/paper"
	"stillbeat/board/sheet"
)

// cover prints the first page: what the film is, and how it lies in time.
func (p *printer) cover() {
	left, wide := margin, p.Size.Wide-2*margin
	big := paper.Style{Points: 26, Bold: true}
	y := margin + headHigh + 10
	lines := p.Wrap(title(p.b), wide, big)
	if len(lines) > 3 {
		lines = append(lines[:2], p.ended(lines[2], wide, big))
	}
	for _, l := range lines {
		p.read(left, wide, y, l, big)
		y += big.Leading()
	}
	y += 2
	small, label := paper.Style{Points: 10}, paper.Style{Points: 10, Ink: paper.Grey(90)}
	for _, f := range p.facts() {
		p.Text(left, y, f[0], label)
		for _, l := range p.Wrap(p.Cut(f[1], 2*(wide-28), small), wide-28, small) {
			p.read(left+28, wide-28, y, l, small)
			y += small.Leading()
		}
	}
	foot := p.Size.High - margin
	if p.anyMoves() {
		p.Text(left, foot-1, p.Cut("Where the camera moves, a full line shows where it begins and a dashed one where it ends.", wide, label), paper.Style{Points: 8, Ink: paper.Grey(90)})
		foot -= 6
	}
	p.strips(paper.Box{X: left, Y: y + 4, Wide: wide, High: foot - y - 4})
}

// read prints a line at the side of a column it is read from.
func (p *printer) read(left, wide, y float64, text string, s paper.Style) {
	if paper.RightToLeft(text) {
		s.Align, left = paper.Right, left+wide
	}
	p.Text(left, y, text, s)
}

// facts are the lines of the cover: what each is of, and what it says.
func (p *printer) facts() [][2]string {
	b, frames := p.b, p.b.Frames()
	facts := [][2]string{
		{"Length", fmt.Sprintf("%s · %s · %.2f s", b.Rate.Timecode(frames), counted(int64(frames), "frame"), b.Rate.Seconds(frames))},
		{"Frame rate", joined(", ", b.Rate.String()+" fps", sheet.StepWords(b, 0, len(b.Panels)))},
		{"Picture", b.Aspect.String()},
		{"Board", joined(" · ", counted(int64(len(b.Panels)), "panel"), counted(int64(len(p.shots)), "shot"),
			counted(int64(p.scenes), "scene"), counted(b.Exposures(), "exposure"))},
	}
	if b.Song != nil {
		facts = append(facts, [2]string{"Song", joined(" · ", oneLine(b.Song.Name), tempo(b))})
	} else if b.OnGrid() {
		facts = append(facts, [2]string{"Beats", joined(" · ", "a click", tempo(b))})
	}
	if !p.o.Made.IsZero() {
		facts = append(facts, [2]string{"Printed", p.o.Made.Format("2 January 2006")})
	}
	return facts
}

func tempo(b board.Board) string {
	if b.Grid.Tempo <= 0 {
		return ""
	}
	return fmt.Sprintf("%g beats a minute", math.Round(10*b.Grid.Tempo)/10)
}

func (p *printer) anyMoves() bool {
	for _, panel := range p.b.Panels {
		if !panel.Drawing().Travel.Holds() {
			return true
		}
	}
	return false
}
