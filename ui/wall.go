package ui

import (
	"image"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"stillbeat/board"
	"stillbeat/board/picture"
)

var (
	_ fyne.Draggable    = (*wall)(nil)
	_ fyne.Scrollable   = (*wall)(nil)
	_ desktop.Mouseable = (*wall)(nil)
	_ desktop.Hoverable = (*wall)(nil)
)

// wall shows all panels as cards in rows. It is painted as one picture of the
// part in sight; only the playhead, and words in scripts the figures' font
// lacks, are objects of their own. What the user does leaves through the On
// functions; setters never call them.
type wall struct {
	widget.BaseWidget

	OnChoose func(panel int, how choice)
	OnOpen   func(panel int)         // double click
	OnOrder  func(panel, before int) // a panel was dragged before another
	OnMenu   func(at fyne.Position)
	OnHint   func(string)
	OnZoom   func() // other cards in a row

	view     wallView
	at       board.Frame // playhead
	drag     wallDrag
	up       bool // it is on screen: else nothing is painted or placed
	pressing bool // a card is being clicked: it stays where it is
	buffer   *image.RGBA
	raster   *canvas.Raster
	renderer *wallRenderer
	lastTap  tapMemory
}

func newWall(get func(s picture.Shot, w, h int) *image.RGBA) *wall {
	l := &wall{view: newWallView(get)}
	l.view.setBoard(board.New(), []board.Frame{0}, picture.NewFilm(nil, board.New()), nil)
	l.ExtendBaseWidget(l)
	return l
}

// SetBoard shows another state of the film, with what is chosen in it; fits
// tells the panels that are searched for, nil for no search.
func (l *wall) SetBoard(b board.Board, starts []board.Frame, film *picture.Film, fits []bool, chosen int, set []int) {
	l.drop()
	v := &l.view
	went := v.chosen != chosen
	v.chosen, v.selected = chosen, set
	v.setBoard(b, starts, film, fits)
	v.keepChosen()
	if went {
		v.reveal(chosen)
	}
	l.Refresh()
}

// SetChosen marks panels: the one the card shows, -1 for none, and all that
// are chosen. It scrolls the one into sight if asked.
func (l *wall) SetChosen(i int, set []int, show bool) {
	v := &l.view
	if v.chosen == i && slices.Equal(v.selected, set) {
		return
	}
	v.chosen, v.selected = i, set
	v.keepChosen()
	if show && !l.pressing {
		v.reveal(i)
	}
	l.Refresh()
}

// SetFound fades the panels that do not fit a search, or takes them off the
// wall; nil ends the search.
func (l *wall) SetFound(fits []bool, only bool) {
	v := &l.view
	v.fits, v.only, v.stays = fits, only, nil
	v.pick()
	v.keepChosen()
	l.Refresh()
}

// Reveal scrolls panel i into sight.
func (l *wall) Reveal(i int) {
	l.view.reveal(i)
	l.Refresh()
}

// SetPlayhead moves the red line; follow scrolls to its card.
func (l *wall) SetPlayhead(f board.Frame, follow bool) {
	was := board.PanelAt(l.view.starts, l.at)
	l.at = f
	if !l.up {
		return
	}
	if i := board.PanelAt(l.view.starts, f); follow && i >= 0 && i != was && !l.pressing {
		scroll := l.view.scroll
		l.view.reveal(i)
		if scroll != l.view.scroll {
			l.Refresh()
			return
		}
	}
	if r := l.renderer; r != nil {
		r.placePlayhead()
		canvas.Refresh(r.line)
	}
}

// ZoomBy makes the cards larger, around the chosen one if it is in sight,
// else the middle.
func (l *wall) ZoomBy(factor float64) {
	v := &l.view
	x, y, inSight := v.width/2, v.height/2, false
	if pos, on := v.place(v.chosen); on {
		if cx, cy := v.card(pos); cy >= v.scroll && cy < v.scroll+v.height {
			x, y, inSight = cx+1, cy-v.scroll, true
		}
	}
	v.zoomed(factor, x, y, true)
	if inSight {
		v.reveal(v.chosen)
	}
	l.zoomDone()
}

