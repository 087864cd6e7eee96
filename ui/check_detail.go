package ui

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"

	"stillbeat/board"
	"stillbeat/board/check"
)

// chosen returns the finding that is chosen.
func (p *checkPage) chosen() (check.Finding, bool) {
	if p.at >= 0 && p.at < len(p.rows) && p.rows[p.at].finding != nil {
		return *p.rows[p.at].finding, true
	}
	return check.Finding{}, false
}

// pick chooses a row: the film goes to what it is about.
func (p *checkPage) pick(i int) {
	if p.filling {
		return
	}
	p.at, p.held = i, ""
	p.w.win.Canvas().Unfocus()
	if f, ok := p.chosen(); ok {
		p.held = f.ID
		p.follow(f)
	}
	p.showDetail()
	refreshMenus(p.w.menu, p.w.commands)
}

// follow chooses what a finding is about and puts the playhead there.
func (p *checkPage) follow(f check.Finding) {
	w := p.w
	w.choose(w.board.Index(f.Panel))
	w.goTo(max(0, min(f.Span.Start, w.lastFrame())), true)
	w.timeline.reveal(w.board.Rate.Seconds(w.at))
}

// goThere shows the place on the timeline.
func (p *checkPage) goThere() {
	if f, ok := p.chosen(); ok {
		p.w.toTimeline()
		p.follow(f)
	}
}

// step chooses the next finding, or the one before.
func (p *checkPage) step(by int) {
	for i := p.at + by; i >= 0 && i < len(p.rows); i += by {
		if p.rows[i].finding != nil {
			p.list.Select(i)
			p.list.ScrollTo(i)
			return
		}
	}
}

// typedKey goes through the findings.
func (p *checkPage) typedKey(name fyne.KeyName, held fyne.KeyModifier) bool {
	if held != 0 {
		return false
	}
	switch name {
	case fyne.KeyDown:
		p.step(1)
	case fyne.KeyUp:
		p.step(-1)
	case fyne.KeyHome:
		p.at = -1
		p.step(1)
	case fyne.KeyEnd:
		p.at = len(p.rows)
		p.step(-1)
	case fyne.KeyReturn, fyne.KeyEnter:
		p.goThere()
	case fyne.KeyDelete:
		if p.canDismiss() {
			p.turnDismissed()
		}
	default:
		return false
	}
	return true
}

func (p *checkPage) showOld(on bool) {
	p.old = on
	p.fill()
	refreshMenus(p.w.menu, p.w.commands)
}

// changeable reports whether the film can be edited.
func (p *checkPage) changeable() bool { return p.w.desk.ReadOnly() == nil }

// canMend reports whether the finding chosen can be mended now: the film must
// be the one that was checked.
func (p *checkPage) canMend() bool {
	f, ok := p.chosen()
	return ok && f.Mend != nil && !f.Dismissed && p.changeable() && p.run.Fresh()
}

// ofKind returns those of the kind of the finding chosen that can be mended.
func (p *checkPage) ofKind() (out []check.Finding) {
	f, ok := p.chosen()
	if !ok || !p.changeable() || !p.run.Fresh() {
		return nil
	}
	for _, g := range check.Open(p.report.Findings) {
		if g.Kind == f.Kind && g.Mend != nil {
			out = append(out, g)
		}
	}
	return out
}

func (p *checkPage) mendOne() {
	if f, ok := p.chosen(); ok && p.canMend() {
		p.apply(*f.Mend)
	}
}

func (p *checkPage) mendKind() {
	if set := p.ofKind(); len(set) > 0 {
		p.apply(mendAll(set))
	}
}

// apply does an edit as a step of its own.
func (p *checkPage) apply(e board.Edit) {
	p.w.desk.CloseEdit()
	p.w.do(e)
	p.w.desk.CloseEdit()
}

func (p *checkPage) canDismiss() bool {
	_, ok := p.chosen()
	return ok && p.changeable()
}

// turnDismissed dismisses the finding chosen, or brings it back.
func (p *checkPage) turnDismissed() {
	if f, ok := p.chosen(); ok && f.Dismissed {
		p.apply(board.Recall([]string{f.ID}))
	} else if ok {
		p.apply(board.Dismiss([]string{f.ID}))
		if !f.Dismissed && !p.old {
			p.w.foot.Say("Dismissed. Show dismissed lists it again.")
		}
	}
	if f, ok := p.chosen(); ok {
		p.held = f.ID
	}
}

// mendAll is all mends of findings as one step. The last of the film are mended
// first, so that the others keep their places; what cannot be done any more is
// left out.
func mendAll(set []check.Finding) board.Edit {
	name := "mend " + countedFindings(len(set))
	if len(set) == 1 {
		name = set[0].Mend.Name
	}
	return board.Edit{Name: name, Apply: func(b board.Board) (board.Board, error) {
		out, done := b, 0
		var last error
		for k := len(set) - 1; k >= 0; k-- {
			next, err := set[k].Mend.Apply(out)
			if err != nil {
				last = err
				continue
			}
			out, done = next, done+1
		}
		if done == 0 {
			return b, last
		}
		return out, nil
	}}
}

func countedFindings(n int) string { return fmt.Sprintf("%d %s", n, plural(int64(n), "finding")) }

// showDetail shows the finding chosen, or says why there is none.
func (p *checkPage) showDetail() {
	f, ok := p.chosen()
	setVisible(p.detail, ok)
	setVisible(p.nothing, !ok)
	if !ok {
		words := p.emptyWords()
		if p.at >= 0 && p.at < len(p.rows) {
			words = severityMeans[p.rows[p.at].severity]
		}
		p.nothingWords.SetText(words)
		return
	}
	p.sign.SetResource(severitySigns[f.Severity])
	setText(p.kind, severityNames[f.Severity]+": "+kindName(f.Kind))
	p.what.SetText(whole(f))
	p.why.SetText(f.Why)
	p.source.SetText("By: " + f.Source + ".")
	p.caution.SetText(f.Caution)
	setVisible(p.caution, f.Caution != "")
	p.mend.SetText("Mend")
	how := "Nothing mends it at once: it takes your eye"
	if f.Mend != nil {
		how = "As one step to undo: " + f.Mend.Name
		p.why.SetText(f.Why + "\n\nTo mend it: " + f.Mend.Name + ".")
	}
	p.mend.hint.words = func() string { return withKeys(how, p.w.keys.of(checkMendName)) }
	n := len(p.ofKind())
	p.all.hint.words = func() string {
		return fmt.Sprintf("Mend all that is found as %s, as one step", kindName(f.Kind))
	}
	setEnabled(&p.mend.Button, p.canMend())
	setEnabled(&p.all.Button, n > 1)
	p.dismiss.SetText(map[bool]string{false: "Dismiss", true: "Bring back"}[f.Dismissed])
	setEnabled(&p.dismiss.Button, p.canDismiss())
}

// emptyWords says why nothing is chosen.
func (p *checkPage) emptyWords() string {
	hidden := len(p.report.Findings) - len(check.Open(p.report.Findings))
	switch {
	case len(p.w.board.Panels) == 0:
		return "The film has no panels yet: there is nothing to check."
	case !p.run.Known():
		return "The film is being looked over."
	case len(p.rows) > 0:
		return "Choose what was found to see why it matters and what can be done."
	case hidden > 0:
		return fmt.Sprintf("Nothing else was found. %s dismissed.", strings.ToUpper(countedFindings(hidden)[:1])+countedFindings(hidden)[1:])
	}
	return "Nothing was found that will look wrong. " + check.Screening
}
