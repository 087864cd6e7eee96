package ui

import (
	"fmt"

	"stillbeat/board"
)

// shapeCommands are the part of the Edit menu on the shape of the film's
// picture.
func (w *window) shapeCommands() []*command {
	const group = "Shape of the picture"
	now := func() float64 { return w.board.Aspect.Ratio() }
	usual := func() bool {
		for _, a := range board.Aspects {
			if a.Ratio() == now() {
				return true
			}
		}
		return false
	}
	c := []*command{{menu: "Picture"}}
	for _, a := range board.Aspects {
		c = append(c, &command{menu: "Picture", group: group, name: "Picture of " + a.String(),
			do: func() { w.do(board.SetAspect(a)) }, ticked: func() bool { return a.Ratio() == now() }})
	}
	return append(c, &command{menu: "Picture", group: group},
		&command{menu: "Picture", group: group, name: "Picture of another shape…", do: w.shapeDialog,
			ticked: func() bool { return !usual() }, label: func() string {
				if usual() {
					return "Picture of another shape…"
				}
				return fmt.Sprintf("Picture of another shape: %s…", w.board.Aspect)
			}})
}

// setShape gives the film's picture a shape as typed.
func (w *window) setShape(s string) error {
	a, err := board.ParseAspect(s)
	if err != nil || a.Ratio() == w.board.Aspect.Ratio() {
		return err
	}
	return w.desk.Do(board.SetAspect(a))
}

func (w *window) shapeDialog() {
	shape := newField("16:9, 1.85:1, 4:5", 1)
	shape.SetText(w.board.Aspect.String())
	w.ask("Shape of the picture", "Set", []askRow{
		{"Width to height", shape},
		{"", small("Pictures, words and moves keep their size in heights of the frame.")},
	}, func() error { return w.setShape(shape.Text) })
}