// FitAll shows all cards, as large as that goes.
func (l *wall) FitAll() {
	l.view.zoomAll()
	l.zoomDone()
}

func (l *wall) zoomDone() {
	l.Refresh()
	if l.OnZoom != nil {
		l.OnZoom()
	}
}

// Refresh paints the wall anew, if it is to be seen.
func (l *wall) Refresh() {
	if l.up {
		l.BaseWidget.Refresh()
	}
}

// MinSize leaves room for some cards.
func (l *wall) MinSize() fyne.Size { return fyne.NewSize(300, 160) }

// CreateRenderer makes the objects the wall is made of.
func (l *wall) CreateRenderer() fyne.WidgetRenderer {
	l.raster = newPainted(l.draw)
	l.renderer = &wallRenderer{l: l, line: canvas.NewRectangle(red)}
	return l.renderer
}

func (l *wall) draw(w, h int) image.Image {
	if l.buffer == nil || l.buffer.Rect.Dx() != w || l.buffer.Rect.Dy() != h {
		l.buffer = image.NewRGBA(image.Rect(0, 0, w, h))
	}
	if w > 0 && l.view.width > 0 {
		l.view.paint(l.buffer, float64(w)/l.view.width)
	}
	return l.buffer
}

// wallRenderer lays out the painted picture, with words and playhead over it.
type wallRenderer struct {
	l       *wall
	line    *canvas.Rectangle
	words   []*canvas.Text
	texts   []wallText
	objects []fyne.CanvasObject
}

func (r *wallRenderer) Layout(s fyne.Size) {
	was := r.l.view.perRow()
	r.l.view.resize(inText(fyne.NewPos(s.Width, s.Height)))
	r.l.raster.Resize(s)
	if r.l.up {
		r.placeWords()
		r.placePlayhead()
	}
	if r.l.OnZoom != nil && r.l.view.perRow() != was {
		r.l.OnZoom()
	}
}

func (r *wallRenderer) MinSize() fyne.Size { return r.l.MinSize() }

func (r *wallRenderer) Refresh() {
	r.placeWords()
	r.placePlayhead()
	r.l.raster.Refresh()
}

func (r *wallRenderer) Destroy() {}

func (r *wallRenderer) Objects() []fyne.CanvasObject {
	out := append(r.objects[:0], r.l.raster)
	for _, x := range r.words {
		out = append(out, x)
	}
	r.objects = append(out, r.line)
	return r.objects
}

// placePlayhead puts the line on the card whose panel is up, as far along its
// picture as the panel has been up.
func (r *wallRenderer) placePlayhead() {
	v := &r.l.view
	i := board.PanelAt(v.starts, r.l.at)
	pos, on := v.place(i)
	if r.line.Hidden = i < 0 || !on; r.line.Hidden {
		return
	}
	s := v.size()
	x, y := v.card(pos)
	y -= v.scroll
	x += s.w * float64(r.l.at-v.starts[i]) / float64(v.starts[i+1]-v.starts[i])
	top, bottom := max(0, y), min(v.height, y+s.pic)
	r.line.Hidden = bottom <= top
	r.line.Move(fyne.NewPos(textUnits(float32(x))-0.75, textUnits(float32(top))))
	r.line.Resize(fyne.NewSize(1.5, textUnits(float32(bottom-top))))
}

// placeWords writes the words that cannot be painted. Those not in sight in
// full are left out: they would lie over what is beside the wall.
func (r *wallRenderer) placeWords() {
	v, n := &r.l.view, 0
	r.texts = v.words(pen{scale: 1}, r.texts[:0])
	for _, t := range r.texts {
		if isLatin(t.s) || t.y < 1.2*t.size || t.y > v.height-0.5*t.size {
			continue
		}
		if n == len(r.words) {
			r.words = append(r.words, written("", ink, 11, false))
		}
		t.write(r.words[n])
		n++
	}
	for _, text := range r.words[n:] {
		text.Hidden = true
	}
}
