package ui

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"

	"stillbeat/board"
	"stillbeat/board/picture"
)

// signLetter is the icon of the face.
const signLetter = `<svg xmlns="http://www.w3.org/2000/svg" width="24" height="24"><path d="M10.5 4h3L20 20h-2.6l-1.7-4.4H8.3L6.6 20H4zM9.1 13.4h5.8L12 6z"/></svg>`

// letterHints say what each kind is for.
var letterHints = map[board.LetterKind]string{
	board.TitleCard:   "A title in the middle: it stays while the camera moves",
	board.CaptionCard: "A caption at the foot: it stays while the camera moves",
	board.Speech:      "What someone says, in a bubble with a tail to them",
	board.Label:       "A name with a line to what it names",
	board.Arrow:       "An arrow: which way something moves, straight or bent",
}

func addLetterName(k board.LetterKind) string {
	switch k {
	case board.Speech:
		return "Add speech to the picture"
	case board.Arrow:
		return "Add an arrow to the picture"
	}
	return "Add a " + letterKinds[k] + " to the picture"
}

// letterCommands are those for words and arrows on the picture.
func (w *window) letterCommands() []*command {
	panel := func() bool { return w.chosen >= 0 }
	chosen := func() bool { _, ok := w.letters.letter(); return ok }
	some := func() bool { return len(w.letters.list()) > 0 }
	c := []*command{{menu: "Picture"}}
	for _, k := range board.LetterKinds {
		c = append(c, &command{menu: "Picture", group: "Words and arrows", name: addLetterName(k), do: func() { w.addLetter(k) }, can: panel})
	}
	for _, more := range []*command{
		{},
		{name: "The next lettering", looks: true, do: func() { w.letters.turn(1) }, can: some},
		{name: "The lettering before", looks: true, do: func() { w.letters.turn(-1) }, can: some},
		{name: "Lettering on top", do: w.raiseLetter, can: chosen},
		{name: "Lettering onto all chosen panels", do: w.spreadLetter, can: func() bool { return chosen() && len(w.selection()) > 1 }},
		{name: "Remove the lettering", do: w.removeLetter, can: chosen},
	} {
		more.menu, more.group = "Picture", "Words and arrows"
		c = append(c, more)
	}
	return c
}

// addLetter puts lettering onto the chosen panel, ready to be written.
func (w *window) addLetter(k board.LetterKind) {
	if w.chosen < 0 {
		return
	}
	w.pages.Show(w.timelinePage)
	w.faces.Show(w.faces.letters)
	w.letters.settle()
	i, n := w.chosen, len(w.board.Panels[w.chosen].Drawing().Lettering)
	w.do(board.AddLetter([]int{i}, board.NewLetter(k, "", w.board.Aspect)))
	if len(w.letters.list()) == n+1 {
		w.desk.CloseEdit()
		w.letters.at = n
		w.letters.Present()
		w.surface.Refresh()
		refreshMenus(w.menu, w.commands)
		if k != board.Arrow {
			w.win.Canvas().Focus(w.letters.text)
		}
	}
}

func (w *window) removeLetter() {
	if _, ok := w.letters.letter(); ok {
		k := w.letters.at
		w.letters.settle()
		w.letters.at = -1
		w.do(board.RemoveLetter(w.chosen, k))
	}
}

// raiseLetter puts the lettering over the others.
func (w *window) raiseLetter() {
	if _, ok := w.letters.letter(); ok {
		w.letters.settle()
		w.do(board.RaiseLetter(w.chosen, w.letters.at))
		w.letters.pick(len(w.letters.list()) - 1)
	}
}

// spreadLetter puts the same lettering onto the other chosen panels.
func (w *window) spreadLetter() {
	l, ok := w.letters.letter()
	var others []int
	for _, i := range w.selection() {
		if i != w.chosen {
			others = append(others, i)
		}
	}
	if ok && len(others) > 0 {
		w.do(board.AddLetter(others, l))
	}
}

// typedKey moves the lettering by the arrows, takes it off by Delete, and lets
// go of it by Escape.
func (f *letterFace) typedKey(name fyne.KeyName, held fyne.KeyModifier) bool {
	l, ok := f.letter()
	if !ok || f.w.surface.tool == nil {
		return false
	}
	by := 0.005 // heights of the frame
	if held&shift != 0 {
		by = 0.05
	}
	switch name {
	case fyne.KeyLeft:
		l.At.X -= by
	case fyne.KeyRight:
		l.At.X += by
	case fyne.KeyUp:
		l.At.Y -= by
	case fyne.KeyDown:
		l.At.Y += by
	case fyne.KeyDelete:
		f.w.removeLetter()
		return true
	case fyne.KeyEscape:
		f.pick(-1)
		return true
	case fyne.KeyReturn, fyne.KeyEnter:
		f.w.win.Canvas().Focus(f.text)
		return true
	default:
		return false
	}
	f.set(l)
	return true
}

// warningWords says what is wrong with the lettering of the panel: the chosen
// one's fault first, then whether there is time to read all of it.
func (f *letterFace) warningWords() string {
	w := f.w
	if w.chosen < 0 {
		return ""
	}
	for _, m := range picture.Misfits(w.board.Panels[w.chosen], w.board.Aspect) {
		switch {
		case m.Letter != f.at:
		case m.Missing:
			return "It has a character that no font here has."
		case m.Outside && f.list()[m.Letter].Kind.OnScreen():
			return "It reaches out of the safe area for titles."
		case m.Outside:
			return "It reaches out of the frame."
		}
	}
	need, hold := w.board.ReadingTime(w.chosen, board.Reading{}), w.starts[w.chosen+1]-w.starts[w.chosen]
	if need > hold {
		return fmt.Sprintf("Takes %d frames to read, the panel holds %d.", need, hold)
	}
	return ""
}

// hundredths writes a part of the frame's height.
func hundredths(v float64) string {
	return strconv.FormatFloat(math.Round(v*1000)/10, 'f', -1, 64) + " %"
}

// parseHundredths reads it; nothing typed is 0.
func parseHundredths(s string) (float64, error) {
	s = strings.TrimSpace(strings.TrimSuffix(strings.TrimSpace(s), "%"))
	if s == "" {
		return 0, nil
	}
	v, err := strconv.ParseFloat(strings.Replace(s, ",", ".", 1), 64)
	if err != nil || !(v > 0 && v < 10000) {
		return 0, fmt.Errorf("%.20q is no part of the frame's height: it takes a number of hundredths", s)
	}
	return v / 100, nil
}
