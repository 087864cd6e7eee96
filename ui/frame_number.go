package ui

import (
	"math"
	"strconv"
	"strings"

	"fyne.io/fyne/v2"

	"stillbeat/board"
)

// numberField is a field for a number of the chosen panels, taken when it is
// left; the arrows up and down change it by a step.
type numberField struct {
	field
	w      *window
	unit   string
	digits int
	shown  string
	value  float64
	step   float64
	edit   func(v float64) board.Edit
}

func (w *window) newNumber(unit string, digits int, step float64, words string, edit func(v float64) board.Edit) *numberField {
	f := &numberField{w: w, unit: unit, digits: digits, step: step, edit: edit}
	f.setUp("", 1)
	f.hint = w.hints(words + " Up and Down change it.")
	f.ExtendBaseWidget(f)
	f.OnDone = func() {
		if !f.take() {
			f.put(f.shown)
		}
		w.desk.CloseEdit()
	}
	f.OnReturn = func() {
		if f.take() {
			w.win.Canvas().Unfocus()
		}
	}
	f.OnArrow = func(by int) {
		if f.take() {
			f.set(rounded(f.value+float64(by)*f.step, f.digits))
		}
	}
	return f
}

// show puts a value into the field, unless another is being typed.
func (f *numberField) show(v float64) {
	words := inFigures(v, f.digits) + f.unit
	if f.Text == f.shown || f.w.win.Canvas().Focused() != fyne.Focusable(f) {
		f.put(words)
	}
	f.shown, f.value = words, v
}

// take hands on what was typed, if anything was, and reports whether it could
// be used.
func (f *numberField) take() bool {
	if f.Text == f.shown || f.w.chosen < 0 {
		return true
	}
	v, err := typedNumber(strings.TrimRight(strings.TrimSpace(f.Text), "%° "))
	if err != nil {
		f.w.foot.Say(sentence(err.Error()))
		return false
	}
	return f.set(v)
}

// set does the edit for a value.
func (f *numberField) set(v float64) bool {
	was := f.shown
	f.shown = f.Text // what the film says takes its place
	if err := f.w.desk.Do(f.edit(v)); err != nil {
		f.shown = was
		f.w.foot.Say(sentence(err.Error()))
		return false
	}
	return true
}

// inFigures writes a number with at most so many digits behind the point.
func inFigures(v float64, digits int) string {
	k := math.Pow10(digits)
	return strconv.FormatFloat(math.Round(v*k)/k+0, 'f', -1, 64)
}
