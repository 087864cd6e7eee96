package ui

import (
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"
)

// buttonsOf returns all hinted buttons of the window.
func buttonsOf(w *window) (found []*hintedButton) {
	var walk func(o fyne.CanvasObject)
	walk = func(o fyne.CanvasObject) {
		if b, ok := o.(*hintedButton); ok {
			found = append(found, b)
			return
		}
		switch o := o.(type) {
		case *fyne.Container:
			for _, c := range o.Objects {
				walk(c)
			}
		case fyne.Widget:
			for _, c := range test.WidgetRenderer(o).Objects() {
				walk(c)
			}
		}
	}
	walk(w.win.Content())
	return found
}

func hintOf(t *testing.T, w *window, text string) string {
	t.Helper()
	for _, b := range buttonsOf(w) {
		if b.Text == text {
			return b.hint.words()
		}
	}
	t.Fatalf("there is no button %q", text)
	return ""
}

func TestHintsNameCommandsThatExist(t *testing.T) {
	w := openWindow(t)
	all := buttonsOf(w)
	if len(all) < 12 {
		t.Fatalf("only %d buttons are found", len(all))
	}
	for _, b := range all {
		for _, name := range b.commands {
			if w.keys.named[name] == nil {
				t.Errorf("the button %q names the command %q, which there is not", b.Text, name)
			}
		}
		words := b.hint.words()
		if words == "" {
			t.Errorf("the button %q has no hint", b.Text)
		}
		for _, name := range b.commands {
			if key := w.keys.of(name); key != "" && !strings.HasSuffix(words, key) && !strings.Contains(words, key+".") {
				t.Errorf("the hint %q does not tell %s", words, key)
			}
		}
	}
	w.keys.give(w.keys.named["To the start"], chord{})
	if got := w.keys.hint("", []string{"To the start", "To the end"}); got != "To the start. To the end: End" {
		t.Errorf("without a key the hint is %q", got)
	}
}

func TestListOfKeysFitsASmallWindow(t *testing.T) {
	w := openWindow(t)
	w.win.Resize(fyne.NewSize(1092, 656)) // 1100 x 700 less the border
	w.showKeys()
	list, ok := w.win.Canvas().Focused().(*keyScroll)
	if !ok {
		t.Fatalf("%T has the keys, want the list", w.win.Canvas().Focused())
	}
	if least := list.Content.MinSize(); least.Width > list.Size().Width {
		t.Errorf("the list is %v in a room of %v", least, list.Size())
	}
	shown := map[string]bool{}
	for _, column := range list.Content.(*fyne.Container).Objects {
		for _, text := range textsIn(column) {
			shown[text] = true
		}
	}
	for _, c := range w.keys.commands {
		if c.key != "" && !shown[c.keyName()] {
			t.Errorf("%s is not in the list", c.keyName())
		}
	}
	for k := range drawTools {
		if !shown[drawToolNames[k]] {
			t.Errorf("the key for %s while drawing is not in the list", drawToolNames[k])
		}
	}
	list.TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if w.win.Canvas().Overlays().Top() != nil {
		t.Error("Escape does not close it")
	}

	w.wear(worn, 150) // here it scrolls, by the keys too
	w.showKeys()
	list = w.win.Canvas().Focused().(*keyScroll)
	list.TypedKey(&fyne.KeyEvent{Name: fyne.KeyPageDown})
	if list.Offset.Y <= 0 {
		t.Error("Page Down does not scroll")
	}
	list.TypedKey(&fyne.KeyEvent{Name: fyne.KeyHome})
	if list.Offset.Y != 0 {
		t.Error("Home does not go to the top")
	}
	list.TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
}

// textsIn returns all lines of text in sight in a tree.
func textsIn(o fyne.CanvasObject) (out []string) {
	switch o := o.(type) {
	case *canvas.Text:
		return []string{o.Text}
	case *fyne.Container:
		for _, c := range o.Objects {
			out = append(out, textsIn(c)...)
		}
	case fyne.Widget:
		for _, c := range test.WidgetRenderer(o).Objects() {
			out = append(out, textsIn(c)...)
		}
	}
	return out
}
