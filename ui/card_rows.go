package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
)

// cardRow is a row of the card: what it is called, and its fields.
type cardRow struct {
	label, field fyne.CanvasObject
	grows        bool // takes what height is left
}

func newCardRow(name string, field fyne.CanvasObject) cardRow {
	return cardRow{label: label(name), field: field}
}

func (r cardRow) growing() cardRow {
	r.grows = true
	return r
}

func (r cardRow) setVisible(on bool) {
	setVisible(r.label, on)
	setVisible(r.field, on)
}

// wideCard is the width from which the card has two columns.
const wideCard = 680

// cardPage gives the scroll, and the wheel over it, its whole size, and has the
// rows in it stand in one column or in two.
type cardPage struct{ rows *cardRows }

func (p *cardPage) MinSize(o []fyne.CanvasObject) fyne.Size { return o[0].MinSize() }

func (p *cardPage) Layout(o []fyne.CanvasObject, s fyne.Size) {
	p.rows.wide = s.Width >= wideCard
	for _, each := range o {
		each.Resize(s)
	}
	o[0].Refresh()
}

// cardRows lays rows one below the other: all in one column or, when wide, in
// two side by side. The rows that grow share the height that is left.
type cardRows struct {
	left, right []cardRow
	wide        bool
}

const (
	barRoom   = 8 // right of the fields, for the scroll bar
	rowGap    = 4
	columnGap = 20
	mostGrown = 140 // height of the tallest field
)

func (l *cardRows) all() []cardRow { return append(l.left[:len(l.left):len(l.left)], l.right...) }

func (l *cardRows) columns() [][]cardRow {
	if l.wide {
		return [][]cardRow{l.left, l.right}
	}
	return [][]cardRow{l.all()}
}

// least returns the size rows need, their labels w wide.
func least(rows []cardRow, w float32) (s fyne.Size, growing int) {
	for _, r := range rows {
		if r.field.Visible() {
			m := r.field.MinSize()
			s.Width, s.Height = max(s.Width, w+theme.Padding()+m.Width), s.Height+m.Height+rowGap
			if r.grows {
				growing++
			}
		}
	}
	return s, growing
}

func (l *cardRows) labels() (w float32) {
	for _, r := range l.all() {
		w = max(w, r.label.MinSize().Width)
	}
	return w
}

// MinSize asks for the width of one column in any case: it decides how narrow
// the card may get.
func (l *cardRows) MinSize([]fyne.CanvasObject) fyne.Size {
	w := l.labels()
	width, _ := least(l.all(), w)
	var height float32
	for _, c := range l.columns() {
		s, _ := least(c, w)
		height = max(height, s.Height)
	}
	return fyne.NewSize(width.Width, height)
}

func (l *cardRows) Layout(_ []fyne.CanvasObject, s fyne.Size) {
	w, columns := l.labels(), l.columns()
	width := (s.Width - columnGap*float32(len(columns)-1)) / float32(len(columns))
	for k, rows := range columns {
		x, y := float32(k)*(width+columnGap), float32(0)
		for _, r := range rows {
			if r.grows { // its height depends on its width
				r.field.Resize(fyne.NewSize(width-w-theme.Padding(), r.field.Size().Height))
			}
		}
		need, growing := least(rows, w)
		for _, r := range rows {
			if !r.field.Visible() {
				continue
			}
			h := r.field.MinSize().Height
			if r.grows {
				h = max(h, min(mostGrown, h+(s.Height-need.Height)/float32(growing)))
			}
			r.label.Move(fyne.NewPos(x, y))
			r.label.Resize(fyne.NewSize(w, r.label.MinSize().Height))
			r.field.Move(fyne.NewPos(x+w+theme.Padding(), y))
			r.field.Resize(fyne.NewSize(width-w-theme.Padding(), h))
			y += h + rowGap
		}
	}
}

// shares lays objects side by side; each takes its share of the width, those
// of share 0 what they need. What is hidden leaves its place empty.
type shares []float32

func shared(by []float32, o ...fyne.CanvasObject) fyne.CanvasObject {
	return container.New(shares(by), o...)
}

func (w shares) MinSize(objects []fyne.CanvasObject) (s fyne.Size) {
	for _, o := range objects {
		m := o.MinSize()
		s.Width, s.Height = s.Width+m.Width+theme.Padding(), max(s.Height, m.Height)
	}
	s.Width -= theme.Padding()
	return s
}

func (w shares) Layout(objects []fyne.CanvasObject, s fyne.Size) {
	left, all := s.Width+theme.Padding(), float32(0)
	for k, o := range objects {
		left -= theme.Padding()
		if all += w[k]; w[k] == 0 {
			left -= o.MinSize().Width
		}
	}
	x := float32(0)
	for k, o := range objects {
		width := o.MinSize().Width
		if w[k] > 0 {
			width = max(width, left*w[k]/all)
		}
		o.Move(fyne.NewPos(x, 0))
		o.Resize(fyne.NewSize(width, s.Height))
		x += width + theme.Padding()
	}
}
