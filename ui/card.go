package ui

import (
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"stillbeat/board"
)

// card shows what is written on the chosen panels, and their timing. What is
// typed in words leaves as it is typed; a length or a number when its field is
// left. With several panels chosen, it goes to all of them.
type card struct {
	OnEdit func(board.Edit) error
	OnDone func()               // a field was left: typing in it is one step to undo
	OnSay  func(string)         // a message that stays for a while
	OnHint func(string)         // what the field under the pointer, or the cursor, is for
	OnKey  func(*fyne.KeyEvent) // a key that a tick or a choice has no use for

	board   board.Board
	starts  []board.Frame
	set     []int           // the chosen panels
	ids     []board.PanelID // theirs
	edits   int             // that went through
	filling bool            // the fields are being filled, nobody is typing
	writing bool            // the cursor is in one of the fields

	texts                      []textField  // taken as they are typed
	typed                      []typedField // taken when they are left
	title, action, sound, note *cardField
	size, camera, heading      *cardField
	frames, passing            *cardField // the hold; the length of the transition
	scene, shot, panel         *cardField // numbers
	into, step                 *chooser
	marks                      []*tick
	anchor                     *hintedButton

	name, exposing             *canvas.Text
	starting, fitting, holding *widget.Label
	passingRow                 fyne.CanvasObject
	headingRow, numberRow      cardRow
	sceneNumber, shotNumber    fyne.CanvasObject
	scroll                     *container.Scroll
	body, empty, root          fyne.CanvasObject
}

// newCard makes the card; anchor is the button that ties the start to the
// music, actions are those at its foot.
func newCard(anchor *hintedButton, actions ...fyne.CanvasObject) *card {
	c := &card{anchor: anchor, name: heading(""), starting: valueLine(), fitting: valueLine(), holding: valueLine(),
		exposing: small("")}
	c.makeFields()
	c.layOut(actions)
	c.Present(board.New(), []board.Frame{0}, nil)
	return c
}

// Present shows the chosen panels of the board. What is still being typed for
// those shown before goes to them first.
func (c *card) Present(b board.Board, starts []board.Frame, set []int) {
	ids := make([]board.PanelID, len(set))
	for k, i := range set {
		ids[k] = b.Panels[i].ID
	}
	if !slices.Equal(ids, c.ids) {
		before := c.edits
		if len(set) > 0 { // with none it may be another film
			c.follow(b, starts)
			c.Settle()
		}
		if c.edits != before {
			return // the edit showed everything anew
		}
		for _, t := range c.typed {
			t.field.shown = t.field.Text // of no use, or its panels are gone
		}
		c.done()
	}
	c.board, c.starts, c.set, c.ids = b, starts, slices.Clone(set), ids
	c.fill()
}

// follow finds the panels shown in a board that changed.
func (c *card) follow(b board.Board, starts []board.Frame) {
	c.board, c.starts, c.set = b, starts, nil
	for _, id := range c.ids {
		if i := b.Index(id); i >= 0 {
			c.set = append(c.set, i)
		}
	}
}

// Settle takes what stands in a field whose text was not taken yet.
func (c *card) Settle() {
	for _, t := range c.typed {
		if len(c.set) > 0 {
			c.take(t)
		}
	}
}

// Focus puts the cursor at the end of the title.
func (c *card) Focus(cv fyne.Canvas) {
	if len(c.set) > 0 {
		cv.Focus(c.title)
		c.title.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEnd})
	}
}

// Writing reports whether the cursor is in one of the fields: then the card
// stays with its panel while the film plays on.
func (c *card) Writing() bool { return c.writing }

// edit does an edit of the chosen panels.
func (c *card) edit(e board.Edit) error {
	if len(c.set) == 0 || c.OnEdit == nil {
		return nil
	}
	if err := c.OnEdit(e); err != nil {
		return err
	}
	c.edits++
	return nil
}

// write does an edit that came from a field, a tick or a choice, or says why
// not and shows again what there is.
func (c *card) write(e board.Edit) {
	if c.filling {
		return
	}
	if err := c.edit(e); err != nil {
		c.say(sentence(err.Error()))
		c.fill()
	}
}

// pick does an edit that is a step of its own.
func (c *card) pick(e board.Edit) {
	c.done()
	c.write(e)
	c.done()
}

func (c *card) done() {
	if c.OnDone != nil && !c.filling {
		c.OnDone()
	}
}

func (c *card) say(s string) {
	if c.OnSay != nil {
		c.OnSay(s)
	}
}

func (c *card) hint(s string) {
	if c.OnHint != nil {
		c.OnHint(s)
	}
}

// entered scrolls to what the cursor came into.
func (c *card) entered(o fyne.CanvasObject) { c.reveal(o, 0, o.Size().Height) }

// keepInSight scrolls to the cursor in a field of several lines.
func (c *card) keepInSight(f *cardField) {
	if c.writing && !c.filling {
		y := f.CursorPosition().Y
		c.reveal(f, y, y+2*theme.TextSize())
	}
}

// reveal scrolls to a part of a field.
func (c *card) reveal(o fyne.CanvasObject, from, to float32) {
	d := fyne.CurrentApp().Driver()
	top := d.AbsolutePositionForObject(o).Y - d.AbsolutePositionForObject(c.scroll.Content).Y
	at := c.scroll.Offset
	at.Y = min(max(at.Y, top+to+4-c.scroll.Size().Height), max(0, top+from-4))
	if at != c.scroll.Offset {
		c.scroll.ScrollToOffset(at)
	}
}

// leave takes the cursor out of the card: the keys are the window's again.
func (c *card) leave() {
	if cv := fyne.CurrentApp().Driver().CanvasForObject(c.root); cv != nil {
		cv.Unfocus()
	}
}
