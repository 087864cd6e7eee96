package ui

import (
	"math"
	"sort"
)

// wallRow is a heading of a scene or a row of cards.
type wallRow struct {
	top, height float64 // on the wall
	heading     bool
	from, to    int // cards, in the order of the wall; of a heading, those of its scene
}

const (
	wallMargin  = 14.0
	wallBarW    = 12.0 // the strip at the right that shows how far one has scrolled
	wallSceneH  = 32.0
	leastPerRow = 3.0
	mostPerRow  = 40.0
	usualCard   = 204.0 // width of a card of 16:9 and its gap before one zooms
)

// wallSize holds the measures of a card and what is around it.
type wallSize struct {
	left, w, gap float64
	strip        float64 // brackets of the shots
	above        float64 // strip and the room for the sign of the start
	pic, caption float64
	lines        int // of words in the caption; 0: the number alone
}

func (s wallSize) pitch() float64 { return s.w + s.gap }
func (s wallSize) row() float64   { return s.above + s.pic + s.caption + s.gap }

// inner is the width for cards.
func (v *wallView) inner() float64 { return math.Max(60, v.width-2*wallMargin-wallBarW) }

// perRow returns how many cards hang in a full row.
func (v *wallView) perRow() int { return int(math.Round(v.zoomNow())) }

func (v *wallView) zoomNow() float64 {
	z := v.zoom
	if z == 0 {
		// Pictures of all shapes are about as large.
		z = v.inner() / (usualCard * math.Sqrt(v.board.Aspect.Ratio()*9/16))
	}
	return math.Max(leastPerRow, math.Min(mostPerRow, z))
}

func (v *wallView) size() wallSize {
	n := float64(v.perRow())
	s := wallSize{left: wallMargin}
	s.gap = math.Max(4, math.Min(14, 0.07*v.inner()/n))
	// In steps of four a picture of 16 to 9 fills its frame without a rim.
	s.w = math.Max(4, math.Floor((v.inner()-s.gap*(n-1))/n/4)*4)
	s.gap = (v.inner() + s.gap - n*s.w) / n
	s.pic = math.Round(s.w / v.board.Aspect.Ratio())
	var sign float64
	switch {
	case s.w < 46:
		s.lines, s.caption, sign = 0, 12, 5
	case s.w < 84:
		s.lines, s.caption, sign = 1, 17, 8
	case s.w < 200:
		s.lines, s.caption, sign = 2, 35, 10
	default:
		s.lines, s.caption, sign = 3, 51, 10
	}
	if v.hasShots() {
		s.strip = 17
		if s.lines < 2 {
			s.strip = 12
		}
	}
	s.above = s.strip + sign
	return s
}

// lay hangs the cards in rows. Each scene begins a row of its own.
func (v *wallView) lay() {
	v.rows = v.rows[:0]
	s, n, y := v.size(), v.perRow(), wallMargin/2
	for from := 0; from < len(v.order); {
		to := from
		for to < len(v.order) && v.sceneOf[v.order[to]] == v.sceneOf[v.order[from]] {
			to++
		}
		if v.hasScenes() {
			v.rows = append(v.rows, wallRow{y, wallSceneH, true, from, to})
			y += wallSceneH
		}
		for ; from < to; from += n {
			v.rows = append(v.rows, wallRow{y, s.row(), false, from, min(from+n, to)})
			y += s.row()
		}
		from = to
	}
	v.end = y + wallMargin
	v.scrollTo(v.scroll)
}

func (v *wallView) scrollTo(y float64) {
	v.scroll = math.Max(0, math.Min(math.Round(y), v.end-v.height))
}

// firstRow returns the first row that ends below y on the wall.
func (v *wallView) firstRow(y float64) int {
	return sort.Search(len(v.rows), func(k int) bool { return v.rows[k].top+v.rows[k].height > y })
}

// rowAt returns the row at y on the wall.
func (v *wallView) rowAt(y float64) (wallRow, bool) {
	k := v.firstRow(y)
	if k == len(v.rows) || y < v.rows[k].top {
		return wallRow{}, false
	}
	return v.rows[k], true
}

