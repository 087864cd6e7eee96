package ui

import (
	"image/color"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// layOut puts the fields on the card. The order is the one Tab goes in.
func (c *card) layOut(actions []fyne.CanvasObject) {
	c.passingRow = shared([]float32{1, 0}, c.passing, centred(small("frames")))
	number := func(name string, f *cardField) fyne.CanvasObject {
		return container.NewHBox(centred(small(name)), fixedWidth(numberWidth, f))
	}
	c.sceneNumber, c.shotNumber = number("Scene", c.scene), number("Shot", c.shot)
	marks := container.New(layout.NewCustomPaddedVBoxLayout(0), container.NewHBox(c.marks[0], c.marks[1]), container.NewHBox(c.marks[2], c.marks[3]))
	c.headingRow = newCardRow("Heading", c.heading)
	c.numberRow = newCardRow("Number", container.NewHBox(c.sceneNumber, c.shotNumber, number("Panel", c.panel)))
	rows := &cardRows{left: []cardRow{
		newCardRow("Starts", container.New(layout.NewCustomPaddedVBoxLayout(-12), c.starting, c.fitting)),
		newCardRow("Hold", shared([]float32{1, 3}, c.frames, c.holding)),
		newCardRow("Title", c.title),
		newCardRow("Action", c.action).growing(),
		newCardRow("Sound", c.sound).growing(),
		newCardRow("Note", c.note).growing(),
	}, right: []cardRow{
		newCardRow("Size", shared([]float32{4, 0, 5}, c.size, padded(2, 0, centred(small("Camera"))), c.camera)),
		newCardRow("Into by", shared([]float32{1, 1}, framed(c.into), c.passingRow)),
		newCardRow("Exposed", shared([]float32{1, 1}, framed(c.step), centred(c.exposing))),
		newCardRow("Marks", marks),
		c.headingRow, c.numberRow,
	}}
	var all []fyne.CanvasObject
	for _, r := range rows.all() {
		all = append(all, r.label, r.field)
	}
	c.scroll = container.NewVScroll(container.New(layout.NewCustomPaddedLayout(0, 0, 0, barRoom), container.New(rows, all...)))
	page := container.New(&cardPage{rows}, c.scroll, newWheel(c.scroll.Scrolled))
	head := container.NewHBox(c.name, layout.NewSpacer(), c.anchor)
	foot := container.NewHBox(actions...)
	c.body = container.New(layout.NewBorderLayout(head, foot, nil, nil), head, page, foot)
	c.empty = container.NewCenter(small("Choose a panel to write on its card."))
	c.root = band(paper, padded(12, 8, container.NewStack(c.body, c.empty)))
}

// framed gives a choice the border that fields have.
func framed(o fyne.CanvasObject) fyne.CanvasObject {
	border := canvas.NewRectangle(color.Transparent)
	border.StrokeColor, border.StrokeWidth, border.CornerRadius = paperEdge, theme.InputBorderSize(), theme.InputRadiusSize()
	return container.NewStack(o, border)
}

// valueLine shows a value of the film, cut short where there is no room.
func valueLine() *widget.Label {
	l := widget.NewLabel("")
	l.Truncation = fyne.TextTruncateEllipsis
	return l
}

// wheel lies over a part of the window, unseen, and takes the mouse wheel, which
// the fields below would keep to themselves. All else goes through it.
type wheel struct {
	widget.BaseWidget
	turned func(*fyne.ScrollEvent)
}

func newWheel(turned func(*fyne.ScrollEvent)) *wheel {
	w := &wheel{turned: turned}
	w.ExtendBaseWidget(w)
	return w
}

// CreateRenderer draws nothing.
func (w *wheel) CreateRenderer() fyne.WidgetRenderer {
	return widget.NewSimpleRenderer(canvas.NewRectangle(color.Transparent))
}

// Scrolled hands the turn of the wheel on.
func (w *wheel) Scrolled(e *fyne.ScrollEvent) { w.turned(e) }

// numberWidth is that of a field for a number of a few letters and figures.
const numberWidth = 46
