package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
)

// plainKeys finds the commands of each key that needs no Ctrl; the toolkit
// does the others from the menu.
func plainKeys(commands []*command) map[fyne.KeyName][]*command {
	plain := map[fyne.KeyName][]*command{}
	for _, c := range commands {
		if c.key != "" && c.plain() {
			plain[c.key] = append(plain[c.key], c)
		}
	}
	return plain
}

// rekey brings menu and window in line with the keys the commands have now.
func (w *window) rekey() {
	w.plain = plainKeys(w.commands)
	w.menu = menus(w.commands, w.runByMenu)
	w.win.SetMainMenu(w.menu)
	for _, s := range w.sameShortcuts {
		w.win.Canvas().RemoveShortcut(s)
	}
	w.sameShortcuts = nil
	for _, c := range w.commands {
		if c.key == "" || c.plain() {
			continue
		}
		for other, key := range sameKeys {
			if key == c.key {
				w.sameShortcut(c, other, c.mod)
			}
		}
		// On many keyboards + is typed with Shift.
		if c.key == fyne.KeyPlus && w.keys.holder(chord{c.key, c.mod | shift}) == nil {
			w.sameShortcut(c, fyne.KeyEqual, c.mod|shift)
		}
	}
	for _, s := range []*screen{w.full, w.second} {
		if s != nil {
			w.rekeyScreen(s)
		}
	}
}

// sameShortcut does a command by another key than the menu shows.
func (w *window) sameShortcut(c *command, key fyne.KeyName, mod fyne.KeyModifier) {
	s := &desktop.CustomShortcut{KeyName: key, Modifier: mod}
	w.sameShortcuts = append(w.sameShortcuts, s)
	w.win.Canvas().AddShortcut(s, func(fyne.Shortcut) { w.runByMenu(c) })
}

// keepKeys has the program remember the keys that were changed.
func (w *window) keepKeys() { w.app.Preferences().SetString(keysKey, w.keys.save()) }

// runByMenu does a command chosen from the menu or by its key with Ctrl. The
// toolkit looks for such a key in the menu first, even while a text is written
// or a dialog stands over the window: those have the key before the film.
func (w *window) runByMenu(c *command) {
	switch {
	case w.catcher != nil:
		w.catcher.TypedShortcut(c.shortcut())
	case modifiers()&ctrlShift == 0: // the pointer's
		c.run()
	case !w.typedInText(c.shortcut()) && w.win.Canvas().Overlays().Top() == nil:
		c.run()
	}
}

// typedInText gives a shortcut to the text that has the cursor, if it is one
// for texts. What is typed on the window is undone with the film.
func (w *window) typedInText(s fyne.Shortcut) bool {
	text, ok := w.win.Canvas().Focused().(fyne.Shortcutable)
	if !ok {
		return false
	}
	switch s.(type) {
	case *fyne.ShortcutCut:
		s = &fyne.ShortcutCut{Clipboard: w.app.Clipboard()}
	case *fyne.ShortcutCopy:
		s = &fyne.ShortcutCopy{Clipboard: w.app.Clipboard()}
	case *fyne.ShortcutPaste:
		s = &fyne.ShortcutPaste{Clipboard: w.app.Clipboard()}
	case *fyne.ShortcutSelectAll:
	case *fyne.ShortcutUndo, *fyne.ShortcutRedo:
		if w.win.Canvas().Overlays().Top() == nil {
			return false
		}
	default:
		return false
	}
	text.TypedShortcut(s)
	return true
}

// typedKey does the command of a key. Over a dialog only Escape counts.
func (w *window) typedKey(e *fyne.KeyEvent) {
	w.note.Away()
	if over := w.win.Canvas().Overlays().Top(); over != nil {
		if e.Name == fyne.KeyEscape {
			over.Hide()
		}
		return
	}
	if w.pages.typedKey(e.Name, modifiers()) {
		return
	}
	if e.Name == fyne.KeyEscape {
		w.jobs.Stop()
		return
	}
	key := typedChord(e.Name, modifiers()&shift)
	for _, c := range w.plain[key.key] {
		if c.mod == key.mod || c.mod == 0 && len(w.plain[key.key]) == 1 {
			w.pressed = e.Name
			c.run()
			w.pressed = ""
			return
		}
	}
}

func canvasText(s string) *canvas.Text { return written(s, ink, 12, false) }
