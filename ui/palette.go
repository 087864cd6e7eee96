package ui

import (
	"slices"
	"strings"
	"unicode"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/widget"
)

// findCommand lists everything that can be done, with the keys, and narrows
// the list to the words typed. Return does the first.
func (w *window) findCommand() {
	var box *dialog.CustomDialog
	found := matching(w.commands, "")
	at := 0
	list := newKeyList(func() int { return len(found) }, func() fyne.CanvasObject {
		name := widget.NewLabel("")
		name.Truncation = fyne.TextTruncateEllipsis
		return container.NewBorder(nil, nil, fixedWidth(64, small("")), padded(14, 0, small("")), name)
	}, func(i widget.ListItemID, o fyne.CanvasObject) {
		row, c := o.(*fyne.Container).Objects, found[i]
		name := row[0].(*widget.Label)
		name.Importance, name.TextStyle.Italic = widget.MediumImportance, false
		if c.can != nil && !c.can() {
			name.Importance, name.TextStyle.Italic = widget.LowImportance, true
		}
		name.SetText(c.title())
		setText(row[1].(*fyne.Container).Objects[0].(*canvas.Text), c.menu)
		setText(row[2].(*fyne.Container).Objects[0].(*canvas.Text), c.keyName())
	})
	do := func() {
		if at >= len(found) {
			return
		}
		c := found[at]
		if c.can != nil && !c.can() {
			w.foot.Say("That cannot be done now.")
			return
		}
		box.Hide()
		c.run()
	}
	words := newField("what do you want to do?", 1)
	words.OnChanged = func(s string) {
		found, at = matching(w.commands, s), 0
		list.UnselectAll()
		list.Refresh()
		list.ScrollToTop()
		if len(found) > 0 {
			list.Select(0)
		}
	}
	words.OnReturn, words.OnEscape = do, func() { box.Hide() }
	words.OnArrow = func(by int) {
		if len(found) > 0 {
			list.Select(max(0, min(at+by, len(found)-1)))
		}
	}
	list.OnSelected = func(i widget.ListItemID) { at = i }
	list.OnTake, list.OnLeave = do, func() { box.Hide() }
	box = dialog.NewCustomWithoutButtons("Everything that can be done",
		container.NewBorder(padded(0, 4, words), nil, nil, nil, band(paper, padded(8, 4, list))), w.win)
	box.SetButtons(buttons(quiet("Close", func() { box.Hide() }), strong("Do it", do)))
	size := w.win.Canvas().Size()
	box.Resize(fyne.NewSize(min(620, size.Width*0.85), min(600, size.Height*0.85)))
	box.Show()
	list.Select(0)
	w.win.Canvas().Focus(words)
}

// matching returns the commands in whose menu, name or key every typed word is
// found, those first that it names best: see nearTyped. Alike ones stay in the
// order of the menus.
func matching(commands []*command, typed string) []*command {
	typed = strings.ToLower(typed)
	words := strings.Fields(typed)
	var found []*command
	near := map[*command]int{}
	for _, c := range commands {
		if c.name == "" {
			continue
		}
		name := strings.ToLower(c.title())
		if n, fits := nearTyped(name, strings.ToLower(c.menu+" "+c.group+" "+c.keyName()), words); fits {
			found = append(found, c)
			near[c] = n
		}
	}
	slices.SortStableFunc(found, func(a, b *command) int { return near[b] - near[a] })
	return found
}

// nearTyped says how near a command is to the words typed: each counts most where
// a word of the name begins with it (a little more if it is that word), less
// inside one, and least where only the menu or the key has it. A name that
// begins with the first is nearer still, and words next to each other in the
// name as they were typed too.
func nearTyped(name, beside string, words []string) (near int, fits bool) {
	parts := strings.FieldsFunc(name, func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
	for _, word := range words {
		switch {
		case slices.Contains(parts, word):
			near += 9
		case slices.ContainsFunc(parts, func(p string) bool { return strings.HasPrefix(p, word) }):
			near += 8
		case strings.Contains(name, word):
			near += 3
		case strings.Contains(beside, word):
			near++
		default:
			return 0, false
		}
	}
	if len(words) > 0 && strings.HasPrefix(name, words[0]) {
		near += 4
	}
	if len(words) > 1 && strings.Contains(name, strings.Join(words, " ")) {
		near += 4
	}
	return near, true
}

// contextMenu opens the menu of a panel, or of the music, at a place of the
// window.
func (w *window) contextMenu(onPanel bool, at fyne.Position) {
	near := nearMusic
	if onPanel {
		near = nearPanel
	}
	menu := fyne.NewMenu("")
	last := ""
	for _, c := range w.commands {
		if c.near != near || c.can != nil && !c.can() {
			continue
		}
		if last != "" && c.menu != last {
			menu.Items = append(menu.Items, fyne.NewMenuItemSeparator())
		}
		last = c.menu
		menu.Items = append(menu.Items, c.item())
	}
	widget.ShowPopUpMenuAtPosition(menu, w.win.Canvas(), at)
}
