package ui

import (
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/widget"

	"stillbeat/board"
)

// planTick says whether still panels and repeats count in full.
type planTick struct {
	widget.Check
	hint    hint
	showing bool
}

func newPlanTick(p *planPage) *planTick {
	t := &planTick{hint: p.w.hints("Still panels and those seen before are photographed for each exposure too.")}
	t.Text = "Still panels in full"
	t.OnChanged = func(on bool) {
		if t.showing {
			return
		}
		f := p.w.board.Planning()
		f.Every = on
		p.w.do(board.SetPlan(f))
		p.w.desk.CloseEdit()
		p.w.win.Canvas().Unfocus()
	}
	t.ExtendBaseWidget(t)
	return t
}

func (t *planTick) show(on, changeable bool) {
	t.showing = true
	t.SetChecked(on)
	t.showing = false
	if changeable {
		t.Enable()
	} else {
		t.Disable()
	}
}

// MouseIn says what the tick is for.
func (t *planTick) MouseIn(e *desktop.MouseEvent) {
	t.Check.MouseIn(e)
	t.hint.in(e)
}

// MouseMoved follows the pointer.
func (t *planTick) MouseMoved(e *desktop.MouseEvent) {
	t.Check.MouseMoved(e)
	t.hint.moved(e)
}

// MouseOut takes the hint back.
func (t *planTick) MouseOut() {
	t.Check.MouseOut()
	t.hint.out()
}
