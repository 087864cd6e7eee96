package ui

import (
	"fmt"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/dialog"
	"fyne.io/fyne/v2/layout"
)

// showKeys lists the keys, in as many columns as it takes to see all at once;
// where the window has no room for that, the list scrolls.
func (w *window) showKeys() {
	size := w.win.Canvas().Size()
	room := fyne.NewSize(size.Width*0.94-48, size.Height*0.94-116)
	fewest := max(1, int(room.Width/textUnits(304)))
	most := max(fewest, int(room.Width/textUnits(224)))
	var columns *fyne.Container
	for n := fewest; n <= most; n++ {
		columns = w.keyColumns(n, min(textUnits(330), room.Width/float32(n)))
		if columns.MinSize().Height <= room.Height {
			break
		}
	}
	list := newKeyScroll(columns)
	box := dialog.NewCustomWithoutButtons("Keys", list, w.win)
	list.OnLeave = box.Hide
	box.SetButtons(buttons(quiet("Change the keys…", func() { box.Hide(); w.keysDialog() }), strong("Close", box.Hide)))
	needs := columns.MinSize()
	box.Resize(fyne.NewSize(min(needs.Width, room.Width)+48, min(needs.Height, room.Height)+116))
	box.Show()
	w.win.Canvas().Focus(list)
}

// keyColumns lists the commands that have a key by their menus, in n columns
// of a width, and then the keys that the sketch pad has for itself while it is up
// and what the pointer does.
func (w *window) keyColumns(n int, width float32) *fyne.Container {
	const key, air, size = 84, 8, 10.8
	group := func(title string) *fyne.Container {
		return container.New(layout.NewCustomPaddedVBoxLayout(0), padded(0, 2, written(title, ink, size, true)))
	}
	line := func(keys, name string) *fyne.Container {
		name = shortened(name, width-textUnits(key)-2*air, textUnits(size))
		return container.New(layout.NewCustomPaddedHBoxLayout(2),
			fixedWidth(key, written(keys, inkSoft, size, false)), written(name, ink, size, false))
	}
	byMenu := map[string]*fyne.Container{}
	var groups []*fyne.Container
	for _, c := range w.keys.commands {
		if c.key == "" {
			continue
		}
		g := byMenu[c.menu]
		if g == nil {
			g = group(c.menu)
			byMenu[c.menu] = g
			groups = append(groups, g)
		}
		g.Add(line(c.keyName(), c.name))
	}
	pad := group("While drawing")
	for k := range drawTools {
		pad.Add(line(fmt.Sprint(k+1), drawToolNames[k]))
	}
	pad.Add(line("0", ghostsName))
	pad.Add(line("Delete", takeHeldName))
	pad.Add(line("Escape", "Let go"))
	mouse := group("With the pointer")
	for _, words := range []string{"Drag a clip to move a start,", "with Shift past the beats.", "The wheel scrolls, with Ctrl it zooms."} {
		mouse.Add(written(words, inkSoft, size, false))
	}
	lists := make([]*fyne.Container, n)
	columns := container.New(layout.NewCustomPaddedHBoxLayout(0))
	for i := range lists {
		lists[i] = container.New(layout.NewCustomPaddedVBoxLayout(0))
		columns.Add(padded(air, 0, lists[i]))
	}
	for _, g := range append(groups, pad, mouse) {
		shortest := lists[0]
		for _, l := range lists {
			if l.MinSize().Height < shortest.MinSize().Height {
				shortest = l
			}
		}
		shortest.Add(g)
	}
	return columns
}

// keyScroll is a long text in a dialog that the keys scroll and leave.
type keyScroll struct {
	container.Scroll
	OnLeave func()
}

func newKeyScroll(content fyne.CanvasObject) *keyScroll {
	s := &keyScroll{}
	s.Content, s.Direction = content, container.ScrollVerticalOnly
	s.ExtendBaseWidget(s)
	return s
}

// FocusGained is for the keys, nothing is seen of it.
func (s *keyScroll) FocusGained() {}

// FocusLost is its end.
func (s *keyScroll) FocusLost() {}

// TypedRune does nothing: there is nothing to write.
func (s *keyScroll) TypedRune(rune) {}

// TypedKey scrolls, and leaves on Escape and Return.
func (s *keyScroll) TypedKey(e *fyne.KeyEvent) {
	line, page := textUnits(40), s.Size().Height*0.9
	by := map[fyne.KeyName]float32{fyne.KeyUp: -line, fyne.KeyDown: line, fyne.KeyPageUp: -page, fyne.KeyPageDown: page, fyne.KeySpace: page}[e.Name]
	switch e.Name {
	case fyne.KeyEscape, fyne.KeyReturn, fyne.KeyEnter:
		s.OnLeave()
	case fyne.KeyHome:
		s.ScrollToTop()
	case fyne.KeyEnd:
		s.ScrollToBottom()
	default:
		if by != 0 {
			most := max(0, s.Content.MinSize().Height-s.Size().Height)
			s.ScrollToOffset(fyne.NewPos(0, max(0, min(s.Offset.Y+by, most))))
		}
	}
}
