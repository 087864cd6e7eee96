package ui

import (
	"fmt"
	"strconv"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/widget"

	"stillbeat/board"
)

// fill brings every field in line with the chosen panels. A field in which a
// length or a number is still being typed keeps it.
func (c *card) fill() {
	setVisible(c.body, len(c.set) > 0)
	setVisible(c.empty, len(c.set) == 0)
	if len(c.set) == 0 {
		return
	}
	c.filling = true
	defer func() { c.filling = false }()
	for _, t := range c.texts {
		t.field.show(agreed(c, func(p board.Panel) string { return *t.of(&p.Words) }))
	}
	c.fillTiming()
	c.fillTransition()
	c.fillMarks()
	c.fillNumbers()
}

func (c *card) fillTiming() {
	first := c.first()
	hold, same := c.starts[first+1]-c.starts[first], true
	for _, i := range c.set {
		same = same && c.starts[i+1]-c.starts[i] == hold
	}
	c.frames.showTyped(strconv.FormatInt(int64(hold), 10), same)
	c.holding.SetText(holdWords(c.board, c.starts, c.set))
	c.starting.SetText(startWords(c.board, c.starts, c.set))
	words, fighting := fitWords(c.board, c.starts, c.set)
	setVisible(c.fitting, words != "")
	c.fitting.Importance = widget.MediumImportance
	if fighting {
		c.fitting.Importance = widget.DangerImportance
	}
	c.fitting.SetText(words)
	anchored := false
	for _, i := range c.set {
		anchored = anchored || i > 0 && c.board.Panels[i].Start.Anchored()
	}
	setVisible(c.anchor, c.board.OnGrid() && c.set[len(c.set)-1] > 0)
	if name := map[bool]string{true: "Set free", false: "Anchor"}[anchored]; c.anchor.Text != name {
		c.anchor.SetText(name)
	}
}

func (c *card) fillTransition() {
	kind, same := agreed(c, func(p board.Panel) board.Passage { return p.Into.Kind })
	at := -1
	for i, p := range board.Passages {
		if same && p == kind {
			at = i
		}
	}
	c.into.put(at, differ)
	setVisible(c.passingRow, same && kind != board.Cut)
	frames, same := agreed(c, func(p board.Panel) board.Frame { return p.Into.Frames })
	c.passing.showTyped(strconv.FormatInt(int64(frames), 10), same)

	step, same := agreed(c, func(p board.Panel) int { return p.Step })
	switch {
	case !same:
		c.step.put(-1, differ)
	default:
		c.step.put(step, fmt.Sprintf("on %ds", step))
	}
	setText(c.exposing, exposureWords(c.board, c.starts, c.set))
}

func (c *card) fillMarks() {
	for k, of := range []func(board.Panel) bool{
		func(p board.Panel) bool { return p.Rig }, func(p board.Panel) bool { return p.Effect }, func(p board.Panel) bool { return p.Plate },
		func(p board.Panel) bool { return p.Still }} {
		on, same := agreed(c, of)
		c.marks[k].put(on && same, !same)
	}
}

// fillNumbers shows the number and, where a shot or a scene begins, its
// heading: those of one panel alone.
func (c *card) fillNumbers() {
	i := c.first()
	p, opens, single := c.board.Panels[i], c.board.Opening(i), len(c.set) == 1
	c.headingRow.setVisible(single && opens != board.GoesOn)
	c.numberRow.setVisible(single)
	if !single {
		setText(c.name, fmt.Sprintf("%d panels", len(c.set)))
		return
	}
	setText(c.name, "Panel "+c.board.Number(i))
	c.heading.usual = "what the shot is called"
	if opens == board.OpensScene {
		c.heading.usual = "what the scene is called"
	}
	c.heading.show(p.Heading, true)
	setVisible(c.sceneNumber, opens == board.OpensScene)
	setVisible(c.shotNumber, opens != board.GoesOn)
	counted := c.board.AllNumbers()[i]
	c.scene.usual, c.shot.usual, c.panel.usual = counted.Scene, counted.Shot, counted.Panel
	c.scene.showTyped(p.Fixed.Scene, true)
	c.shot.showTyped(p.Fixed.Shot, true)
	c.panel.showTyped(p.Fixed.Panel, true)
}

// showTyped is show, but keeps what was typed and not taken yet.
func (f *cardField) showTyped(text string, same bool) {
	if f.Text == f.shown {
		f.show(text, same)
	}
}

func setVisible(o fyne.CanvasObject, on bool) {
	switch {
	case on == o.Visible():
	case on:
		o.Show()
	default:
		o.Hide()
	}
}
