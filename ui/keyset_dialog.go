package ui

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"
)

// keysDialog lists all commands with their keys and changes them.
type keysDialog struct {
	w      *window
	found  []*command
	at     int
	wanted chord // the key of another command, until it is taken over or left
	words  *field
	list   *keyList
	catch  *catcher
	change *widget.Button
	box    *dialog.CustomDialog
}

// keysDialog opens the list of keys to change.
func (w *window) keysDialog() *keysDialog {
	d := &keysDialog{w: w}
	d.words = newField("name, menu or key of a command", 1)
	d.words.OnChanged = func(string) { d.narrow() }
	d.words.OnReturn, d.words.OnEscape = d.ask, func() { d.box.Hide() }
	d.words.OnArrow = func(by int) {
		if len(d.found) > 0 {
			d.list.Select(max(0, min(d.at+by, len(d.found)-1)))
		}
	}
	d.list = newKeyList(func() int { return len(d.found) }, newKeyRow, d.showRow)
	d.list.OnSelected = func(i widget.ListItemID) { d.at = i; d.tell("") }
	d.list.OnTake, d.list.OnLeave = d.ask, func() { d.box.Hide() }
	d.catch = newCatcher(w, d.caught, d.leave)
	d.change = strong("Change…", d.ask)
	d.box = dialog.NewCustomWithoutButtons("Keys of the commands", container.NewBorder(
		padded(0, 4, d.words), padded(0, 6, d.catch), nil, nil, band(paper, padded(8, 4, d.list))), w.win)
	d.box.SetButtons(buttons(
		quiet("All as they were", d.allAsTheyWere), quiet("As it was", d.asItWas),
		quiet("No key", func() { d.give(chord{}) }), d.change, quiet("Close", func() { d.box.Hide() })))
	size := w.win.Canvas().Size()
	d.box.Resize(fyne.NewSize(min(textUnits(680), size.Width*0.9), min(textUnits(620), size.Height*0.9)))
	d.narrow()
	d.box.Show()
	w.win.Canvas().Focus(d.words)
	return d
}

func newKeyRow() fyne.CanvasObject {
	name := widget.NewLabel("")
	name.Truncation = fyne.TextTruncateEllipsis
	return container.NewBorder(nil, nil, fixedWidth(64, small("")), container.NewHBox(centred(small("")), padded(14, 0, centred(canvasText("")))), name)
}

// showRow writes menu, name, what the key was if it was changed, and the key.
func (d *keysDialog) showRow(i widget.ListItemID, o fyne.CanvasObject) {
	c := d.found[i]
	row := o.(*fyne.Container).Objects
	row[0].(*widget.Label).SetText(c.name)
	setText(row[1].(*fyne.Container).Objects[0].(*canvas.Text), c.menu)
	keys := row[2].(*fyne.Container).Objects
	line := func(o fyne.CanvasObject) *canvas.Text { return o.(*fyne.Container).Objects[1].(*canvas.Text) }
	was := ""
	if d.w.keys.changed(c) {
		was = "changed, it had no key"
		if usual := d.w.keys.usual[c].String(); usual != "" {
			was = "changed, it was " + usual
		}
	}
	setText(line(keys[0]), was)
	setText(line(keys[1].(*fyne.Container).Objects[0]), c.keyName())
}

// narrow lists what fits the words typed.
func (d *keysDialog) narrow() {
	d.found, d.at = matching(d.w.keys.commands, d.words.Text), 0
	d.list.UnselectAll()
	d.list.Refresh()
	d.list.ScrollToTop()
	d.tell("")
	if len(d.found) > 0 {
		d.list.Select(0)
	}
}

// command is the one chosen, nil for none.
func (d *keysDialog) command() *command {
	if d.at >= len(d.found) {
		return nil
	}
	return d.found[d.at]
}

// tell says how the chosen command stands, after what was done.
func (d *keysDialog) tell(done string) {
	d.wanted = chord{}
	d.change.SetText("Change…")
	c := d.command()
	switch {
	case done != "":
	case c == nil:
		done = "No command has these words."
	case c.key == "":
		done = c.name + " has no key. Enter gives it one."
	default:
		done = fmt.Sprintf("%s: %s. Enter changes it.", c.name, c.keyName())
	}
	d.catch.Say(done)
}

// ask takes the next key pressed, or takes over the one that was pressed.
func (d *keysDialog) ask() {
	c := d.command()
	switch {
	case c == nil:
	case d.wanted != chord{}:
		d.give(d.wanted)
	default:
		d.catch.Say(fmt.Sprintf("Press the new key for “%s”. Escape leaves it as it is.", c.name))
		d.w.win.Canvas().Focus(d.catch)
	}
}

// caught is given the key that was pressed.
func (d *keysDialog) caught(key chord) {
	c := d.command()
	if d.wanted != (chord{}) && key == (chord{key: fyne.KeyReturn}) {
		d.give(d.wanted)
		return
	}
	if why := key.refused(); why != "" {
		d.catch.Say(sentence(why) + " Press another key.")
		return
	}
	if other := d.w.keys.holder(key); other != nil && other != c {
		d.want(key, other)
		return
	}
	d.give(key)
}

// want tells that a key is another command's.
func (d *keysDialog) want(key chord, other *command) {
	d.wanted = key
	d.change.SetText("Take it over")
	d.catch.Say(fmt.Sprintf("%s is the key of “%s”. Enter takes it over, Escape leaves it, another key is tried instead.", key, other.name))
	d.w.win.Canvas().Focus(d.catch)
}

// give makes a key the chosen command's; the zero chord takes its key away.
func (d *keysDialog) give(key chord) {
	c := d.command()
	if c == nil {
		return
	}
	robbed := d.w.keys.give(c, key)
	d.w.rekey()
	d.w.keepKeys()
	done := c.name + " has no key now."
	if key != (chord{}) {
		done = fmt.Sprintf("%s: %s.", c.name, key)
	}
	if robbed != nil {
		done += fmt.Sprintf(" %s has none now.", robbed.name)
	}
	d.done(done)
}

// asItWas gives the chosen command its usual key back.
func (d *keysDialog) asItWas() {
	c := d.command()
	if c == nil {
		return
	}
	usual := d.w.keys.usual[c]
	if other := d.w.keys.holder(usual); other != nil && other != c {
		d.want(usual, other)
		return
	}
	d.give(usual)
}

func (d *keysDialog) allAsTheyWere() {
	d.w.keys.reset()
	d.w.rekey()
	d.w.keepKeys()
	d.done("All keys are as they were.")
}

// leave gives up a change.
func (d *keysDialog) leave() { d.done("") }

func (d *keysDialog) done(words string) {
	d.tell(words)
	d.list.Refresh()
	d.w.win.Canvas().Focus(d.list)
}
