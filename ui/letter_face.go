package ui

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"stillbeat/board"
)

// letterFace is the face of the card for words and arrows on the picture.
type letterFace struct {
	w    *window
	id   board.PanelID // of the panel shown
	at   int           // which of its lettering is chosen, -1 none
	fill bool          // the fields are being filled, nobody is typing

	name, warning *canvas.Text
	text          *field
	size, wide    *field
	back, ink     *hintedSelect
	bold          *hintedCheck
	before, after *hintedButton
	rows          cardRows
	form, none    fyne.CanvasObject
	backNames     []string
	inkNames      []string
}

// letterInks are the inks to choose from; the first is the kind's own.
var letterInks = []struct {
	name   string
	colour board.Colour
}{{"its own ink", ""}, {"dark", "201c18"}, {"light", "f4eee1"}, {"brick", "a8412f"}, {"mustard", "c9922e"}, {"moss", "4f6f3d"}, {"slate", "3d5a6c"}, {"plum", "6d3f5f"}}

// letterBacks names what lettering stands on.
var letterBacks = map[board.Back]string{board.OwnBack: "its own ground", board.Bare: "nothing", board.Plate: "a plate", board.Outline: "an outline"}

// letterKinds names the kinds of lettering.
var letterKinds = map[board.LetterKind]string{board.TitleCard: "title", board.CaptionCard: "caption", board.Speech: "speech", board.Label: "label", board.Arrow: "arrow"}

// newLetterFace makes the face.
func (w *window) newLetterFace() *face {
	f := &letterFace{w: w, at: -1, name: heading(""), warning: written("", red, 12, true)}
	f.makeFields()
	add := container.NewHBox()
	for _, k := range board.LetterKinds {
		add.Add(w.hinted(strings.ToUpper(letterKinds[k][:1])+letterKinds[k][1:], nil, widget.LowImportance, letterHints[k], func() { w.addLetter(k) }).by(addLetterName(k)))
	}
	f.rows = cardRows{left: []cardRow{
		newCardRow("Words", f.text).growing(),
		newCardRow("Size", shared([]float32{2, 0, 2, 0}, f.size, centred(small("Width")), f.wide, f.bold)),
		newCardRow("On", shared([]float32{1, 1}, framed(f.back), framed(f.ink))),
	}}
	var all []fyne.CanvasObject
	for _, r := range f.rows.all() {
		all = append(all, r.label, r.field)
	}
	f.form = container.NewVBox(f.warning, container.New(&f.rows, all...), container.NewHBox(
		w.hinted("Remove", nil, widget.LowImportance, "Take this lettering off the panel: Delete", w.removeLetter).by("Remove the lettering"),
		w.hinted("On top", nil, widget.LowImportance, "Over the other lettering of the panel", w.raiseLetter).by("Lettering on top"),
		w.hinted("To all chosen", nil, widget.LowImportance, "The same on all chosen panels", w.spreadLetter).by("Lettering onto all chosen panels")))
	f.none = centredRow(small("Click on words in the picture, or add some."))
	head := container.NewHBox(f.name, layout.NewSpacer(), f.before, f.after)
	scroll := container.NewVScroll(container.New(layout.NewCustomPaddedLayout(0, 0, 0, barRoom), container.NewStack(f.form, container.NewVBox(f.none))))
	root := band(paper, padded(12, 8, container.NewBorder(container.NewVBox(head, container.NewHScroll(add)), nil, nil, nil, scroll)))
	t := &letterTool{f: f, over: -1}
	w.letters = f
	return &face{name: "Letter the picture", hint: "Words and arrows on the picture", sign: signLetter, key: fyne.KeyF8, root: root,
		present: f.Present, tool: t, typed: f.typedKey}
}

func centredRow(o fyne.CanvasObject) fyne.CanvasObject { return padded(0, 10, container.NewCenter(o)) }

func (f *letterFace) makeFields() {
	w := f.w
	f.text = newField("what it says", 2)
	f.text.hint = w.hints("The words; an arrow may have some beside it")
	f.text.OnChanged = func(s string) { f.change(func(l *board.Letter) { l.Text = s }) }
	done := func() {
		if !f.fill {
			w.desk.CloseEdit()
		}
	}
	f.text.OnDone = done
	f.size = newField("", 1)
	f.size.hint = w.hints("How high the letters are, in hundredths of the frame's height; of an arrow, how thick")
	f.size.OnDone = func() { f.takeNumber(f.size, func(l *board.Letter, v float64) { l.Size = v }) }
	f.wide = newField("", 1)
	f.wide.hint = w.hints("Within which width lines are broken, in hundredths of the frame's height")
	f.wide.OnDone = func() { f.takeNumber(f.wide, func(l *board.Letter, v float64) { l.Width = v }) }
	f.bold = newHintedCheck(w.hints("Heavier letters"), "Bold", func(on bool) {
		f.step(func(l *board.Letter) { l.Bold = on })
	})
	for _, b := range board.Backs {
		f.backNames = append(f.backNames, letterBacks[b])
	}
	for _, i := range letterInks {
		f.inkNames = append(f.inkNames, i.name)
	}
	f.back = newHintedSelect(w.hints("What the words stand on"), f.backNames, func(string) {
		f.step(func(l *board.Letter) { l.Back = board.Backs[f.back.SelectedIndex()] })
	})
	f.ink = newHintedSelect(w.hints("The ink; what it stands on takes a tone that can be read under it"), f.inkNames, func(string) {
		f.step(func(l *board.Letter) { l.Ink = letterInks[f.ink.SelectedIndex()].colour })
	})
	f.before = w.hinted("", theme.Icon(theme.IconNameNavigateBack), widget.LowImportance, "The lettering before", func() { f.turn(-1) }).by("The lettering before")
	f.after = w.hinted("", theme.Icon(theme.IconNameNavigateNext), widget.LowImportance, "The next lettering", func() { f.turn(1) }).by("The next lettering")
}

