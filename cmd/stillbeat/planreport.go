package main

import (
	"bytes"
	"fmt"
	"strings"

	"stillbeat/board"
	"stillbeat/board/plan"
)

// planSummary shows a person the plan.
func planSummary(b board.Board, p plan.Plan) string {
	var out bytes.Buffer
	numbers, in := b.Numbers(), p.Begins()
	var head table
	for _, l := range p.Summary() {
		head.add(l[0], l[1])
	}
	fmt.Fprintf(&out, "%s\n", &head)
	list := table{right: []int{0, 1, 2}}
	list.add("Session", "Time", "Exposures", "Shots")
	for n, s := range p.Sessions {
		var shots []string
		for _, piece := range s.Pieces {
			shots = append(shots, p.PieceName(piece))
		}
		list.add(fmt.Sprint(n+1), plan.Hours(s.Minutes), fmt.Sprint(s.Take), strings.Join(shots, ", "))
	}
	fmt.Fprintf(&out, "%s\n", &list)
	list = table{right: []int{1, 2, 3, 4}}
	list.add("Shot", "Take", "Sheet", "Time", "Session", "Mind")
	for i, s := range p.Shots {
		session := "none"
		if n, ok := in[i]; ok {
			session = fmt.Sprint(n + 1)
		}
		list.add(s.Name, fmt.Sprint(s.Take), fmt.Sprint(s.OnSheet), plan.Hours(s.Minutes), session, s.Mind())
	}
	fmt.Fprint(&out, &list)
	if len(p.Scenes) > 1 {
		list = table{right: []int{1, 2, 3}}
		list.add("Scene", "Take", "Sheet", "Time")
		for _, s := range p.Scenes {
			list.add(s.Name, fmt.Sprint(s.Take), fmt.Sprint(s.OnSheet), plan.Hours(s.Minutes))
		}
		fmt.Fprintf(&out, "\n%s", &list)
	}
	notes := table{}
	notes.add("Panel", "What")
	for _, s := range p.Shots {
		for _, panel := range s.Panels {
			if panel.Repeats >= 0 {
				notes.add(numbers[panel.Panel], "shows the photographs of "+numbers[panel.Repeats]+" again")
			}
		}
	}
	for _, f := range p.Findings(b) {
		notes.add(numbers[f.Panel], f.Reason)
	}
	if len(notes.rows) > 1 {
		fmt.Fprintf(&out, "\n%s", &notes)
	}
	return out.String()
}
