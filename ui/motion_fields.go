package ui

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/widget"

	"stillbeat/board"
	"stillbeat/board/motion"
)

// moveFigure is a number of a move that some manners need.
type moveFigure struct {
	row   cardRow
	field *numberField
	of    func(*board.ObjectMove) *float64
	times float64 // what is shown is so many times what is kept
	needs func(board.ObjectMove) bool
}

// edited is an edit that changes the move shown.
func (f *motionFace) edited(change func(*board.ObjectMove)) board.Edit {
	t, ok := f.table()
	if !ok {
		return board.Edit{Name: "change a move", Apply: func(b board.Board) (board.Board, error) { return b, errors.New("there is no move to change") }}
	}
	m := t.Move
	m.Keys, m.Hits = slices.Clone(m.Keys), slices.Clone(m.Hits)
	change(&m)
	return board.SetObjectMove(m)
}

// change changes the move shown, as a step of its own.
func (f *motionFace) change(do func(*board.ObjectMove)) {
	if f.fill || f.id == 0 {
		return
	}
	f.w.desk.CloseEdit()
	f.w.do(f.edited(do))
	f.w.desk.CloseEdit()
}

func (f *motionFace) makeFields() {
	w := f.w
	leave := func(from *field, take func(string)) {
		from.OnDone = func() {
			if !f.fill {
				take(strings.TrimSpace(from.Text))
				f.present()
			}
		}
	}
	f.object, f.first, f.last = newField("what moves", 1), newField("", 1), newField("", 1)
	f.object.hint = w.hints("What moves, as on the sheet: cup")
	leave(f.object, func(s string) {
		if t, ok := f.table(); ok && s != t.Move.Object {
			f.change(func(m *board.ObjectMove) { m.Object = s })
		}
	})
	f.first.hint, f.last.hint = w.hints("The number of the panel in which it begins to move"), w.hints("The number of the panel in which it ends")
	leave(f.first, func(s string) { f.takePanel(s, true) })
	leave(f.last, func(s string) { f.takePanel(s, false) })
	var names []string
	for _, m := range board.Manners {
		names = append(names, m.Words())
	}
	f.manner = newHintedSelect(w.hints("How it gets along its path: a spacing fills the panels, what has weight takes its own time"), names, func(string) {
		if i := f.manner.SelectedIndex(); !f.fill && i >= 0 {
			f.change(func(m *board.ObjectMove) { setManner(m, board.Manners[i]) })
			w.win.Canvas().Unfocus()
		}
	})
	f.makeFigures()
	at := func(what string, of func(*board.Spot) *float64) *numberField {
		return w.newNumber("", 1, 1, what, func(v float64) board.Edit {
			return f.edited(func(m *board.ObjectMove) { *of(&m.Keys[f.key]) = v })
		})
	}
	f.x = at("Millimetres to the right, as the camera sees it.", func(s *board.Spot) *float64 { return &s.X })
	f.y = at("Millimetres away from the camera.", func(s *board.Spot) *float64 { return &s.Y })
	f.height = at("Millimetres above the table.", func(s *board.Spot) *float64 { return &s.Height })
	f.fewer = w.hinted("Take out", nil, widget.LowImportance, "Take this key out of the path", f.removeKey).by(removeKeyName)
	f.more = w.hinted("Add a key", nil, widget.LowImportance, "Another place on the path after this one", f.addKey).by(addKeyName)
	f.moment = newHintedSelect(w.hints("A moment of the move, to be put on the music"), nil, func(string) {})
	f.hits, f.warning = wrappedLine(), wrappedLine()
	f.warning.Importance = widget.DangerImportance
	f.sighting = newHintedCheck(w.hints("Drag the cross to where the middle of the set is seen, and the end of the ruler to as many millimetres from there as it says"), "Place it on the picture", func(on bool) {
		if !f.fill {
			w.surface.Refresh()
			refreshMenus(w.menu, w.commands)
		}
	})
	f.top = newHintedCheck(w.hints("The camera looks down on the set: right and away show, else right and height"), "from above", func(on bool) {
		f.change(func(m *board.ObjectMove) { m.Sight.Top = on })
	})
}

func (f *motionFace) makeFigures() {
	weighs := func(m board.ObjectMove) bool { return !m.Manner.Spaced() && m.Manner != board.Settling }
	springs := func(m board.ObjectMove) bool {
		return m.Manner == board.Settling || m.Overshoot > 0 && (m.Manner.Spaced() || m.Manner == board.Jumping)
	}
	ahead := func(m board.ObjectMove) bool { return m.Manner.Spaced() || m.Manner == board.Jumping }
	add := func(name, unit, words string, step float64, digits int, times float64, of func(*board.ObjectMove) *float64, needs func(board.ObjectMove) bool) {
		n := f.w.newNumber(unit, digits, step, words, func(v float64) board.Edit {
			return f.edited(func(m *board.ObjectMove) { *of(m) = v / times })
		})
		f.figures = append(f.figures, moveFigure{newCardRow(name, n), n, of, times, needs})
	}
	add("Set 1 to", "", "The set is so many times smaller than what it looks like: what is large falls slowly. 0 is the same as 1.", 1, 2, 1,
		func(m *board.ObjectMove) *float64 { return &m.Scale }, weighs)
	add("Rise, mm", "", "How high it jumps above the higher of its ends. 0 is the usual.", 5, 1, 1,
		func(m *board.ObjectMove) *float64 { return &m.Rise }, func(m board.ObjectMove) bool { return m.Manner == board.Jumping })
	add("Rebound", " %", "Its speed after a bounce as a part of that before. 0 is the usual.", 5, 1, 100,
		func(m *board.ObjectMove) *float64 { return &m.Rebound }, func(m board.ObjectMove) bool { return m.Manner == board.Bouncing })
	add("Anticipates", " %", "How far it goes back first: a part of the way, of a jump's rise.", 5, 1, 100,
		func(m *board.ObjectMove) *float64 { return &m.Anticipate }, ahead)
	add("for, s", "", "How long that takes. 0 is the usual.", 0.1, 2, 1,
		func(m *board.ObjectMove) *float64 { return &m.Ready }, func(m board.ObjectMove) bool { return ahead(m) && m.Anticipate > 0 })
	add("Overshoots", " %", "How far it goes too far: a part of the way, of a jump's rise.", 5, 1, 100,
		func(m *board.ObjectMove) *float64 { return &m.Overshoot }, func(m board.ObjectMove) bool { return ahead(m) || m.Manner == board.Settling })
	add("Damping", " %", "How soon it comes to rest: a part of the least that lets it not swing. 0 is the usual.", 5, 1, 100,
		func(m *board.ObjectMove) *float64 { return &m.Damping }, func(m board.ObjectMove) bool { return springs(m) || m.Manner == board.Swinging })
	add("Period, s", "", "From swing to swing. 0 is the usual.", 0.1, 2, 1,
		func(m *board.ObjectMove) *float64 { return &m.Period }, springs)
}

