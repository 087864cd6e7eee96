package ui

import "fyne.io/fyne/v2"

// texted is a field or what is built on one.
type texted interface{ asField() *field }

func (f *field) asField() *field { return f }

// canvas returns where the field has the cursor, nil if it has not. The toolkit
// does not know a field that another is built on.
func (f *field) canvas() fyne.Canvas {
	for _, win := range fyne.CurrentApp().Driver().AllWindows() {
		if on, ok := win.Canvas().Focused().(texted); ok && on.asField() == f {
			return win.Canvas()
		}
	}
	return nil
}

// functionKey reports whether a key is one from F1 to F12, which write nothing.
func functionKey(name fyne.KeyName) bool {
	return len(name) > 1 && name[0] == 'F' && name[1] >= '1' && name[1] <= '9'
}

// passOn gives a key to the window of a text that has the cursor, which ends its
// turn; under a dialog it does nothing.
func passOn(c fyne.Canvas, e *fyne.KeyEvent) {
	if c != nil && c.Overlays().Top() == nil && c.OnTypedKey() != nil {
		c.Unfocus()
		c.OnTypedKey()(e)
	}
}
