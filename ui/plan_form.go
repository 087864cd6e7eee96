package ui

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"stillbeat/board"
)

// planField is a field for a figure the shoot is planned by, taken when it is
// left. What cannot be taken is said, and what the film says comes back; after
// Return it stays.
type planField struct {
	field
	p     *planPage
	of    func(*board.Planning) *float64
	parts bool                       // it is shown in per cent
	whole func(*board.Planning) *int // in place of the other, for a whole number
	shown string
}

// planFigure is a figure of the plan as the page asks for it.
type planFigure struct {
	name, hint string
	of         func(*board.Planning) *float64
	parts      bool
}

// planFigures are those that are not whole, in the order they are asked for.
var planFigures = []planFigure{
	{"Session, min", "How long you work in one sitting.", func(p *board.Planning) *float64 { return &p.Session }, false},
	{"An exposure, min", "Minutes for a photograph; left empty it is learnt from the log.", func(p *board.Planning) *float64 { return &p.Pace }, false},
	{"Set-up of a shot, min", "Set, lamps and camera, before the first exposure of each shot.", func(p *board.Planning) *float64 { return &p.SetUp }, false},
	{"Clean plate, min", "For a picture of the set alone.", func(p *board.Planning) *float64 { return &p.Plate }, false},
	{"Goes wrong, %", "Time on the set for what goes wrong, in hundredths of the rest.", func(p *board.Planning) *float64 { return &p.Contingency }, true},
	{"Painting a rig out, min", "At the desk, for each photograph with a rig in view.", func(p *board.Planning) *float64 { return &p.Retouch }, false},
	{"Retakes, %", "Photographs taken again and kept, in hundredths of the others.", func(p *board.Planning) *float64 { return &p.Retakes }, true},
	{"A photograph, MB", "Millions of bytes of a file of the camera.", func(p *board.Planning) *float64 { return &p.Megabytes }, false},
}

// form makes what stands at the left.
func (p *planPage) form() fyne.CanvasObject {
	rows := &cardRows{}
	add := func(name string, o fyne.CanvasObject) { rows.left = append(rows.left, newCardRow(name, o)) }
	for _, f := range planFigures {
		add(f.name, p.newFigure(f))
	}
	add("Copies of each", p.newWhole("How often each photograph is kept, the first included.", func(p *board.Planning) *int { return &p.Copies }))
	add("On a battery charge", p.newWhole("Photographs on one charge of the battery; 0 where the camera runs from the mains.", func(p *board.Planning) *int { return &p.Charge }))
	var objects []fyne.CanvasObject
	for _, r := range rows.left {
		objects = append(objects, r.label, r.field)
	}
	p.every = newPlanTick(p)
	p.log = p.w.hinted("Log a spell…", nil, lowImportance, "Enter how many exposures a spell of shooting gave, to learn the pace", p.logDialog)
	p.logged = p.w.hinted("The log…", nil, lowImportance, "What was logged, to look at and to take out", p.loggedDialog)
	return container.NewVBox(heading("Planned by"), container.New(rows, objects...), p.every,
		heading("Learnt from the log"), p.learnt, container.NewHBox(p.log, p.logged))
}

func (p *planPage) newFigure(x planFigure) *planField {
	f := &planField{p: p, of: x.of, parts: x.parts}
	f.setUp("", 1)
	f.hint = p.w.hints(x.hint)
	f.ExtendBaseWidget(f)
	f.OnDone = func() {
		if !f.take() {
			f.put(f.shown)
		}
	}
	f.OnReturn = func() {
		if f.take() {
			p.w.win.Canvas().Unfocus()
		}
	}
	f.OnEscape = func() {
		f.put(f.shown)
		p.w.win.Canvas().Unfocus()
	}
	p.figures = append(p.figures, f)
	return f
}

// newWhole makes a field of a whole number.
func (p *planPage) newWhole(hint string, of func(*board.Planning) *int) *planField {
	f := p.newFigure(planFigure{hint: hint})
	f.whole = of
	return f
}

// show puts the film's figure into the field, unless another is being typed.
func (f *planField) show(p board.Planning, changeable bool) {
	words := f.words(p)
	if f.Text == f.shown || f.p.w.win.Canvas().Focused() != fyne.Focusable(f) {
		f.put(words)
	}
	f.shown = words
	if usual := map[bool]string{true: "learnt", false: "usual: " + inNumbers(board.UsualPace)}[len(p.Log) > 0]; f.learns() && f.PlaceHolder != usual {
		f.SetPlaceHolder(usual)
	}
	switch {
	case changeable == !f.Disabled():
	case changeable:
		f.Enable()
	default:
		f.Disable()
	}
}

// learns reports whether the figure may be left empty.
func (f *planField) learns() bool {
	var p board.Planning
	return f.of != nil && f.of(&p) == &p.Pace
}

func (f *planField) words(p board.Planning) string {
	switch {
	case f.whole != nil:
		return strconv.Itoa(*f.whole(&p))
	case f.learns() && *f.of(&p) == 0:
		return ""
	case f.parts:
		return inNumbers(100 * *f.of(&p))
	}
	return inNumbers(*f.of(&p))
}

// inNumbers writes a number to a hundredth, without noughts at its end.
func inNumbers(v float64) string { return strconv.FormatFloat(math.Round(v*100)/100, 'f', -1, 64) }

// take has the film keep what was typed, if anything was, and reports whether
// it could be used.
func (f *planField) take() bool {
	if f.Text == f.shown || f.Disabled() {
		return true
	}
	w := f.p.w
	edit, err := f.edit(w.board.Planning())
	if err == nil {
		err = w.desk.Do(edit)
	}
	w.desk.CloseEdit()
	if err != nil {
		w.foot.Say(sentence(err.Error()))
		return false
	}
	f.put(f.shown)
	return true
}

func (f *planField) edit(p board.Planning) (board.Edit, error) {
	text := strings.TrimSuffix(strings.ReplaceAll(strings.TrimSpace(f.Text), ",", "."), "%")
	if text == "" && f.learns() {
		p.Pace = 0
		return board.SetPlan(p), nil
	}
	v, err := strconv.ParseFloat(strings.TrimSpace(text), 64)
	switch {
	case err != nil || math.IsNaN(v) || math.IsInf(v, 0):
		return board.Edit{}, fmt.Errorf("%.40q is not a number", f.Text)
	case f.whole != nil && (v != math.Trunc(v) || math.Abs(v) > 1e9):
		return board.Edit{}, fmt.Errorf("%.40q is not a whole number", f.Text)
	case f.whole != nil:
		*f.whole(&p) = int(v)
	case f.parts:
		*f.of(&p) = v / 100
	default:
		*f.of(&p) = v
	}
	return board.SetPlan(p), nil
}

// FocusGained chooses the figure, to be written over.
func (f *planField) FocusGained() {
	f.field.FocusGained()
	f.selectAll()
}