// list returns the lettering of the panel shown.
func (f *letterFace) list() []board.Letter {
	if f.w.chosen < 0 {
		return nil
	}
	return f.w.board.Panels[f.w.chosen].Drawing().Lettering
}

// letter returns the one that is chosen.
func (f *letterFace) letter() (board.Letter, bool) {
	if list := f.list(); f.at >= 0 && f.at < len(list) {
		return list[f.at], true
	}
	return board.Letter{}, false
}

// pick chooses lettering k, -1 for none.
func (f *letterFace) pick(k int) {
	if k == f.at {
		return
	}
	f.settle()
	f.at = k
	f.Present()
	f.w.surface.Refresh()
	refreshMenus(f.w.menu, f.w.commands)
}

// settle takes what is still being typed for the lettering chosen.
func (f *letterFace) settle() {
	if !f.fill {
		f.size.OnDone()
		f.wide.OnDone()
		f.w.desk.CloseEdit()
	}
}

// turn chooses the next lettering, or the one before, round and round.
func (f *letterFace) turn(by int) {
	if n := len(f.list()); n > 0 {
		if f.at < 0 && by < 0 {
			f.at = 0
		}
		f.pick((f.at + by + n) % n)
	}
}

// set changes the lettering that is chosen.
func (f *letterFace) set(l board.Letter) {
	if was, ok := f.letter(); ok && was != l {
		f.w.do(board.SetLetter(f.w.chosen, f.at, l))
	}
}

// change does to the lettering what was typed.
func (f *letterFace) change(do func(*board.Letter)) {
	if l, ok := f.letter(); ok && !f.fill {
		do(&l)
		f.set(l)
	}
}

// step is a change that is a step of its own.
func (f *letterFace) step(do func(*board.Letter)) {
	if f.fill {
		return
	}
	f.w.desk.CloseEdit()
	f.change(do)
	f.w.desk.CloseEdit()
	f.w.win.Canvas().Unfocus()
}

// takeNumber takes hundredths of the frame's height; an empty field is the
// kind's own measure.
func (f *letterFace) takeNumber(from *field, do func(*board.Letter, float64)) {
	l, ok := f.letter()
	if f.fill || !ok || from.Text == f.shown(from, l) {
		return
	}
	v, err := parseHundredths(from.Text)
	if err != nil {
		f.w.foot.Say(sentence(err.Error()))
		f.Present()
		return
	}
	f.step(func(l *board.Letter) { do(l, v) })
}

// shown returns what a field of a measure says of the lettering.
func (f *letterFace) shown(from *field, l board.Letter) string {
	if from == f.size {
		return hundredths(l.Em())
	}
	return hundredths(l.Wide(f.w.board.Aspect))
}

// Present shows the lettering of the chosen panel.
func (f *letterFace) Present() {
	w := f.w
	f.fill = true
	defer func() { f.fill = false }()
	id := board.PanelID(0)
	if w.chosen >= 0 {
		id = w.board.Panels[w.chosen].ID
	}
	list := f.list()
	if id != f.id {
		f.id, f.at = id, -1
	}
	f.at = min(f.at, len(list)-1)
	switch l, ok := f.letter(); {
	case w.chosen < 0:
		setText(f.name, "No panel")
	case ok:
		setText(f.name, fmt.Sprintf("Panel %s: %s", w.numbers[w.chosen], letterKinds[l.Kind]))
	case len(list) > 0:
		setText(f.name, fmt.Sprintf("Panel %s: %d %s", w.numbers[w.chosen], len(list), plural(int64(len(list)), "piece")))
	default:
		setText(f.name, "Panel "+w.numbers[w.chosen])
	}
	setEnabled(&f.before.Button, len(list) > 0)
	setEnabled(&f.after.Button, len(list) > 0)
	l, ok := f.letter()
	setVisible(f.form, ok)
	setVisible(f.none, !ok)
	setText(f.warning, f.warningWords())
	setVisible(f.warning, f.warning.Text != "")
	if !ok {
		return
	}
	f.text.put(l.Text)
	f.size.put(hundredths(l.Em()))
	f.wide.put(hundredths(l.Wide(w.board.Aspect)))
	f.wide.Enable()
	if l.Kind == board.Arrow {
		f.wide.Disable()
	}
	f.bold.SetChecked(l.Bold)
	f.back.SetSelected(letterBacks[l.Back])
	f.ink.PlaceHolder = "#" + string(l.Ink)
	f.ink.ClearSelected()
	for i, ink := range letterInks {
		if ink.colour == l.Ink {
			f.ink.SetSelectedIndex(i)
		}
	}
}
