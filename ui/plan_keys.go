package ui

import (
	"slices"

	"fyne.io/fyne/v2"
)

// toShot chooses a panel, and shows it on the timeline if it is to be opened.
func (p *planPage) toShot(panel int, open bool) {
	p.w.choose(panel)
	if open {
		p.w.toTimeline()
	}
}

// typedKey goes through the shots, opens one and scrolls by the keyboard.
func (p *planPage) typedKey(name fyne.KeyName, held fyne.KeyModifier) bool {
	r, v := p.roll, p.view
	to := map[fyne.KeyName]float64{fyne.KeyHome: 0, fyne.KeyEnd: v.long(),
		fyne.KeyPageUp: r.top - r.height + 30, fyne.KeyPageDown: r.top + r.height - 30}
	y, scrolls := to[name]
	switch {
	case held != 0:
		return false
	case scrolls:
		r.To(y)
	case name == fyne.KeyUp:
		p.step(-1)
	case name == fyne.KeyDown:
		p.step(1)
	case name == fyne.KeyReturn || name == fyne.KeyEnter:
		if v.chosen >= 0 {
			p.toShot(v.plan.Shots[v.chosen].Panels[0].Panel, true)
		}
	default:
		return false
	}
	return true
}

// step chooses the shot so many on from the one chosen, and has it in sight.
func (p *planPage) step(by int) {
	v := p.view
	if len(v.plan.Shots) == 0 {
		return
	}
	at := max(0, min(v.chosen+by, len(v.plan.Shots)-1))
	p.toShot(v.plan.Shots[at].Panels[0].Panel, false)
	lines := v.linesOf(at)
	if !slices.ContainsFunc(lines, func(l planLine) bool { return p.roll.Sees(l.y, planShotH) }) {
		l := slices.MinFunc(lines, func(a, b planLine) int { return int(p.away(a.y) - p.away(b.y)) })
		p.roll.Reveal(l.y-planTitleH, planSessionH+planTitleH)
	}
}

// away returns how far a line is from what is in sight.
func (p *planPage) away(y float64) float64 {
	return max(p.roll.top-y, y-p.roll.top-p.roll.height, 0)
}

// linesOf returns the lines on which a shot is to be seen: those of its
// sessions, and its own.
func (v *planView) linesOf(shot int) (out []planLine) {
	for _, l := range v.lines {
		here := l.kind == planShot && l.i == shot
		if l.kind == planSession {
			for _, piece := range v.plan.Sessions[l.i].Pieces {
				here = here || piece.Shot == shot
			}
		}
		if here {
			out = append(out, l)
		}
	}
	return out
}
