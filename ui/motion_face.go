package ui

import (
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"stillbeat/board"
	"stillbeat/board/motion"
)

// signMotion is the icon of the face: dots along an arc, close where it is slow.
const signMotion = `<svg xmlns="http://www.w3.org/2000/svg" width="24" height="24"><path d="M2.5 18a2 2 0 1 0 4 0a2 2 0 1 0 -4 0zM4 13a1.7 1.7 0 1 0 3.4 0a1.7 1.7 0 1 0 -3.4 0zM9 7.5a1.7 1.7 0 1 0 3.4 0a1.7 1.7 0 1 0 -3.4 0zM17 6a2.6 2.6 0 1 0 5.2 0a2.6 2.6 0 1 0 -5.2 0z"/></svg>`

// motionFace is the side of the card for how objects move over the set: what
// moves and how, or the table of its exposures.
type motionFace struct {
	*face
	w      *window
	tables []motion.Table // of the moves that touch the chosen panels
	id     board.MoveID   // the move shown, 0 none
	key    int            // of its path, chosen
	fill   bool           // the fields are being filled, nobody is typing

	name                *canvas.Text
	before, after       *hintedButton
	add                 *hintedSelect
	remove              *hintedButton
	toSet, toTable      *hintedButton
	object, first, last *field
	manner              *hintedSelect
	figures             []moveFigure
	x, y, height        *numberField
	keyName             *canvas.Text
	fewer, more         *hintedButton
	moment              *hintedSelect
	hits, warning       *widget.Label
	sighting            *hintedCheck
	top                 *hintedCheck
	list                *keyList
	halves              [2]fyne.CanvasObject
	form, none, empty   fyne.CanvasObject
	noneWords           *widget.Label
	rows                *cardRows
	tableUp             bool
	tool_               *motionTool
}

// newMotionFace makes the face.
func (w *window) newMotionFace() *face {
	f := &motionFace{w: w, name: heading(""), keyName: small("")}
	f.tool_ = &motionTool{f: f, key: -1}
	f.makeFields()
	f.makeButtons()
	f.halves[0] = f.layOutSet()
	f.halves[1] = f.layOutTable()
	f.halves[1].Hide()
	f.noneWords = wrappedLine()
	f.noneWords.Alignment = fyne.TextAlignCenter
	f.none = container.NewVBox(layout.NewSpacer(), f.noneWords, layout.NewSpacer())
	f.form = container.NewStack(f.halves[0], f.halves[1])
	head := container.NewBorder(nil, nil, nil, container.NewHBox(f.before, f.after, f.toSet, f.toTable), container.NewHScroll(centred(f.name)))
	tools := container.NewBorder(nil, nil, nil, f.remove, framed(f.add))
	body := container.NewBorder(container.NewVBox(head, tools), nil, nil, nil, container.NewStack(f.form, f.none))
	f.empty = container.NewCenter(small("Choose a panel to move objects in it."))
	f.face = &face{name: "Move objects on the set", hint: "How far a cup goes from one photograph to the next", sign: signMotion,
		present: f.present, tool: f.tool_, typed: f.typed, root: band(paper, padded(12, 8, container.NewStack(body, f.empty)))}
	f.empty.Hide()
	w.motion = f
	return f.face
}

func (f *motionFace) makeButtons() {
	w := f.w
	f.before = w.hinted("", theme.Icon(theme.IconNameNavigateBack), widget.LowImportance, "The move before", func() { f.turn(-1) }).by(moveBeforeName)
	f.after = w.hinted("", theme.Icon(theme.IconNameNavigateNext), widget.LowImportance, "The next move", func() { f.turn(1) }).by(moveAfterName)
	f.toSet = w.hinted("Move", nil, widget.MediumImportance, "What moves, and how", func() { f.show(false) })
	f.toTable = w.hinted("Table", nil, widget.LowImportance, "Its place and its step in every exposure", func() { f.show(true) }).by(moveTableName)
	var names []string
	for _, r := range motion.ReadyMoves() {
		names = append(names, readyWords(r))
	}
	f.add = newHintedSelect(w.hints("Give an object a move in the chosen panels: one that reads right to begin with"), names, func(string) {
		if i := f.add.SelectedIndex(); !f.fill && i >= 0 {
			w.addMove(motion.ReadyMoves()[i])
		}
	})
	f.add.PlaceHolder = "Add a move…"
	f.remove = w.hinted("Remove", nil, widget.LowImportance, "Take this move away", w.removeMove).by(removeMoveName)
}

