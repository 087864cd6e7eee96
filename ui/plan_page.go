package ui

import (
	"bytes"
	"fmt"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"

	"stillbeat/board"
	"stillbeat/board/plan"
)

// planPage is the page of the window with the plan of the shoot: totals over
// the figures it is planned by, at the left, and the plan.
type planPage struct {
	w       *window
	view    *planView
	roll    *roll
	totals  [5]planTotal
	figures []*planField
	every   *planTick
	learnt  *canvas.Text

	print, log, logged *hintedButton
	root               fyne.CanvasObject
}

// planTotal is a figure that sums up, and what it is of.
type planTotal struct{ figure, of *canvas.Text }

// callSheets is the name of the command that prints them.
const callSheets = "Call sheets as PDF…"

func newPlanPage(w *window) *planPage {
	p := &planPage{w: w, view: &planView{chosen: -1}, learnt: small("")}
	p.view.OnShot = p.toShot
	p.roll = newRoll(p.view)
	p.roll.OnHint = func(s string) { w.foot.Hint(s) }
	row := container.New(layout.NewGridLayoutWithColumns(len(p.totals)))
	for k := range p.totals {
		t := planTotal{written("", ink, 17, true), small("")}
		p.totals[k] = t
		row.Add(container.New(layout.NewCustomPaddedVBoxLayout(0), t.figure, t.of))
	}
	p.print = w.hinted("Call sheets as PDF…", nil, lowImportance, "A page for each session: shots, exposures, what to look at first", p.printDialog).by(callSheets)
	top := band(paperDark, padded(14, 5, container.NewBorder(nil, nil, nil, centredObject(p.print), row)))
	side := band(paperLight, container.NewVScroll(padded(14, 8, p.form())))
	left := container.NewBorder(nil, nil, nil, rule(), fixedColumn(side))
	p.root = container.NewBorder(container.NewVBox(top, rule()), nil, left, nil, p.roll)
	return p
}

// columnLayout gives its one object a width that grows with the text, and all
// of the height.
type columnLayout float32

func (c columnLayout) MinSize(o []fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(textUnits(float32(c)), o[0].MinSize().Height)
}

func (c columnLayout) Layout(o []fyne.CanvasObject, s fyne.Size) { o[0].Resize(s) }

func fixedColumn(o fyne.CanvasObject) fyne.CanvasObject {
	return container.New(columnLayout(300), o)
}

// page is the plan's as one of the window's.
func (p *planPage) page() *page {
	return &page{name: "Plan", hint: "What it takes to shoot the film", key: fyne.KeyF9, root: p.root,
		present: p.Present, typed: p.typedKey, says: planHint, showing: p.roll.Up, chosen: func(bool) { p.mark() }}
}

// Present brings the page in line with the film.
func (p *planPage) Present() {
	b, v := p.w.board, p.view
	v.setBoard(b)
	v.choosePanel(p.w.chosen)
	p.sayTotals()
	figures, changeable := b.Planning(), p.w.desk.ReadOnly() == nil
	for _, f := range p.figures {
		f.show(figures, changeable)
	}
	p.every.show(figures.Every, changeable)
	setEnabled(&p.log.Button, changeable)
	setEnabled(&p.logged.Button, len(figures.Log) > 0)
	setEnabled(&p.print.Button, len(b.Panels) > 0 && v.trouble == "")
	setText(p.learnt, learntWords(figures))
	p.roll.To(p.roll.top)
}

// mark shows where the chosen panel is shot.
func (p *planPage) mark() {
	if p.view.choosePanel(p.w.chosen) {
		p.roll.Refresh()
	}
}

// sayTotals sums the plan up.
func (p *planPage) sayTotals() {
	x := p.view.plan
	f := p.w.board.Planning()
	n := int64(len(x.Sessions))
	words := [5][2]string{
		{fmt.Sprint(x.Take), plural(x.Take, "exposure") + " to take"},
		{plan.Hours(x.Minutes), "on the set"},
		{fmt.Sprint(n), plural(n, "session") + " of " + plan.Hours(f.Session)},
		{plan.Gigabytes(x.Storage.Copies), fmt.Sprintf("in %d %s", f.Copies, map[bool]string{true: "copy", false: "copies"}[f.Copies == 1])},
		{fmt.Sprint(x.Storage.Charges), plural(x.Storage.Charges, "battery charge")},
	}
	if f.Charge == 0 {
		words[4] = [2]string{"mains", "no batteries"}
	}
	for k, t := range p.totals {
		if len(p.w.board.Panels) == 0 || p.view.trouble != "" {
			words[k][0] = "–"
		}
		setText(t.figure, words[k][0])
		setText(t.of, words[k][1])
	}
}

// learntWords says what the log teaches.
func learntWords(f board.Planning) string {
	f.Pace = 0
	p := plan.PaceOf(f)
	if p.Entries == 0 {
		return "Nothing is logged yet."
	}
	return fmt.Sprintf("%.3g min each over %d logged, %.3g to %.3g", p.Minutes, p.Exposures, p.Least, p.Most)
}

// printDialog asks for the paper of the call sheets and where they go.
func (p *planPage) printDialog() {
	w, paper := p.w, newPaperChoice()
	w.ask("Call sheets as PDF", "Choose the file…", []askRow{{"Paper", paper}, {"", small("A page for each session, and before them one with the whole shoot.")}}, func() error {
		b := w.board
		x, err := plan.Make(b)
		if err != nil {
			return err
		}
		to := plan.Paper{Size: papers[paper.SelectedIndex()].size, Made: time.Now()}
		w.writeOut("The call sheets", "calls", ".pdf", func(out *bytes.Buffer) error { return x.PDF(out, b, to) })
		return nil
	})
}
