package ui

import (
	"fmt"
	"slices"
	"strings"

	"stillbeat/board"
)

// take hands on what was typed, if anything was, and reports whether it could
// be used. If not, the foot says why and the text stays.
func (c *card) take(t typedField) bool {
	f, was := t.field, t.field.shown
	if f.Text == was {
		return true
	}
	f.shown = f.Text // the film's own word for it may take its place
	if err := t.take(strings.TrimSpace(f.Text)); err != nil {
		f.shown = was
		c.say(sentence(err.Error()))
		return false
	}
	c.fill()
	return true
}

func (c *card) takeHold(text string) error {
	if text == "" {
		return nil // what there is comes back
	}
	l, err := parseLength(text)
	if err != nil {
		return err
	}
	e := holdEdit(c.set, l, c.board.Rate)
	if next, err := e.Apply(c.board); err != nil {
		return err
	} else if slices.Equal(next.Starts(), c.starts) {
		return nil
	}
	return c.edit(e)
}

func (c *card) takePassing(text string) error {
	t, same := agreed(c, func(p board.Panel) board.Passage { return p.Into.Kind })
	if text == "" || !same || t == board.Cut {
		return nil
	}
	l, err := parseLength(text)
	switch {
	case err != nil:
		return err
	case l.unit == "f":
		return c.edit(board.SetTransition(c.set, board.Transition{Kind: t, Frames: board.Frame(l.n)}))
	case l.unit == "s":
		return c.edit(board.SetTransition(c.set, board.Transition{Kind: t, Frames: c.board.Rate.Nearest(l.n)}))
	}
	return fmt.Errorf("a %s is so many frames or seconds long", t)
}

func (c *card) takeNumbers(string) error {
	text := func(f *cardField) string { return strings.ToUpper(strings.TrimSpace(f.Text)) }
	n := board.Numbers{Scene: text(c.scene), Shot: text(c.shot), Panel: text(c.panel)}
	if n == c.board.Panels[c.first()].Fixed {
		return nil
	}
	return c.edit(board.SetNumbers(c.first(), n))
}

// pickInto gives the chosen panels a transition of its usual length.
func (c *card) pickInto(i int) {
	if i >= 0 {
		c.pick(board.SetTransition(c.set, usualTransition(board.Passages[i], c.board.Rate)))
	}
}

// usualTransition returns a transition of the length that is usual for it.
func usualTransition(p board.Passage, r board.FrameRate) board.Transition {
	return board.Transition{Kind: p, Frames: r.Nearest(float64(p.UsualFrames()) / 24)}
}

// first returns the first of the chosen panels.
func (c *card) first() int { return c.set[0] }

// agreed returns what the chosen panels have in common, and whether they do.
func agreed[T comparable](c *card, of func(board.Panel) T) (T, bool) {
	first := of(c.board.Panels[c.first()])
	for _, i := range c.set[1:] {
		if of(c.board.Panels[i]) != first {
			return first, false
		}
	}
	return first, true
}