// nearestCards returns the row of cards at y on the wall, or the one nearest
// to it.
func (v *wallView) nearestCards(y float64) (wallRow, bool) {
	if len(v.rows) == 0 {
		return wallRow{}, false
	}
	k := min(v.firstRow(y), len(v.rows)-1)
	if v.rows[k].heading {
		k++ // a heading has a row under it
	}
	return v.rows[k], true
}

// rowOf returns the index of the row card pos hangs in.
func (v *wallView) rowOf(pos int) int {
	return sort.Search(len(v.rows), func(k int) bool { return v.rows[k].from > pos }) - 1
}

// card returns the top left corner of card pos on the wall.
func (v *wallView) card(pos int) (x, y float64) {
	r, s := v.rows[v.rowOf(pos)], v.size()
	return s.left + float64(pos-r.from)*s.pitch(), r.top + s.above
}

// reveal scrolls as little as needed to have the card of panel i in sight,
// with the heading over it.
func (v *wallView) reveal(i int) {
	pos, on := v.place(i)
	if !on {
		return
	}
	k := v.rowOf(pos)
	top, bottom := v.rows[k].top, v.rows[k].top+v.rows[k].height
	if k > 0 && v.rows[k-1].heading {
		top = v.rows[k-1].top
	}
	switch {
	case top < v.scroll || bottom-top > v.height:
		v.scrollTo(top - wallMargin/2)
	case bottom > v.scroll+v.height:
		v.scrollTo(bottom - v.height + wallMargin/2)
	}
}

// resize gives the wall another size and keeps the row at its top there.
func (v *wallView) resize(w, h float64) {
	if v.width == 0 {
		v.width, v.height = w, h
		v.lay()
		return
	}
	v.holding(0, 0, func() { v.width, v.height = w, h })
}

// zoomed makes the cards larger by factor, by a card in a row at least when
// stepping, around (x, y) in sight.
func (v *wallView) zoomed(factor, x, y float64, step bool) {
	v.holding(x, y, func() {
		was := v.perRow()
		z := v.zoomNow() / factor
		if step && int(math.Round(z)) == was {
			z = float64(was) + math.Copysign(1, 1-factor)
		}
		v.zoom = math.Max(leastPerRow, math.Min(mostPerRow, z))
	})
}

// zoomAll shows all cards, as large as that goes.
func (v *wallView) zoomAll() {
	for v.zoom = leastPerRow; ; v.zoom++ {
		v.lay()
		if v.end <= v.height || v.zoom >= mostPerRow {
			v.scrollTo(0)
			return
		}
	}
}

// holding lays the wall anew after a change, with the card at (x, y) in sight
// staying as high.
func (v *wallView) holding(x, y float64, change func()) {
	r, ok := v.nearestCards(y + v.scroll)
	if !ok {
		change()
		v.lay()
		return
	}
	s := v.size()
	pos := max(r.from, min(r.from+int((x-s.left)/s.pitch()), r.to-1))
	part := (y + v.scroll - r.top) / r.height
	change()
	v.lay()
	r = v.rows[v.rowOf(pos)]
	v.scrollTo(r.top + part*r.height - y)
}

// beside returns the panel by so many cards along from panel i, staying on
// the wall.
func (v *wallView) beside(i, by int) int {
	if len(v.order) == 0 {
		return -1
	}
	pos, _ := v.place(i)
	return v.order[max(0, min(pos+by, len(v.order)-1))]
}

// rowsFrom returns the panel so many rows of cards below panel i, nearest to
// its column.
func (v *wallView) rowsFrom(i, by int) int {
	if len(v.order) == 0 {
		return -1
	}
	pos, _ := v.place(i)
	pos = min(pos, len(v.order)-1)
	k := v.rowOf(pos)
	column := pos - v.rows[k].from
	step := 1
	if by < 0 {
		step = -1
	}
	for ; by != 0; by -= step {
		next := k + step
		if next >= 0 && next < len(v.rows) && v.rows[next].heading {
			next += step
		}
		if next < 0 || next >= len(v.rows) {
			break
		}
		k = next
	}
	return v.order[min(v.rows[k].from+column, v.rows[k].to-1)]
}

// page returns how many rows of cards are in sight together.
func (v *wallView) page() int { return max(1, int(v.height/v.size().row())) }
