package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"
)

var (
	_ fyne.Focusable    = (*catcher)(nil)
	_ fyne.Shortcutable = (*catcher)(nil)
)

// catcher is a strip that takes whatever key is pressed while it has the
// focus, and tells what is done with it.
type catcher struct {
	widget.BaseWidget
	win    *window
	take   func(chord)
	leave  func() // Escape
	words  *widget.Label
	back   *canvas.Rectangle
	active bool
}

func newCatcher(w *window, take func(chord), leave func()) *catcher {
	c := &catcher{win: w, take: take, leave: leave, words: widget.NewLabel(""), back: canvas.NewRectangle(paperLight)}
	c.words.Wrapping = fyne.TextWrapWord
	c.ExtendBaseWidget(c)
	return c
}

// Say shows what is being done.
func (c *catcher) Say(s string) { c.words.SetText(s) }

// FocusGained has the window send every key here.
func (c *catcher) FocusGained() {
	c.active, c.win.catcher = true, c
	c.Refresh()
}

// FocusLost gives the keys back.
func (c *catcher) FocusLost() {
	c.active, c.win.catcher = false, nil
	c.Refresh()
}

// TypedRune is for what is typed: the key has come already.
func (c *catcher) TypedRune(rune) {}

// TypedKey takes a key without Ctrl.
func (c *catcher) TypedKey(e *fyne.KeyEvent) {
	switch e.Name {
	case fyne.KeyEscape:
		c.leave()
	case desktop.KeyShiftLeft, desktop.KeyShiftRight, desktop.KeyControlLeft, desktop.KeyControlRight, desktop.KeyAltLeft,
		desktop.KeyAltRight, desktop.KeySuperLeft, desktop.KeySuperRight, desktop.KeyMenu, desktop.KeyCapsLock:
		// on the way to another
	default:
		c.take(typedChord(e.Name, modifiers()&shift))
	}
}

// TypedShortcut takes a key with Ctrl. Without, it is one of the keys that the
// toolkit takes for another: Shift+Delete for Ctrl+X, Shift+Insert for Ctrl+V.
func (c *catcher) TypedShortcut(s fyne.Shortcut) {
	key := chordOf(s)
	if modifiers()&ctrl == 0 {
		key = map[chord]chord{{fyne.KeyX, ctrl}: {fyne.KeyDelete, shift}, {fyne.KeyV, ctrl}: {fyne.KeyInsert, shift}}[key]
	}
	c.take(key)
}

// CreateRenderer lays the words on a strip with an edge while it takes keys.
func (c *catcher) CreateRenderer() fyne.WidgetRenderer {
	return &catcherRenderer{c}
}

type catcherRenderer struct{ c *catcher }

func (r *catcherRenderer) Layout(s fyne.Size) {
	r.c.back.Resize(s)
	r.c.words.Resize(s)
}

func (r *catcherRenderer) MinSize() fyne.Size {
	return fyne.NewSize(textUnits(300), max(r.c.words.MinSize().Height, textUnits(48)))
}

func (r *catcherRenderer) Refresh() {
	r.c.back.StrokeColor, r.c.back.StrokeWidth = paperEdge, float32(stroke(1))
	if r.c.active {
		r.c.back.StrokeColor, r.c.back.StrokeWidth = ink, float32(stroke(2))
	}
	r.c.back.Refresh()
	r.c.words.Refresh()
}

func (r *catcherRenderer) Objects() []fyne.CanvasObject {
	return []fyne.CanvasObject{r.c.back, r.c.words}
}

func (r *catcherRenderer) Destroy() {}
