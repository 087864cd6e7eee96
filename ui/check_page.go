package ui

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"

	"stillbeat/board/check"
)

// checkPage is the page of the window with what the film's check found: a list,
// and beside it what is chosen of it.
type checkPage struct {
	w       *window
	run     *checkRun
	report  check.Report
	rows    []checkRow
	at      int    // row chosen, -1 none
	held    string // the finding it shows, by its ID
	reveal  bool   // it is brought into sight once it is listed
	old     bool   // those dismissed are shown as well
	filling bool

	list             *keyList
	count, state     *canvas.Text
	unseen           *widget.Label // what was not looked at
	oldTick          *hintedCheck
	kind             *canvas.Text
	sign             *widget.Icon
	what, why        *widget.Label
	source, caution  *widget.Label
	go_, mend, all   *hintedButton
	dismiss          *hintedButton
	detail, nothing  fyne.CanvasObject
	nothingWords     *widget.Label
	unseenBand, root fyne.CanvasObject
	tabPage          *page
}

func newCheckPage(w *window) *checkPage {
	p := &checkPage{w: w, at: -1, count: heading(""), state: small(""), kind: heading(""), sign: widget.NewIcon(nil)}
	p.run = &checkRun{w: w, wait: checkWait, done: p.take, told: p.fill}
	p.what, p.why, p.source, p.caution = wrappedLine(), wrappedLine(), wrappedLine(), wrappedLine()
	p.what.TextStyle.Bold, p.caution.TextStyle.Bold = true, true
	p.nothingWords, p.unseen = wrappedLine(), wrappedLine()
	p.nothingWords.Alignment = fyne.TextAlignCenter
	p.list = newKeyList(func() int { return len(p.rows) }, newCheckItem, func(i widget.ListItemID, o fyne.CanvasObject) { p.rows[i].fill(o) })
	p.list.OnSelected = func(i widget.ListItemID) { p.pick(i) }
	p.list.OnTake, p.list.OnLeave = p.goThere, func() { w.win.Canvas().Unfocus() }
	p.oldTick = newHintedCheck(w.hints("List what was dismissed as well"), "Show dismissed", func(on bool) {
		if !p.filling {
			p.showOld(on)
		}
	})
	again := w.hinted("Check again", nil, widget.LowImportance, "Look the film over once more", p.run.Again).by(checkAgainName)
	head := container.NewHBox(centred(p.count), fixedWidth(8, layout.NewSpacer()), centred(p.state), layout.NewSpacer(), p.oldTick, again)
	p.go_ = w.hinted("Show on the timeline", nil, widget.LowImportance, "To the place on the timeline: Return", p.goThere).by(checkGoName)
	p.mend = w.hinted("Mend", nil, widget.MediumImportance, "", p.mendOne).by(checkMendName)
	p.all = w.hinted("Mend all of this kind", nil, widget.LowImportance, "", p.mendKind).by(checkMendKindName)
	p.dismiss = w.hinted("Dismiss", nil, widget.LowImportance, "It was seen and is meant so; bring it back with Show dismissed: Delete", p.turnDismissed).by(checkDismissName)
	p.detail = container.NewBorder(container.NewHBox(centredObject(p.sign), p.kind), container.NewVBox(container.NewHBox(p.mend, p.all), container.NewHBox(p.dismiss, p.go_)), nil, nil,
		container.NewVScroll(container.NewVBox(p.what, p.why, p.caution, p.source)))
	p.nothing = container.NewVBox(layout.NewSpacer(), p.nothingWords, layout.NewSpacer())
	split := container.NewHSplit(band(paper, padded(8, 4, p.list)), band(paperLight, padded(12, 10, container.NewStack(p.detail, p.nothing))))
	split.Offset = 0.6
	p.unseenBand = band(paperDark, padded(8, 0, p.unseen))
	p.root = container.NewBorder(container.NewVBox(band(paperDark, padded(10, 3, head)), rule()), p.unseenBand, nil, nil, split)
	p.fill()
	return p
}

// wrappedLine shows words over as many lines as they take.
func wrappedLine() *widget.Label {
	l := widget.NewLabel("")
	l.Wrapping = fyne.TextWrapWord
	return l
}

// page is the check's as one of the window's.
func (p *checkPage) page() *page {
	p.tabPage = &page{name: "Check", hint: "What will look wrong in the film, or may hurt someone", key: fyne.KeyF10, root: p.root,
		present: p.Present, typed: p.typedKey, says: checkHint, showing: func(up bool) {
			if !up {
				p.run.Stop()
			}
		}}
	return p.tabPage
}

const checkHint = "Up and Down go through what was found, Return to its place on the timeline, Delete dismisses it."

// up reports whether the page is on screen.
func (p *checkPage) up() bool { return p.w.pages != nil && p.w.pages.up == p.tabPage }

// Present brings the page in line with the film, and has it checked if it is
// another one than was.
func (p *checkPage) Present() {
	p.run.Want()
	p.markDismissed()
	p.fill()
}

// Changed is told of each change of the film, for the count on the tab.
func (p *checkPage) Changed() {
	if p.tabPage != nil && p.tabPage.tab != nil {
		p.markDismissed()
		p.sayCount()
	}
}

// take shows what a check found.
func (p *checkPage) take(r check.Report) {
	p.report = r
	p.markDismissed()
	p.fill()
}

// markDismissed puts the findings in line with what the film has dismissed.
func (p *checkPage) markDismissed() {
	dismissed := map[string]bool{}
	for _, id := range p.w.board.Dismissed {
		dismissed[id] = true
	}
	for i := range p.report.Findings {
		p.report.Findings[i].Dismissed = dismissed[p.report.Findings[i].ID]
	}
}

// fill lists what was found, with the finding shown before chosen still, or
// the one in its place.
func (p *checkPage) fill() {
	p.filling = true
	defer func() { p.filling = false }()
	was := p.at
	p.rows, p.at = checkRows(p.w.board, p.report.Findings, p.old), -1
	for i, r := range p.rows {
		if r.finding != nil && r.finding.ID == p.held {
			p.at = i
		}
	}
	if p.at < 0 && was >= 0 && len(p.rows) > 0 {
		p.at = min(was, len(p.rows)-1)
		if p.rows[p.at].finding == nil {
			p.at = min(p.at+1, len(p.rows)-1)
		}
	}
	p.list.UnselectAll()
	if p.at >= 0 {
		p.list.Select(p.at)
	}
	p.list.Refresh()
	if p.reveal && p.at >= 0 {
		p.reveal = false
		p.list.ScrollTo(p.at)
	}
	p.oldTick.SetChecked(p.old)
	p.sayCount()
	p.showDetail()
}

// sayCount says how much was found, on the page and on its tab.
func (p *checkPage) sayCount() {
	open := check.Open(p.report.Findings)
	words, known := countWords(open), p.run.Fresh()
	setText(p.count, words)
	if !p.run.Known() {
		setText(p.count, "The film's check")
	}
	setText(p.state, p.run.Words())
	words = ""
	if p.run.Known() && len(p.report.Unchecked) > 0 {
		words = "Not looked at: " + strings.Join(p.report.Unchecked, "; ") + "."
	}
	p.unseen.SetText(words)
	setVisible(p.unseenBand, words != "")
	if p.tabPage == nil || p.tabPage.tab == nil {
		return
	}
	name := p.tabPage.name
	if n := seriousOf(open); known && n > 0 {
		name += fmt.Sprintf(" · %d", n)
	}
	if b := p.tabPage.tab.button; b.Text != name {
		b.SetText(name)
	}
}
