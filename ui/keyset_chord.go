package ui

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
)

// chord is a key with what is held along with it; the zero chord is none.
type chord struct {
	key fyne.KeyName
	mod fyne.KeyModifier
}

// sameKeys are the other ways some keys are typed: what is typed by either is
// one key.
var sameKeys = map[fyne.KeyName]fyne.KeyName{
	fyne.KeyBackspace: fyne.KeyDelete, fyne.KeyEnter: fyne.KeyReturn, fyne.KeyEqual: fyne.KeyPlus,
}

// typedChord is what a press of a key is.
func typedChord(key fyne.KeyName, mod fyne.KeyModifier) chord {
	if same, ok := sameKeys[key]; ok {
		key = same
	}
	return chord{key, mod}
}

// chordOf returns the key behind one of the toolkit's shortcuts.
func chordOf(s fyne.Shortcut) chord {
	switch s := s.(type) {
	case *desktop.CustomShortcut:
		return typedChord(s.KeyName, s.Modifier)
	case *fyne.ShortcutUndo:
		return chord{fyne.KeyZ, ctrl}
	case *fyne.ShortcutRedo:
		return chord{fyne.KeyY, ctrl}
	case *fyne.ShortcutCut:
		return chord{fyne.KeyX, ctrl}
	case *fyne.ShortcutCopy:
		return chord{fyne.KeyC, ctrl}
	case *fyne.ShortcutPaste:
		return chord{fyne.KeyV, ctrl}
	case *fyne.ShortcutSelectAll:
		return chord{fyne.KeyA, ctrl}
	}
	return chord{}
}

// String writes the key as on the keyboard: "Ctrl+Shift+S".
func (c chord) String() string {
	if c.key == "" {
		return ""
	}
	var parts []string
	if c.mod&ctrl != 0 {
		if ctrl == fyne.KeyModifierSuper {
			parts = append(parts, "Cmd")
		} else {
			parts = append(parts, "Ctrl")
		}
	}
	if c.mod&shift != 0 {
		parts = append(parts, "Shift")
	}
	names := map[fyne.KeyName]string{fyne.KeyLeft: "Left", fyne.KeyRight: "Right", fyne.KeyUp: "Up", fyne.KeyDown: "Down",
		fyne.KeyPageUp: "Page Up", fyne.KeyPageDown: "Page Down", fyne.KeyReturn: "Enter", fyne.KeyPlus: "+", fyne.KeyMinus: "-"}
	name := string(c.key)
	if n, ok := names[c.key]; ok {
		name = n
	}
	return strings.Join(append(parts, name), "+")
}

// refused says why a key cannot be a command's, "" if it can.
func (c chord) refused() string {
	switch {
	case c.key == "" || c.key == fyne.KeyUnknown:
		return "this key has no name"
	case c.mod&^ctrlShift != 0:
		return "only Ctrl and Shift go along with a key; Alt is for the menus"
	case c.key == fyne.KeyEscape:
		return "Escape leaves what is under way"
	case c.key == fyne.KeyTab:
		return "Tab goes from field to field"
	case c.mod == shift && (c.key == fyne.KeyDelete || c.key == fyne.KeyInsert), c.mod == ctrl && c.key == fyne.KeyInsert:
		return c.String() + " is another way to cut, copy or paste"
	}
	return ""
}

// stored writes the key for the program's settings: "ctrl shift S".
func (c chord) stored() string {
	s := string(c.key)
	if c.mod&shift != 0 {
		s = "shift " + s
	}
	if c.mod&ctrl != 0 {
		s = "ctrl " + s
	}
	return s
}

// readChord reads what stored wrote; "" is no key.
func readChord(s string) (chord, bool) {
	var c chord
	words := strings.Fields(s)
	for i, word := range words {
		switch {
		case i == len(words)-1:
			c.key = fyne.KeyName(word)
		case word == "ctrl":
			c.mod |= ctrl
		case word == "shift":
			c.mod |= shift
		default:
			return chord{}, false
		}
	}
	return c, c == chord{} || c.refused() == ""
}
