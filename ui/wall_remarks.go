package ui

import (
	"fmt"

	"stillbeat/board"
)

// remarked counts the notes of others on a panel.
type remarked struct{ open, all int }

// remarkedOf counts them for each panel, nil if there are none.
func remarkedOf(b board.Board) []remarked {
	var out []remarked
	for _, r := range b.PlacedRemarks() {
		if r.At < 0 {
			continue
		}
		if out == nil {
			out = make([]remarked, len(b.Panels))
		}
		if out[r.At].all++; r.State == board.RemarkOpen {
			out[r.At].open++
		}
	}
	return out
}

// words says how many there are: "3 notes of others, 1 open".
func (r remarked) words() string {
	words := fmt.Sprintf("%d %s of others", r.all, plural(int64(r.all), "note"))
	if r.open > 0 {
		words += fmt.Sprintf(", %d open", r.open)
	}
	return words
}

// paintRemarked draws, at the lower right of a card's picture, how many notes
// of others are on it: on ink those that are open or, where none is, framed all
// there are.
func (v *wallView) paintRemarked(p pen, i int, x, y float64, s wallSize) {
	if v.remarked == nil || v.remarked[i].all == 0 {
		return
	}
	r := v.remarked[i]
	n, c, back := r.open, paperLight, ink
	if n == 0 {
		n, c, back = r.all, ink, paperLight
	}
	size, high, edge := 10.0, 14.0, 4.0
	if s.lines < 2 {
		size, high, edge = 8.5, 11, 2
	}
	words := fmt.Sprint(n)
	if n > 99 {
		words = "99+"
	}
	wide := max(high, p.width(size, true, words)+8)
	right, bottom := x+s.w-edge, y+s.pic-edge-3
	left, top := right-wide, bottom-high
	p.fill(left-1, top-1, right+1, bottom+1, paperLight)
	p.fill(left, top, right, bottom, ink)
	p.fill(left+1.2, top+1.2, right-1.2, bottom-1.2, back)
	p.shape(ink, left+3, bottom, left+8, bottom, left+3, bottom+4)
	p.text((left+right-p.width(size, true, words))/2, bottom-high*0.27, size, true, c, words)
}