// layOutSet puts the fields one below the other, or in two columns.
func (f *motionFace) layOutSet() fyne.CanvasObject {
	w := f.w
	chosen := w.hinted("Those chosen", nil, widget.LowImportance, "It moves in the chosen panels, from the first to the last", w.moveOverChosen).by(moveOverName)
	here := w.hinted("On the beat here", nil, widget.LowImportance, "The moment is seen on the beat nearest to the playhead", f.hitHere).by(hitHereName)
	free := w.hinted("Set free", nil, widget.LowImportance, "The moment takes its own time", f.hitFree).by(hitFreeName)
	earlier := w.hinted("‹", nil, widget.LowImportance, "The moment is seen a beat earlier", func() { f.hitBy(-1) }).by(hitEarlierName)
	later := w.hinted("›", nil, widget.LowImportance, "The moment is seen a beat later", func() { f.hitBy(1) }).by(hitLaterName)
	f.rows = &cardRows{left: []cardRow{
		newCardRow("", f.warning),
		newCardRow("Object", shared([]float32{1, 1}, f.object, framed(f.manner))),
		newCardRow("Panels", shared([]float32{1, 0, 1, 0}, f.first, centred(small("to")), f.last, chosen)),
	}}
	for _, g := range f.figures {
		f.rows.left = append(f.rows.left, g.row)
	}
	f.rows.right = []cardRow{
		newCardRow("Key", container.NewHBox(
			w.hinted("‹", nil, widget.LowImportance, "The key before", func() { f.turnKey(-1) }), centred(f.keyName),
			w.hinted("›", nil, widget.LowImportance, "The next key", func() { f.turnKey(1) }), f.more, f.fewer)),
		newCardRow("Right", shared([]float32{1, 0, 1, 0, 1}, f.x, centred(small("away")), f.y, centred(small("up")), f.height)),
		newCardRow("Moment", container.NewVBox(framed(f.moment), container.NewHBox(earlier, later, here, free))),
		newCardRow("", f.hits),
		newCardRow("The set", container.NewHBox(f.sighting, f.top)),
	}
	return scrolling(f.rows)
}

// showMove fills the fields.
func (f *motionFace) showMove(t motion.Table, changeable bool) {
	w, m := f.w, t.Move
	f.key = max(0, min(f.key, len(m.Keys)-1))
	f.object.put(m.Object)
	f.first.put(w.numbers[w.board.Index(m.First)])
	f.last.put(w.numbers[w.board.Index(m.Last)])
	f.manner.SetSelected(m.Manner.Words())
	numbers := []*numberField{f.x, f.y, f.height}
	for _, g := range f.figures {
		g.row.setVisible(g.needs(m))
		g.field.show(*g.of(&m) * g.times)
		numbers = append(numbers, g.field)
	}
	k := m.Keys[f.key]
	setText(f.keyName, fmt.Sprintf("%d of %d", f.key+1, len(m.Keys)))
	f.x.show(k.X)
	f.y.show(k.Y)
	f.height.show(k.Height)
	names := momentNames(m)
	if at := f.moment.SelectedIndex(); !slices.Equal(f.moment.Options, names) || at < 0 {
		f.moment.SetOptions(names)
		f.moment.SetSelectedIndex(max(0, min(max(at, 1), len(names)-1)))
	}
	f.hits.SetText(hitsWords(t, names))
	f.top.SetChecked(m.Sight.Top)
	f.warning.SetText(warningsOf(t))
	setVisible(f.hits, f.hits.Text != "")
	setVisible(f.warning, f.warning.Text != "")
	for _, o := range []interface {
		Enable()
		Disable()
	}{f.object, f.first, f.last, f.manner, f.moment, f.sighting, f.top} {
		if changeable {
			o.Enable()
		} else {
			o.Disable()
		}
	}
	for _, n := range numbers {
		if changeable {
			n.Enable()
		} else {
			n.Disable()
		}
	}
	setEnabled(&f.more.Button, changeable && len(m.Keys) < board.MaxPathKeys)
	setEnabled(&f.fewer.Button, changeable && len(m.Keys) > 2)
	f.rowsRefresh()
}

// rowsRefresh lays the rows anew after some came or went.
func (f *motionFace) rowsRefresh() { f.halves[0].Refresh() }
