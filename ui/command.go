package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
)

// command is one thing the window can do: its menu entry, its key and its
// place in the list of keys all come from here.
type command struct {
	menu   string // menu it stands in
	group  string // and the menu within that, empty for none
	name   string
	key    fyne.KeyName
	mod    fyne.KeyModifier
	do     func()
	can    func() bool // nil: always
	label  func() string
	ticked func() bool    // nil: no tick
	quits  bool           // the toolkit need not add an entry of its own
	looks  bool           // it changes nothing in the film, though its menu is one of edits
	near   nearness       // whose own menu it stands in as well
	entry  *fyne.MenuItem // in the main menu
}

// nearness is what a menu of its own opens on, at the right button.
type nearness int

const (
	nearNothing nearness = iota
	nearPanel
	nearMusic
)

const (
	ctrl      = fyne.KeyModifierShortcutDefault
	shift     = fyne.KeyModifierShift
	ctrlShift = ctrl | shift
)

// run does the command if it can be done now.
func (c *command) run() {
	if c.can == nil || c.can() {
		c.do()
	}
}

// plain reports whether the key is one the canvas hands over as a typed key
// rather than as a shortcut.
func (c *command) plain() bool { return c.mod&^shift == 0 }

func (c *command) chord() chord { return chord{c.key, c.mod} }

// keyName writes the key as on the keyboard: "Ctrl+Shift+S".
func (c *command) keyName() string { return c.chord().String() }

// title is what the command is called now.
func (c *command) title() string {
	if c.label != nil {
		return c.label()
	}
	return c.name
}

// menus makes the main menu of the commands, in their order; run does one.
func menus(commands []*command, run func(*command)) *fyne.MainMenu {
	main := fyne.NewMainMenu()
	byName := map[string]*fyne.Menu{}
	for _, c := range commands {
		m := byName[c.menu]
		if m == nil {
			m = fyne.NewMenu(c.menu)
			byName[c.menu] = m
			main.Items = append(main.Items, m)
		}
		if c.group != "" {
			within := byName[c.menu+"/"+c.group]
			if within == nil {
				within = fyne.NewMenu("")
				byName[c.menu+"/"+c.group] = within
				item := fyne.NewMenuItem(c.group, nil)
				item.ChildMenu = within
				m.Items = append(m.Items, item)
			}
			m = within
		}
		if c.name == "" {
			m.Items = append(m.Items, fyne.NewMenuItemSeparator())
			continue
		}
		c.entry = c.item()
		c.entry.Action = func() { run(c) }
		m.Items = append(m.Items, c.entry)
	}
	return main
}

func (c *command) item() *fyne.MenuItem {
	item := fyne.NewMenuItem(c.name, c.run)
	item.IsQuit = c.quits
	if c.key != "" {
		item.Shortcut = c.shortcut()
	}
	c.dress(item)
	return item
}

// dress puts the item in line with what can be done now and reports whether
// that changed it.
func (c *command) dress(item *fyne.MenuItem) bool {
	was := *item
	if c.can != nil {
		item.Disabled = !c.can()
	}
	if c.label != nil {
		item.Label = c.label()
	}
	if c.ticked != nil {
		item.Checked = c.ticked()
	}
	return was.Disabled != item.Disabled || was.Label != item.Label || was.Checked != item.Checked
}

// shortcut returns the key as the toolkit's kind: some are its own.
func (c *command) shortcut() fyne.Shortcut {
	if c.mod == ctrl {
		switch c.key { // chordOf is the way back
		case fyne.KeyZ:
			return &fyne.ShortcutUndo{}
		case fyne.KeyY:
			return &fyne.ShortcutRedo{}
		case fyne.KeyX:
			return &fyne.ShortcutCut{}
		case fyne.KeyC:
			return &fyne.ShortcutCopy{}
		case fyne.KeyV:
			return &fyne.ShortcutPaste{}
		case fyne.KeyA:
			return &fyne.ShortcutSelectAll{}
		}
	}
	return &desktop.CustomShortcut{KeyName: c.key, Modifier: c.mod}
}

// refreshMenus brings every entry up to date, redrawing only on a change.
func refreshMenus(main *fyne.MainMenu, commands []*command) {
	changed := false
	for _, c := range commands {
		if c.entry != nil && c.dress(c.entry) {
			changed = true
		}
	}
	if changed {
		main.Refresh()
	}
}

// editMenus are the menus whose commands change the film, unless they say that
// they only look.
var editMenus = map[string]bool{"Edit": true, "Panel": true, "Picture": true, "Draw": true, "Timing": true, "Shots": true, "Music": true, "Beats": true}

// holdBack lets the commands that change the film be done only where the film
// can be changed.
func holdBack(commands []*command, changeable func() bool) {
	for _, c := range commands {
		if c.name == "" || c.looks || !editMenus[c.menu] {
			continue
		}
		can := c.can
		c.can = func() bool { return changeable() && (can == nil || can()) }
	}
}
