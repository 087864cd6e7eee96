package printed

import (
	"fmt"
	"math"
	"slices"
	"testing"

	"stillbeat/board"
	"stillbeat/board/internal/paper"
)

func within(in, out paper.Box) bool {
	const slack = 1e-6
	return in.X >= out.X-slack && in.Y >= out.Y-slack && in.X+in.Wide <= out.X+out.Wide+slack && in.Y+in.High <= out.Y+out.High+slack
}

func apart(a, b paper.Box) bool {
	return a.X+a.Wide <= b.X || b.X+b.Wide <= a.X || a.Y+a.High <= b.Y || b.Y+b.High <= a.Y
}

// Every number of panels, paper and shape of picture has a page on which all
// lies in its place and in the order of reading.
func TestCardsStayOnThePageAndApart(t *testing.T) {
	narrow := []board.Aspect{{W: 4, H: 1}, {W: 1, H: 4}}
	shapes := append(narrow, board.Aspects...)
	for _, size := range []paper.Size{paper.A4, paper.A4.Landscape(), paper.Letter, paper.Letter.Landscape()} {
		page := paper.Box{X: margin, Y: margin + headHigh, Wide: size.Wide - 2*margin, High: size.High - 2*margin - headHigh}
		for _, shape := range shapes {
			for n := 1; n <= MostPerPage; n++ {
				t.Run(fmt.Sprintf("%v on %.0fx%.0f, %d a page", shape, size.Wide, size.High, n), func(t *testing.T) {
					g := layGrid(page, n, shape.Ratio())
					if g.columns < 1 {
						t.Fatal("there is no grid")
					}
					for k := range n {
						at := g.at(k)
						if !within(at.card, page) || !within(at.picture, at.card) || !within(at.words, at.card) || !apart(at.picture, at.words) {
							t.Fatalf("card %d lies wrong: %+v", k, at)
						}
						if r := at.picture.Wide / at.picture.High; math.Abs(r-shape.Ratio()) > 1e-9 {
							t.Errorf("the picture is %.3f wide to 1 high, want %.3f", r, shape.Ratio())
						}
						if k > 0 {
							if last := g.at(k - 1).card; !apart(last, at.card) || at.card.Y < last.Y || at.card.Y == last.Y && at.card.X < last.X {
								t.Errorf("card %d does not follow the one before", k)
							}
						}
					}
					least := 0.18
					if slices.Contains(narrow, shape) {
						least = 0.1
					}
					if area := g.picture.Wide * g.picture.High * float64(n) / (page.Wide * page.High); area < least {
						t.Errorf("pictures take %.2f of the page, less than %g", area, least)
					}
				})
			}
		}
	}
}

// Six panels of 16:9 are two columns upright and three lying, which is common
// practice.
func TestUsualGrids(t *testing.T) {
	for _, c := range []struct {
		name    string
		size    paper.Size
		n       int
		ratio   float64
		columns int
	}{
		{"six upright", paper.A4, 6, 16.0 / 9, 2},
		{"six lying", paper.A4.Landscape(), 6, 16.0 / 9, 3},
		{"nine upright", paper.A4, 9, 16.0 / 9, 3},
		{"twelve lying", paper.Letter.Landscape(), 12, 16.0 / 9, 4},
		{"one", paper.A4, 1, 16.0 / 9, 1},
		{"three upright", paper.A4, 3, 16.0 / 9, 1},
		{"four tall ones lying", paper.A4.Landscape(), 4, 9.0 / 16, 4},
	} {
		t.Run(c.name, func(t *testing.T) {
			page := paper.Box{X: margin, Y: margin + headHigh, Wide: c.size.Wide - 2*margin, High: c.size.High - 2*margin - headHigh}
			if g := layGrid(page, c.n, c.ratio); g.columns != c.columns {
				t.Errorf("%d columns, want %d", g.columns, c.columns)
			}
		})
	}
}

func TestStrips(t *testing.T) {
	for _, c := range []struct {
		film float64
		most int
		want int
	}{{1, 6, 1}, {15, 6, 1}, {15.1, 6, 2}, {40.3, 6, 3}, {200, 6, 6}, {10800, 3, 3}} {
		if got := stripCount(c.film, c.most); got != c.want {
			t.Errorf("%g s on at most %d strips: %d, want %d", c.film, c.most, got, c.want)
		}
	}
}

func TestDotsToAnInch(t *testing.T) {
	for _, c := range []struct {
		name   string
		pixels float64
		want   float64
	}{
		{"few", 1e6, 300}, {"none", 0, 300}, {"just easy", 200e6, 300}, {"many", 288e6, 250}, {"more", 1200e6, 200},
		{"beyond what fits at 200", 4800e6, 150},
	} {
		if got := dotsFor(c.pixels); math.Abs(got-c.want) > 0.01 {
			t.Errorf("%s: %.2f, want %.2f", c.name, got, c.want)
		}
	}
}
