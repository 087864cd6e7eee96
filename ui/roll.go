package ui

import (
	"image"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

var (
	_ fyne.Draggable    = (*roll)(nil)
	_ fyne.Scrollable   = (*roll)(nil)
	_ desktop.Mouseable = (*roll)(nil)
	_ desktop.Hoverable = (*roll)(nil)
)

// rolled is what a roll shows, as plain data. Places are in units of text; y
// counts from the top of all of it, that of words to be written from the top of
// what is in sight.
type rolled interface {
	resize(width, height float64)
	long() float64                                              // height of all of it
	head() float64                                              // of a strip at the top that stays, within what is in sight
	paint(p pen, top float64)                                   // what is in sight from top on
	words(p pen, top float64, out []wallText) []wallText        // those that paint leaves out: scripts its font lacks
	press(x, y float64, twice bool, held fyne.KeyModifier) bool // reports whether a drag goes on with it
	drag(x, y float64)
	hint(x, y float64) string
}

// roll shows something long of which a part is in sight. It is painted as one
// picture of that part; only words in scripts the figures' font lacks are
// objects of their own.
type roll struct {
	widget.BaseWidget
	OnHint   func(string)
	OnScroll func() // by hand

	of            rolled
	width, height float64
	top           float64 // of what is in sight
	up            bool    // it is on screen: else nothing is painted or placed
	least         fyne.Size

	holds    rollDrag
	last     float64 // of a pan, where the pointer was
	tapped   time.Time
	tappedAt fyne.Position
	buffer   *image.RGBA
	raster   *canvas.Raster
	renderer *rollRenderer
}

type rollDrag int

const (
	rollStill rollDrag = iota
	rollPress          // what is shown goes on with the press
	rollPan
	rollBar
)

func newRoll(of rolled) *roll {
	r := &roll{of: of, least: fyne.NewSize(300, 160)}
	r.ExtendBaseWidget(r)
	return r
}

// To scrolls to y.
func (r *roll) To(y float64) {
	r.top = max(0, min(y, r.of.long()-r.height))
	r.Refresh()
}

// Reveal scrolls as little as is needed for y to be in sight, and as much below
// it as is high.
func (r *roll) Reveal(y, high float64) {
	switch {
	case y < r.top+r.of.head():
		r.To(y - r.of.head())
	case y+high > r.top+r.height:
		r.To(y + high - r.height)
	}
}

// Sees reports whether all of what is high at y is in sight.
func (r *roll) Sees(y, high float64) bool {
	return y >= r.top+r.of.head() && y+high <= r.top+r.height
}

// Refresh paints the roll anew, if it is to be seen.
func (r *roll) Refresh() {
	if r.up {
		r.BaseWidget.Refresh()
	}
}

// Up says whether the roll is on screen.
func (r *roll) Up(up bool) {
	if r.up = up; up {
		r.To(r.top)
	}
}

// MinSize leaves room for some of it.
func (r *roll) MinSize() fyne.Size { return r.least }

// CreateRenderer makes the objects the roll is made of.
func (r *roll) CreateRenderer() fyne.WidgetRenderer {
	r.raster = newPainted(r.draw)
	r.renderer = &rollRenderer{r: r}
	return r.renderer
}

func (r *roll) draw(w, h int) image.Image {
	if r.buffer == nil || r.buffer.Rect.Dx() != w || r.buffer.Rect.Dy() != h {
		r.buffer = image.NewRGBA(image.Rect(0, 0, w, h))
	}
	if w > 0 && r.width > 0 {
		p := pen{r.buffer, float64(w) / r.width}
		r.of.paint(p, r.top)
		r.paintBar(p)
	}
	return r.buffer
}

// paintBar shows, at the right, which part is in sight.
func (r *roll) paintBar(p pen) {
	if r.of.long() <= r.height {
		return
	}
	p.fill(r.width-wallBarW, 0, r.width, r.height, paperDark)
	top, h := r.bar()
	p.fill(r.width-wallBarW+3, top+2, r.width-3, top+h-2, inkFaint)
}

// bar returns top and height of the handle on the strip at the right.
func (r *roll) bar() (top, h float64) {
	h = max(24, r.height*r.height/r.of.long())
	return r.top / (r.of.long() - r.height) * (r.height - h), h
}

func (r *roll) barTo(y float64) {
	_, h := r.bar()
	r.byHand((y - h/2) / max(1, r.height-h) * (r.of.long() - r.height))
}

func (r *roll) byHand(y float64) {
	if r.OnScroll != nil {
		r.OnScroll()
	}
	r.To(y)
}