// readyWords names a ready move in a list: "A saucer slides: slow out and in".
func readyWords(r motion.Ready) string { return capital(r.Name) + ": " + r.Move.Manner.Words() }

// show turns to the table, or back to the fields.
func (f *motionFace) show(table bool) {
	f.tableUp = table
	setVisible(f.halves[0], !table)
	setVisible(f.halves[1], table)
	f.toSet.Importance, f.toTable.Importance = widget.MediumImportance, widget.LowImportance
	if table {
		f.toSet.Importance, f.toTable.Importance = widget.LowImportance, widget.MediumImportance
	}
	f.toSet.Refresh()
	f.toTable.Refresh()
	f.present()
	refreshMenus(f.w.menu, f.w.commands)
}

// table returns that of the move shown.
func (f *motionFace) table() (motion.Table, bool) {
	for _, t := range f.tables {
		if t.Move.ID == f.id {
			return t, true
		}
	}
	return motion.Table{}, false
}

// place is where the move shown is among those that touch the chosen panels.
func (f *motionFace) place() int {
	return slices.IndexFunc(f.tables, func(t motion.Table) bool { return t.Move.ID == f.id })
}

// turn shows the next move, or the one before, round and round.
func (f *motionFace) turn(by int) {
	if n := len(f.tables); n > 0 {
		f.pick(f.tables[(max(f.place(), 0)+by+n)%n].Move.ID)
	}
}

// pick shows a move.
func (f *motionFace) pick(id board.MoveID) {
	if f.id == id {
		return
	}
	f.w.win.Canvas().Unfocus()
	f.id, f.key = id, 0
	f.present()
	f.w.surface.Refresh()
	refreshMenus(f.w.menu, f.w.commands)
}

// movesTouching returns the moves that have a part in panels, in the film's order.
func movesTouching(b board.Board, set []int) (out []board.ObjectMove) {
	in := map[board.MoveID]bool{}
	for _, i := range set {
		for _, m := range b.MovesIn(i) {
			in[m.ID] = true
		}
	}
	for _, m := range b.Moves {
		if in[m.ID] {
			out = append(out, m)
		}
	}
	return out
}

// present brings the face in line with the film.
func (f *motionFace) present() {
	w := f.w
	setVisible(f.empty, w.chosen < 0)
	f.tables = nil
	if w.chosen >= 0 {
		b := w.board
		if b.Moves = movesTouching(b, w.selection()); len(b.Moves) > 0 {
			f.tables = motion.Tables(b, motion.Limits{})
		}
	}
	if f.place() < 0 {
		f.id, f.key = 0, 0
		if len(f.tables) > 0 {
			f.id = f.tables[0].Move.ID
		}
	}
	f.fill = true
	defer func() { f.fill = false }()
	changeable := w.chosen >= 0 && w.desk.ReadOnly() == nil
	t, ok := f.table()
	setVisible(f.form, ok)
	setVisible(f.none, !ok && w.chosen >= 0)
	setEnabled(&f.before.Button, len(f.tables) > 1)
	setEnabled(&f.after.Button, len(f.tables) > 1)
	setEnabled(&f.remove.Button, ok && changeable)
	f.add.ClearSelected()
	if changeable {
		f.add.Enable()
	} else {
		f.add.Disable()
	}
	f.noneWords.SetText("Nothing moves here yet. Add a move: each reads right to begin with, and is changed then.")
	if w.desk.ReadOnly() != nil {
		f.noneWords.SetText("Nothing moves here.")
	}
	switch {
	case w.chosen < 0:
		setText(f.name, "")
	case ok:
		setText(f.name, strings.TrimSpace(capital(t.Move.Named())+of(f.place(), len(f.tables))))
	default:
		setText(f.name, "Panel "+w.numbers[w.chosen])
	}
	if ok {
		f.showMove(t, changeable)
		f.showTable(t)
	}
}

// of says which of several it is.
func of(k, n int) string {
	if n < 2 {
		return ""
	}
	return fmt.Sprintf(", %d of %d", k+1, n)
}

func capital(s string) string { return strings.ToUpper(s[:1]) + s[1:] }
