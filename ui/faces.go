package ui

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"
)

// face is one side of the card: the panel's words, or what is done with its
// picture. While one with a tool is up, that tool is in hand on the viewer.
type face struct {
	name, hint string // of its button
	sign       string // an icon, as SVG 24 by 24 in black
	key        fyne.KeyName
	mod        fyne.KeyModifier // that goes along with it
	root       fyne.CanvasObject
	present    func()                                    // the film, what is chosen or the playhead changed
	tool       tool                                      // nil: none
	typed      func(fyne.KeyName, fyne.KeyModifier) bool // takes a key for itself; may be nil

	button *hintedButton
}

// faces are the sides of the card, one of which is up.
type faces struct {
	w              *window
	words, letters *face
	all            []*face
	up             *face
	root           fyne.CanvasObject
}

func (w *window) newFaces() *faces {
	fs := &faces{w: w, words: &face{name: "Words on the card", hint: "What is written on the panel, and its timing", sign: signWords, key: fyne.KeyF5, root: w.card.root}}
	fs.words.present = func() { w.card.Present(w.board, w.starts, w.selection()) }
	fs.letters = w.newLetterFace()
	fs.all = []*face{fs.words, w.newFrameFace(), w.newDrawFace(), fs.letters, w.newMotionFace(), w.newRemarkFace()}
	fs.up = fs.words
	strip, stack := container.New(layout.NewCustomPaddedVBoxLayout(2)), container.NewStack()
	for _, f := range fs.all {
		icon := theme.NewThemedResource(fyne.NewStaticResource(f.name+".svg", []byte(f.sign)))
		f.button = w.hinted("", icon, widget.LowImportance, f.hint, func() { fs.Show(f) }).by(f.name)
		f.root.Hide()
		strip.Add(f.button)
		stack.Add(f.root)
	}
	fs.up.root.Show()
	fs.mark()
	side := band(paperDark, padded(3, 6, strip))
	if len(fs.all) < 2 {
		side.Hide()
	}
	fs.root = container.NewBorder(nil, nil, side, nil, stack)
	return fs
}

// Show turns the card to a face.
func (fs *faces) Show(f *face) {
	if fs.up == f {
		return
	}
	w := fs.w
	w.win.Canvas().Unfocus()
	fs.up.root.Hide()
	fs.up = f
	f.root.Show()
	fs.takeTool()
	fs.Present()
	fs.mark()
	refreshMenus(w.menu, w.commands)
}

// Present brings the card in line with the film. What is typed on the face
// with the words is taken even when that is not up.
func (fs *faces) Present() {
	fs.words.present()
	if fs.up != fs.words && fs.up.present != nil {
		fs.up.present()
	}
	fs.takeTool()
}

// takeTool has the tool of the face in hand, while the film stands still and a
// panel is chosen.
func (fs *faces) takeTool() {
	w := fs.w
	t := fs.up.tool
	if w.playing != nil || w.chosen < 0 || w.desk.ReadOnly() != nil {
		t = nil
	}
	if t != w.surface.tool {
		w.surface.Take(t)
		w.showFrame(w.at)
	} else if t != nil {
		w.surface.Refresh()
	}
}

// atWork reports whether a tool is in hand: then the viewer shows the chosen
// panel whole, whatever the camera sees of it.
func (fs *faces) atWork() bool { return fs.w.surface.tool != nil }

// typedKey gives a key to the face that is up and reports whether it took it.
func (fs *faces) typedKey(name fyne.KeyName, held fyne.KeyModifier) bool {
	return fs.up.typed != nil && fs.w.chosen >= 0 && fs.up.typed(name, held)
}

// commands are those that turn the card.
func (fs *faces) commands() []*command {
	out := []*command{{menu: "View"}}
	for _, f := range fs.all {
		out = append(out, &command{menu: "View", name: f.name, key: f.key, mod: f.mod, do: func() {
			fs.w.pages.Show(fs.w.timelinePage)
			fs.Show(f)
		}, ticked: func() bool { return fs.up == f }})
	}
	return out
}

func (fs *faces) mark() {
	for _, f := range fs.all {
		f.button.Importance = widget.LowImportance
		if f == fs.up {
			f.button.Importance = widget.MediumImportance
		}
		f.button.Refresh()
	}
}

// signWords is the icon of the face with the words.
const signWords = `<svg xmlns="http://www.w3.org/2000/svg" width="24" height="24"><path d="M4 5h16v2.2H4zM4 10.9h16v2.2H4zM4 16.8h10V19H4z"/></svg>`
