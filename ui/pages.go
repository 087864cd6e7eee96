package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"
)

// page is one of the pages of the window, which stand in each other's place
// between header and foot. All but the root may be nil.
type page struct {
	name, hint string // of its tab
	key        fyne.KeyName
	root       fyne.CanvasObject
	present    func()                                    // the film changed, and when it comes up
	showing    func(up bool)                             // it came up or went away
	typed      func(fyne.KeyName, fyne.KeyModifier) bool // takes a key for itself
	chosen     func(reveal bool)                         // other panels were chosen
	moved      func()                                    // the playhead moved
	says       string                                    // in the foot when it comes up

	tab *pageTab
}

// pages are all of them, in the order of their tabs.
type pages struct {
	w   *window
	all []*page
	up  *page // the one on screen
}

func newPages(w *window, all ...*page) *pages {
	p := &pages{w: w, all: all, up: all[0]}
	for _, g := range all {
		g.tab = newPageTab(w, g)
		if g != p.up {
			g.root.Hide()
		}
	}
	p.mark()
	return p
}

// root is where the pages stand.
func (p *pages) root() fyne.CanvasObject {
	stack := container.NewStack()
	for _, g := range p.all {
		stack.Add(g.root)
	}
	return stack
}

// tabRow is the buttons that tell which page is up.
func (p *pages) tabRow() fyne.CanvasObject {
	row := container.NewHBox()
	for _, g := range p.all {
		row.Add(g.tab.root)
	}
	return row
}

// Show puts a page on screen.
func (p *pages) Show(g *page) {
	if p.up == g {
		return
	}
	before := p.up
	p.w.win.Canvas().Unfocus()
	p.up = g
	before.root.Hide()
	if before.showing != nil {
		before.showing(false)
	}
	g.root.Show()
	if g.showing != nil {
		g.showing(true)
	}
	p.Present()
	p.w.foot.Hint(g.says)
	p.mark()
	refreshMenus(p.w.menu, p.w.commands)
}

// Present brings the page that is up in line with the film.
func (p *pages) Present() {
	if p.up.present != nil {
		p.up.present()
	}
}

// SetChosen brings it in line with what is chosen.
func (p *pages) SetChosen(reveal bool) {
	if p.up.chosen != nil {
		p.up.chosen(reveal)
	}
}

// Moved brings it in line with the playhead.
func (p *pages) Moved() {
	if p.up.moved != nil {
		p.up.moved()
	}
}

// typedKey gives a key to the page that is up and reports whether it took it.
func (p *pages) typedKey(name fyne.KeyName, held fyne.KeyModifier) bool {
	return p.up.typed != nil && p.up.typed(name, held)
}

// commands are those that go to a page.
func (p *pages) commands() []*command {
	out := []*command{{menu: "View"}}
	for _, g := range p.all {
		out = append(out, &command{menu: "View", name: g.name, key: g.key, do: func() { p.Show(g) }, ticked: func() bool { return p.up == g }})
	}
	return out
}

func (p *pages) mark() {
	for _, g := range p.all {
		g.tab.mark(g == p.up)
	}
}

// pageTab is a button with a line under it while its page is up.
type pageTab struct {
	button *hintedButton
	line   *canvas.Rectangle
	root   fyne.CanvasObject
}

func newPageTab(w *window, g *page) *pageTab {
	t := &pageTab{button: w.hinted(g.name, nil, widget.LowImportance, g.hint, func() { w.pages.Show(g) }).by(g.name), line: canvas.NewRectangle(ink)}
	t.line.SetMinSize(fyne.NewSize(1, 2.5))
	t.root = container.NewStack(t.button, container.NewVBox(layout.NewSpacer(), t.line))
	return t
}

func (t *pageTab) mark(up bool) {
	t.line.Hidden, t.button.Importance = !up, widget.LowImportance
	if up {
		t.button.Importance = widget.MediumImportance
	}
	t.root.Refresh()
}
