package ui

import (
	"image"
	"slices"

	"stillbeat/board"
	"stillbeat/board/picture"
)

// wallView is all the wall shows, as plain data: it is painted without a
// window and tested so. Places are in units of text; those called "on
// the wall" count from its top, those "in sight" from what is scrolled to.
type wallView struct {
	width, height float64
	scroll        float64 // of the wall, at the top of what is in sight
	zoom          float64 // cards in a row, not yet rounded; 0: of a usual size

	board   board.Board
	starts  []board.Frame
	film    *picture.Film   // of board
	numbers []string        // of the panels
	named   []board.Numbers // of the panels, in full
	shotOf  []int           // of each panel, the first panel of its shot
	sceneOf []int           // of each panel, the first panel of its scene

	remarked []remarked // notes of others on each panel, nil if there are none

	fits  []bool                 // of each panel: it is what is searched for; nil without a search
	only  bool                   // panels that do not fit are off the wall, not just faded
	stays map[board.PanelID]bool // panels that are on the wall all the same

	order []int // the panels on the wall
	rows  []wallRow
	end   float64 // height of the whole wall

	chosen   int   // panel the card shows, -1 none
	selected []int // all panels chosen, in order
	caret    wallGap
	carried  wallCarried

	thumbs *thumbs
	signs  map[wallSign]*image.RGBA
	texts  []wallText // kept from one painting to the next for its room
}

// wallCarried says what is being dragged.
type wallCarried struct {
	panels []int // in order; none when nothing is
	x, y   float64
}

func newWallView(get func(s picture.Shot, w, h int) *image.RGBA) wallView {
	return wallView{chosen: -1, caret: noGap, thumbs: newThumbs(get), signs: map[wallSign]*image.RGBA{}}
}

// setBoard shows another state of the film.
func (v *wallView) setBoard(b board.Board, starts []board.Frame, film *picture.Film, fits []bool) {
	v.board, v.starts, v.film, v.fits = b, starts, film, fits
	v.numbers, v.named = b.Numbers(), b.AllNumbers()
	v.shotOf, v.sceneOf = firstOf(b.Shots()), firstOf(b.Scenes())
	v.remarked = remarkedOf(b)
	v.caret, v.carried = noGap, wallCarried{}
	v.pick()
}

// firstOf returns, for each panel, the first of the run it is in.
func firstOf(runs []int) []int {
	var out []int
	for k := 0; k+1 < len(runs); k++ {
		for range runs[k+1] - runs[k] {
			out = append(out, runs[k])
		}
	}
	return out
}

// pick puts the panels on the wall that belong there.
func (v *wallView) pick() {
	v.order = v.order[:0]
	for i, p := range v.board.Panels {
		if !v.only || v.fits == nil || v.fits[i] || v.stays[p.ID] {
			v.order = append(v.order, i)
		}
	}
	v.lay()
}

// keepChosen puts chosen panels on the wall that do not fit the search: what
// is about to be edited is in sight. They stay until another search.
func (v *wallView) keepChosen() {
	if !v.only || v.fits == nil {
		return
	}
	more := false
	for _, i := range v.selected {
		if id := v.board.Panels[i].ID; !v.fits[i] && !v.stays[id] {
			if v.stays == nil {
				v.stays = map[board.PanelID]bool{}
			}
			v.stays[id], more = true, true
		}
	}
	if more {
		v.pick()
	}
}

// place returns where panel i is in the order of the wall: if it is not on it,
// where it would be.
func (v *wallView) place(i int) (pos int, on bool) { return slices.BinarySearch(v.order, i) }

func (v *wallView) isSelected(i int) bool {
	_, found := slices.BinarySearch(v.selected, i)
	return found
}

// faded reports whether panel i steps back: it is not what is searched for,
// or it is being carried elsewhere.
func (v *wallView) faded(i int) bool {
	if _, carried := slices.BinarySearch(v.carried.panels, i); carried {
		return true
	}
	return v.fits != nil && !v.fits[i]
}

// hasShots reports whether shots or scenes are marked.
func (v *wallView) hasShots() bool {
	n := len(v.shotOf)
	return n > 0 && v.shotOf[n-1] > 0
}

// hasScenes reports whether scenes are marked, or the only one has a heading.
func (v *wallView) hasScenes() bool {
	n := len(v.sceneOf)
	return n > 0 && (v.sceneOf[n-1] > 0 || v.board.Panels[0].Heading != "")
}

// panelAt returns the panel whose card is under (x, y) in sight, -1 for none.
func (v *wallView) panelAt(x, y float64) int {
	s := v.size()
	r, ok := v.rowAt(y + v.scroll)
	top := r.top + s.above
	if !ok || r.heading || y+v.scroll < top || y+v.scroll > top+s.pic+s.caption || x < s.left {
		return -1
	}
	k := int((x - s.left) / s.pitch())
	if r.from+k >= r.to || x > s.left+float64(k)*s.pitch()+s.w {
		return -1
	}
	return v.order[r.from+k]
}

// wallGap is a place between cards where carried ones would land.
type wallGap struct {
	before int  // panel they would be put before, len(Panels) for the end; -1: no place
	pos    int  // card the caret stands at, in the order of the wall
	after  bool // it stands behind that card
}

var noGap = wallGap{before: -1}

// gapAt returns the gap nearest to (x, y) in sight. What is put before the
// first panel of a shot or scene ends the one before: the caret stands there.
func (v *wallView) gapAt(x, y float64) wallGap {
	r, ok := v.nearestCards(y + v.scroll)
	if !ok {
		return noGap
	}
	s := v.size()
	k := 0
	for r.from+k < r.to && x > s.left+float64(k)*s.pitch()+s.w/2 {
		k++
	}
	pos := r.from + k
	if pos == r.to {
		return wallGap{v.order[pos-1] + 1, pos - 1, true}
	}
	if i := v.order[pos]; pos > 0 && v.shotOf[i] != v.shotOf[v.order[pos-1]] {
		return wallGap{i, pos - 1, true}
	}
	return wallGap{v.order[pos], pos, false}
}
