package ui

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"stillbeat/board"
)

// card shows the words and the timing of the chosen panel. What is typed
// leaves through the On functions as it is typed.
type card struct {
	OnWords func(i int, w board.Words)
	OnHold  func(i int, hold board.Frame)
	OnDone  func() // a field was left: typing in it is one step to undo

	index int
	words board.Words
	hold  board.Frame

	number, start, holdWords   *canvas.Text
	title, action, sound, note *field
	frames                     *field
	anchor                     *widget.Button
	body, empty                *fyne.Container
	root                       fyne.CanvasObject
}

// newCard makes the card; actions are the buttons at its foot.
func newCard(anchor func(), actions ...fyne.CanvasObject) *card {
	c := &card{index: -1,
		number: heading(""), start: small(""), holdWords: small(""),
		title: newField("what the panel is called", 1), action: newField("what happens", 2),
		sound: newField("sound or dialogue", 2), note: newField("note to yourself", 2),
		frames: newField("", 1)}
	c.anchor = widget.NewButton("Anchor", anchor)
	c.anchor.Importance = widget.LowImportance
	for _, f := range []*field{c.title, c.action, c.sound, c.note} {
		f.OnChanged = func(string) { c.typed() }
		f.OnDone = func() { c.done() }
	}
	c.frames.OnDone = c.typedHold
	form := container.New(layout.NewFormLayout(),
		label("Hold"), container.NewBorder(nil, nil, fixedWidth(64, c.frames), nil, c.holdWords),
		label("Title"), c.title, label("Action"), c.action,
		label("Sound"), c.sound, label("Note"), c.note,
	)
	head := container.NewBorder(nil, nil, c.number, c.anchor, padded(8, 0, centred(c.start)))
	c.body = container.NewBorder(head, container.NewHBox(actions...), nil, nil, container.NewVScroll(form))
	c.empty = container.NewCenter(small("Choose a panel to write on its card."))
	c.root = band(paper, padded(12, 8, container.NewStack(c.body, c.empty)))
	c.Present(board.New(), []board.Frame{0}, -1)
	return c
}

// Present shows panel i of the board, -1 for none.
func (c *card) Present(b board.Board, starts []board.Frame, i int) {
	c.index = i
	if i < 0 || i >= len(b.Panels) {
		c.index = -1
		c.body.Hide()
		c.empty.Show()
		return
	}
	c.empty.Hide()
	c.body.Show()
	p := b.Panels[i]
	c.words = p.Words
	c.hold = starts[i+1] - starts[i]
	setText(c.number, "Panel "+b.Number(i))
	c.title.put(p.Title)
	c.action.put(p.Action)
	c.sound.put(p.Sound)
	c.note.put(p.Note)
	c.frames.put(strconv.FormatInt(int64(c.hold), 10))
	setText(c.holdWords, holdWords(b, starts, i))
	setText(c.start, startWords(b, starts, i))
	c.anchor.Hidden = i == 0 || !b.OnGrid()
	if p.Start.Anchored() {
		c.anchor.SetText("Set free")
	} else {
		c.anchor.SetText("Anchor")
	}
}

// Focus puts the cursor into the title.
func (c *card) Focus(cv fyne.Canvas) {
	if c.index >= 0 {
		cv.Focus(c.title)
	}
}

func (c *card) typed() {
	w := c.words
	w.Title, w.Action, w.Sound, w.Note = c.title.Text, c.action.Text, c.sound.Text, c.note.Text
	if c.index < 0 || w == c.words || c.OnWords == nil {
		return
	}
	// While Present fills the fields one after the other, those still to come
	// differ from the panel: only a field with the cursor was typed in.
	if !c.focused() {
		return
	}
	c.words = w
	c.OnWords(c.index, w)
}

func (c *card) focused() bool {
	cv := fyne.CurrentApp().Driver().CanvasForObject(c.title)
	if cv == nil {
		return false
	}
	switch cv.Focused() {
	case c.title, c.action, c.sound, c.note:
		return true
	}
	return false
}

func (c *card) done() {
	if c.OnDone != nil {
		c.OnDone()
	}
}

func (c *card) typedHold() {
	n, err := strconv.ParseInt(strings.TrimSpace(c.frames.Text), 10, 64)
	if c.index < 0 || c.OnHold == nil || err == nil && board.Frame(n) == c.hold {
		return
	}
	if err != nil || n < 1 {
		c.frames.put(strconv.FormatInt(int64(c.hold), 10))
		return
	}
	c.OnHold(c.index, board.Frame(n))
}

// holdWords gives a hold in the other units: "frames · 1.25 s · 2.5 beats · 15 exposures".
func holdWords(b board.Board, starts []board.Frame, i int) string {
	hold := starts[i+1] - starts[i]
	words := fmt.Sprintf("frames · %.2f s", b.Rate.Seconds(hold))
	if b.OnGrid() {
		if n := beatsBetween(b, starts[i], starts[i+1]); n > 0 {
			words += fmt.Sprintf(" · %.3g %s", n, plural(int64(math.Ceil(n)), "beat"))
		}
	}
	step := board.Frame(b.StepOf(i))
	n := (hold + step - 1) / step
	words += fmt.Sprintf(" · %d %s", n, plural(int64(n), "exposure"))
	return words
}

// beatsBetween counts the beats from frame a to frame z, a part of a beat as
// its share.
func beatsBetween(b board.Board, a, z board.Frame) float64 {
	at := func(f board.Frame) float64 {
		n := b.Grid.Near(b.Rate.Seconds(f)-b.SongOffset(), 12)
		return float64(n.Beat) + float64(n.Part)/float64(n.Of)
	}
	return at(z) - at(a)
}

// startWords says where a panel begins.
func startWords(b board.Board, starts []board.Frame, i int) string {
	at := fmt.Sprintf("frame %d", starts[i])
	s := b.Panels[i].Start
	switch {
	case i == 0:
		return "starts the film"
	case !s.Anchored() || !b.OnGrid():
		return "starts free, " + at
	case s.Anchor.Offset != 0:
		return fmt.Sprintf("%s %+d f, %s", beatName(b, s.Anchor), s.Anchor.Offset, at)
	}
	return beatName(b, s.Anchor) + ", " + at
}

func plural(n int64, s string) string {
	if n == 1 {
		return s
	}
	return s + "s"
}
