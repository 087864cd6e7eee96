package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/layout"
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
	// The other ways some keys are typed.
	plain[fyne.KeyBackspace] = plain[fyne.KeyDelete]
	plain[fyne.KeyEnter] = plain[fyne.KeyReturn]
	plain[fyne.KeyEqual] = plain[fyne.KeyPlus]
	return plain
}

// typedKey does the command of a key. Over a dialog only Escape counts.
func (w *window) typedKey(e *fyne.KeyEvent) {
	if over := w.win.Canvas().Overlays().Top(); over != nil {
		if e.Name == fyne.KeyEscape {
			over.Hide()
		}
		return
	}
	if w.wall.typedKey(e.Name, modifiers()) {
		return
	}
	if e.Name == fyne.KeyEscape {
		w.jobs.Stop()
		return
	}
	held := modifiers() & shift
	for _, c := range w.plain[e.Name] {
		if c.mod == held || c.mod == 0 && len(w.plain[e.Name]) == 1 {
			c.run()
			return
		}
	}
}

// showKeys lists the keys, in three columns that fit a small window.
func (w *window) showKeys() {
	columns := container.NewHBox()
	place := map[string]int{"File": 0, "Edit": 0, "Panel": 1, "Music": 0, "Beats": 2, "Help": 1}
	var lists [3]*fyne.Container
	for i := range lists {
		lists[i] = container.New(layout.NewCustomPaddedVBoxLayout(1))
		columns.Add(padded(8, 0, lists[i]))
	}
	menu := ""
	for _, c := range w.commands {
		if c.key == "" {
			continue
		}
		to := lists[2]
		if i, ok := place[c.menu]; ok {
			to = lists[i]
		}
		if c.menu != menu {
			menu = c.menu
			head := canvasText(menu)
			head.TextStyle.Bold = true
			to.Add(padded(0, 3, head))
		}
		key := small(c.keyName())
		to.Add(container.NewHBox(fixedWidth(92, key), canvasText(c.name)))
	}
	lists[0].Add(padded(0, 6, container.New(layout.NewCustomPaddedVBoxLayout(1),
		small("On the timeline, drag a clip to move a start;"), small("Shift lets go of the beats. The wheel scrolls,"),
		small("with Ctrl it zooms."))))
	dialog.ShowCustom("Keys", "Close", columns, w.win)
}

func canvasText(s string) *canvas.Text {
	t := canvas.NewText(s, ink)
	t.TextSize = 12
	return t
}
