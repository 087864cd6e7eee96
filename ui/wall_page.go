package ui

import (
	"fmt"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"
)

// wallPage is the page of the window with the wall, beside the one with the
// timeline: the wall, and a row over it to search and zoom by.
type wallPage struct {
	w      *window
	wall   *wall
	sought bool // a panel found was gone to since the words were typed

	words       *field
	found, size *canvas.Text
	only        *hintedButton
	root        fyne.CanvasObject
}

func newWallPage(w *window) *wallPage {
	p := &wallPage{w: w, found: small(""), size: small("")}
	p.wall = newWall(w.drawn)
	p.wall.OnChoose = p.choose
	p.wall.OnOpen = func(i int) { w.choose(i); w.toTimeline() }
	p.wall.OnOrder = w.movePanels
	p.wall.OnMenu = func(at fyne.Position) { w.contextMenu(true, at) }
	p.wall.OnHint = func(s string) { w.foot.Hint(s) }
	p.wall.OnZoom = p.sayZoom
	p.words = newField("find a word, a number, a heading", 1)
	p.words.OnChanged = func(string) { p.search() }
	p.words.OnReturn = func() {
		if shiftHeld() {
			p.next(-1)
		} else {
			p.next(1)
		}
	}
	p.words.OnArrow = p.next
	p.words.OnEscape = func() { p.words.SetText(""); w.win.Canvas().Unfocus() }
	p.only = w.hinted("Only these", nil, widget.LowImportance, "Take the panels that do not fit off the wall, or fade them: Ctrl+Shift+F", func() { p.setOnly(!p.wall.view.only) })
	less := w.hinted("−", nil, widget.LowImportance, "Smaller cards, more in a row: −", func() { w.zoomBy(1 / 1.5) })
	more := w.hinted("+", nil, widget.LowImportance, "Larger cards, fewer in a row: +", func() { w.zoomBy(1.5) })
	row := container.NewHBox(padded(8, 0, centred(p.found)), p.only, layout.NewSpacer(), centred(p.size), less, more)
	bar := band(paperDark, padded(10, 3, container.NewBorder(nil, nil, fixedWidth(270, p.words), nil, row)))
	p.root = container.NewBorder(container.NewVBox(bar, rule()), nil, nil, nil, p.wall)
	p.sayZoom()
	p.sayFound()
	return p
}

// page is the wall's as one of the window's.
func (p *wallPage) page() *page {
	return &page{name: "Wall", hint: "All panels as cards, to search and to put in order", key: fyne.KeyF2, root: p.root,
		present: p.Present, chosen: p.SetChosen, typed: p.typedKey, says: wallHint, showing: func(up bool) {
			p.wall.drop()
			if p.wall.up = up; up {
				p.wall.Reveal(p.w.chosen)
			}
		}}
}

// up reports whether the page is on screen.
func (p *wallPage) up() bool { return p.wall.up }

// Present brings the page in line with the film.
func (p *wallPage) Present() {
	w := p.w
	p.wall.SetBoard(w.board, w.starts, w.film, findPanels(w.board, w.numbers, p.words.Text), w.chosen, w.selection())
	p.sayFound()
}

func (p *wallPage) sayZoom() {
	setText(p.size, fmt.Sprintf("%d in a row", p.wall.view.perRow()))
}

// sayFound says how many panels fit, and which of them is the chosen one.
func (p *wallPage) sayFound() {
	fits, words := p.wall.view.fits, ""
	if found := foundList(fits); fits != nil {
		words = fmt.Sprintf("%d found", len(found))
		if k, is := slices.BinarySearch(found, p.w.chosen); is {
			words = fmt.Sprintf("%d of ", k+1) + words
		} else if len(found) == 0 {
			words = "not on any panel"
		}
	}
	setText(p.found, words)
	p.only.SetText(map[bool]string{false: "Only these", true: "All panels"}[p.wall.view.only])
	if p.only.Hidden = fits == nil; !p.only.Hidden {
		p.only.Refresh()
	}
}

// search shows what fits the words typed.
func (p *wallPage) search() {
	p.sought = false
	p.setFound(findPanels(p.w.board, p.w.numbers, p.words.Text), p.wall.view.only)
}

// setOnly takes the panels that do not fit off the wall, or puts them back.
func (p *wallPage) setOnly(only bool) {
	p.setFound(p.wall.view.fits, only)
	refreshMenus(p.w.menu, p.w.commands)
}

func (p *wallPage) setFound(fits []bool, only bool) {
	w, found := p.w, foundList(fits)
	if only && len(found) > 0 {
		// What is off the wall must not be edited unseen.
		set := slices.DeleteFunc(w.selection(), func(i int) bool { return !fits[i] })
		switch {
		case len(set) == 0:
			w.choose(found[0])
		case len(set) < len(w.selection()) && fits[w.chosen]:
			w.selectSet(set, w.chosen)
		case len(set) < len(w.selection()):
			w.selectSet(set, set[0])
		}
	}
	p.wall.SetFound(fits, only)
	if len(found) > 0 {
		p.wall.Reveal(found[0])
	} else {
		p.wall.Reveal(w.chosen)
	}
	p.sayFound()
}

// next chooses the next panel found, or the one before; after typing, the
// first.
func (p *wallPage) next(by int) {
	from := p.w.chosen
	if !p.sought && by > 0 {
		from = -1
	}
	fits := p.wall.view.fits
	if fits == nil {
		return
	}
	if i := nextFound(fits, from, by); i >= 0 {
		p.sought = true
		p.w.choose(i)
		p.wall.Reveal(i)
	}
}

// SetChosen brings the page in line with what is chosen.
func (p *wallPage) SetChosen(reveal bool) {
	p.wall.SetChosen(p.w.chosen, p.w.selection(), reveal)
	p.sayFound()
}

// foundNow returns the panels found, none without a search or on the other
// page.
func (p *wallPage) foundNow() []int {
	if !p.up() {
		return nil
	}
	return foundList(p.wall.view.fits)
}

// choose is a click on a card.
func (p *wallPage) choose(i int, how choice) {
	switch how {
	case chooseRun:
		p.chooseTo(i)
	case chooseMore:
		p.w.chooseAlso(i)
	default:
		p.w.choose(i)
	}
}

// chooseTo chooses the cards from the panel chosen alone last to panel i, of
// those on the wall.
func (p *wallPage) chooseTo(i int) {
	v := &p.wall.view
	a, _ := v.place(p.w.pivot)
	z, on := v.place(i)
	if !on {
		return
	}
	a = min(a, len(v.order)-1)
	p.w.selectSet(v.order[min(a, z):max(a, z)+1], i)
}
