package ui

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/theme"
	"fyne.io/fyne/v2/widget"

	"stillbeat/board"
	"stillbeat/board/check"
)

// severityNames are what a finding is called by how much it matters.
var severityNames = map[check.Severity]string{check.Danger: "Danger", check.Fault: "Fault", check.Hint: "Hint"}

// severityMeans says what they mean.
var severityMeans = map[check.Severity]string{
	check.Danger: "Dangers may hurt someone who sees the film.",
	check.Fault:  "Faults will look or sound wrong.",
	check.Hint:   "Hints are worth a look: they may be meant so.",
}

// severitySigns are their shapes: a full triangle, a full square on its corner,
// an empty ring.
var severitySigns = map[check.Severity]fyne.Resource{
	check.Danger: theme.NewErrorThemedResource(fyne.NewStaticResource("danger.svg", []byte(
		`<svg xmlns="http://www.w3.org/2000/svg" width="24" height="24"><path d="M12 2.5L23 21.5H1z"/></svg>`))),
	check.Fault: theme.NewThemedResource(fyne.NewStaticResource("fault.svg", []byte(
		`<svg xmlns="http://www.w3.org/2000/svg" width="24" height="24"><path d="M12 3.5L20.5 12L12 20.5L3.5 12z"/></svg>`))),
	check.Hint: theme.NewThemedResource(fyne.NewStaticResource("hint.svg", []byte(
		`<svg xmlns="http://www.w3.org/2000/svg" width="24" height="24"><path fill-rule="evenodd" d="M12 5a7 7 0 1 0 0.01 0zM12 7.2a4.8 4.8 0 1 1 -0.01 0z"/></svg>`))),
}

// kindName names what sort a finding is.
func kindName(k check.Kind) string {
	if name := map[check.Kind]string{check.OffBeat: "off the beat", check.ShortHold: "short hold", check.Reading: "reading time", check.NoPicture: "no picture",
		check.BadPicture: "picture", check.Gap: "gap", check.Session: "length of a sitting", check.Loud: "loudness", check.SongEnds: "end of the song",
		check.TwoNumbers: "number used twice", check.Flicker: "flashing", check.Step: "step of an object", check.Move: "move of an object", check.Planning: "plan of the shoot"}[k]; name != "" {
		return name
	}
	return string(k)
}

// whole is what was found as a sentence, or two.
func whole(f check.Finding) string {
	switch f.Kind {
	case check.Session, check.Planning, check.Move, check.Step: // they name what they are about
		return placeOf(f) + ": " + f.What + "."
	}
	return placeOf(f) + " " + f.What + "."
}

// placeOf says what a finding is about.
func placeOf(f check.Finding) string {
	if f.Number == "" {
		return "The film"
	}
	return "Panel " + f.Number
}

// countWords counts findings: "1 danger, 3 faults, 5 hints".
func countWords(open []check.Finding) string {
	var parts []string
	for _, s := range check.Severities {
		n := 0
		for _, f := range open {
			if f.Severity == s {
				n++
			}
		}
		if n > 0 {
			parts = append(parts, fmt.Sprintf("%d %s", n, plural(int64(n), string(s))))
		}
	}
	if len(parts) == 0 {
		return "Nothing found"
	}
	return strings.Join(parts, ", ")
}

// seriousOf counts those that are more than hints.
func seriousOf(open []check.Finding) (n int) {
	for _, f := range open {
		if f.Severity != check.Hint {
			n++
		}
	}
	return n
}

// checkRow is a line of the list: a finding, or the head of those of one
// severity.
type checkRow struct {
	finding  *check.Finding // nil: a head
	severity check.Severity
	text     string
	at       string // time code
}

// checkRows lists findings under a head for each severity.
func checkRows(b board.Board, all []check.Finding, old bool) []checkRow {
	var rows []checkRow
	for _, s := range check.Severities {
		var of []checkRow
		for i := range all {
			if f := &all[i]; f.Severity == s && (old || !f.Dismissed) {
				of = append(of, checkRow{finding: f, severity: s, text: f.What, at: b.Rate.Timecode(f.Span.Start)})
			}
		}
		if n := len(of); n > 0 {
			rows = append(rows, checkRow{severity: s, text: fmt.Sprintf("%d %s", n, plural(int64(n), string(s)))})
			rows = append(rows, of...)
		}
	}
	return rows
}

// newCheckItem makes a line: sign, severity, place, time code, what.
func newCheckItem() fyne.CanvasObject {
	cell := func() *widget.Label {
		l := widget.NewLabel("")
		l.Truncation = fyne.TextTruncateEllipsis
		return l
	}
	left := container.NewHBox(container.New(widthLayout(16), widget.NewIcon(nil)), fixedWidth(62, cell()), fixedWidth(100, cell()), fixedWidth(90, cell()))
	return container.NewStack(canvas.NewRectangle(paperDark), container.NewBorder(nil, nil, left, nil, cell()))
}

// fill writes the line.
func (r checkRow) fill(o fyne.CanvasObject) {
	row := o.(*fyne.Container).Objects
	line := row[1].(*fyne.Container)
	what, left := line.Objects[0].(*widget.Label), line.Objects[1].(*fyne.Container)
	cell := func(i int) *widget.Label { return left.Objects[i].(*fyne.Container).Objects[0].(*widget.Label) }
	head := r.finding == nil
	setVisible(row[0], head)
	left.Objects[0].(*fyne.Container).Objects[0].(*widget.Icon).SetResource(severitySigns[r.severity])
	for i := 1; i <= 3; i++ {
		setVisible(left.Objects[i], !head)
	}
	what.TextStyle.Bold, what.TextStyle.Italic = head, !head && r.finding.Dismissed
	if head {
		what.SetText(r.text)
		return
	}
	cell(1).SetText(severityNames[r.severity])
	cell(2).SetText(placeOf(*r.finding))
	cell(3).SetText(r.at)
	text := r.text
	if r.finding.Dismissed {
		text = "dismissed: " + text
	}
	what.SetText(text)
}
