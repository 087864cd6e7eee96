package ui

import "fyne.io/fyne/v2"

// textKey gives the key of a menu entry to the field that has the cursor, if
// it is one that fields know: cut, copy, paste and choose all and, over a
// dialog, undo and redo. It reports whether it did. The toolkit asks the menu
// before the field.
func textKey(c *command) bool {
	if c.key == "" {
		return false
	}
	s := c.shortcut()
	for _, w := range fyne.CurrentApp().Driver().AllWindows() {
		cv := w.Canvas()
		field, ok := cv.Focused().(interface {
			fyne.Shortcutable
			SelectedText() string
		})
		if !ok {
			continue
		}
		switch s.(type) {
		case *fyne.ShortcutCut, *fyne.ShortcutCopy, *fyne.ShortcutPaste, *fyne.ShortcutSelectAll:
		case *fyne.ShortcutUndo, *fyne.ShortcutRedo:
			if cv.Overlays().Top() == nil {
				return false
			}
		default:
			return false
		}
		field.TypedShortcut(withClipboard(s))
		return true
	}
	return false
}

// withClipboard returns the shortcut with the clipboard it needs.
func withClipboard(s fyne.Shortcut) fyne.Shortcut {
	clip := fyne.CurrentApp().Clipboard()
	switch s.(type) {
	case *fyne.ShortcutCut:
		return &fyne.ShortcutCut{Clipboard: clip}
	case *fyne.ShortcutCopy:
		return &fyne.ShortcutCopy{Clipboard: clip}
	case *fyne.ShortcutPaste:
		return &fyne.ShortcutPaste{Clipboard: clip}
	}
	return s
}
