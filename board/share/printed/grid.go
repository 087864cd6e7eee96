package printed

import (
	"math"

	"stillbeat/board/internal/paper"
)

// grid says where the cards of a page lie, in rows from the upper left, and
// where picture and words lie on each.
type grid struct {
	columns int
	page    paper.Box
	card    paper.Box // the first
	picture paper.Box // of the first
	words   paper.Box // of the first
	points  float64   // size of its letters
}

// Measures of cards in mm, and the least room for their words.
const (
	gap       = 5.0  // between cards
	inner     = 2.0  // between picture and words
	leastWide = 16.0 // in ems
	leastRows = 6
	mostWide  = 170.0 // of a line that is read with ease
	mostRows  = 14    // more than this are seldom written
)

// layGrid lays n cards of a picture of the given width for a height of 1 on a
// page. Of all numbers of columns, with the words below the picture or beside
// it, and of all sizes of the picture, it takes the one with the most room for
// pictures and, half as weighty, for words.
func layGrid(page paper.Box, n int, ratio float64) grid {
	var best grid
	most := -1.0
	for columns := 1; columns <= n; columns++ {
		rows := (n + columns - 1) / columns
		if (n+rows-1)/rows < columns {
			continue // a column would stay empty
		}
		card := paper.Box{X: page.X, Y: page.Y,
			Wide: (page.Wide - gap*float64(columns-1)) / float64(columns), High: (page.High - gap*float64(rows-1)) / float64(rows)}
		for _, beside := range []bool{false, true} {
			for part := 100; part >= 10; part-- {
				g := grid{columns: columns, page: page, card: card, points: pointsOf(card)}
				if score := g.lay(float64(part)/100, ratio, beside); score > most {
					best, most = g, score
				}
			}
		}
	}
	return best
}

// pointsOf returns the size of letters that suits a card.
func pointsOf(card paper.Box) float64 {
	return min(10, max(6.5, math.Round(2*0.088*math.Sqrt(card.Wide*card.High))/2))
}

// lay gives the picture a part of the card's width and returns how good that
// is, less than 0 if the words have too little room.
func (g *grid) lay(part, ratio float64, beside bool) float64 {
	c, leading := g.card, paper.Style{Points: g.points}.Leading()
	top := c.Y + g.headHigh()
	g.picture = paper.Box{X: c.X, Y: top, Wide: c.Wide * part, High: c.Wide * part / ratio}
	if beside {
		x := g.picture.X + g.picture.Wide + 1.5*inner
		g.words = paper.Box{X: x, Y: top - 0.2*leading, Wide: c.X + c.Wide - x, High: c.Y + c.High - top + 0.2*leading}
	} else {
		g.picture.X += (c.Wide - g.picture.Wide) / 2
		y := top + g.picture.High + inner/2
		g.words = paper.Box{X: c.X, Y: y, Wide: c.Wide, High: c.Y + c.High - y}
	}
	if g.picture.Y+g.picture.High > c.Y+c.High || g.words.Wide < leastWide*leading/1.36 || g.words.High < leastRows*leading {
		return -1
	}
	g.words.Wide = min(g.words.Wide, mostWide)
	room := g.words.Wide * min(g.words.High, mostRows*leading)
	return g.picture.Wide * g.picture.High * math.Sqrt(room)
}

// headHigh is the height of what stands over a picture.
func (g *grid) headHigh() float64 { return 1.5 * paper.Style{Points: g.points + 1}.Leading() }

// at returns the grid moved so that its first card is the one at a place.
func (g grid) at(place int) grid {
	x := float64(place%g.columns) * (g.card.Wide + gap)
	y := float64(place/g.columns) * (g.card.High + gap)
	for _, b := range []*paper.Box{&g.card, &g.picture, &g.words} {
		b.X, b.Y = b.X+x, b.Y+y
	}
	return g
}
