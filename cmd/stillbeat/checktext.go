package main

import (
	"fmt"
	"strings"

	"stillbeat/board"
	"stillbeat/board/check"
)

// checkText writes what a check found, a line for each finding.
func checkText(r check.Report, all bool) string {
	var out strings.Builder
	shown := r.Findings
	if !all {
		shown = check.Open(shown)
	}
	for _, f := range shown {
		mark := ""
		if f.Dismissed {
			mark = " (dismissed)"
		}
		line := fmt.Sprintf("%-6s  %s: %s%s. %s [%s]", f.Severity, checkPlace(f), f.What, mark, f.Why, f.Source)
		fmt.Fprintln(&out, oneLine(line))
	}
	for _, u := range r.Unchecked {
		fmt.Fprintln(&out, oneLine("Not looked at: "+u+"."))
	}
	for _, c := range check.Cautions(r.Findings) {
		fmt.Fprintln(&out, "Caution: "+c)
	}
	sum := "Nothing was found."
	if n := len(check.Open(r.Findings)); n > 0 {
		sum = count(n, "finding") + "."
	}
	if n := len(r.Findings) - len(check.Open(r.Findings)); n > 0 {
		sum += fmt.Sprintf(" %d dismissed.", n)
	}
	fmt.Fprintln(&out, sum)
	return out.String()
}

// checkPlace says where a finding is: "panel 3, frames 12-29".
func checkPlace(f check.Finding) string {
	place := "film"
	if f.Panel != 0 {
		place = "panel " + f.Number
	}
	if f.Span.Len() == 1 {
		return fmt.Sprintf("%s, frame %d", place, f.Span.Start)
	}
	return fmt.Sprintf("%s, frames %d-%d", place, f.Span.Start, f.Span.End-1)
}

// checkReport is the document of check --json.
type checkReport struct {
	File      string         `json:"file"`
	Findings  []checkFinding `json:"findings"`
	Unchecked []string       `json:"not_looked_at"`
	Cautions  []string       `json:"cautions"`
}

// checkFinding is one finding. Start is its first frame, end the first after
// it; a panel is null for the film.
type checkFinding struct {
	ID        string         `json:"id"`
	Kind      check.Kind     `json:"kind"`
	Severity  check.Severity `json:"severity"`
	Panel     *checkPanel    `json:"panel"`
	Start     board.Frame    `json:"start"`
	End       board.Frame    `json:"end"`
	Seconds   float64        `json:"seconds"` // of film at which it starts
	What      string         `json:"what"`
	Why       string         `json:"why"`
	Source    string         `json:"source"`
	Mend      string         `json:"mend"` // "" if nothing mends it at once
	Dismissed bool           `json:"dismissed"`
}

type checkPanel struct {
	ID     board.PanelID `json:"id"`
	Number string        `json:"number"`
}

func newCheckReport(path string, b board.Board, r check.Report) checkReport {
	out := checkReport{File: path, Findings: []checkFinding{}, Unchecked: []string{}, Cautions: []string{}}
	out.Unchecked = append(out.Unchecked, r.Unchecked...)
	out.Cautions = append(out.Cautions, check.Cautions(r.Findings)...)
	for _, f := range r.Findings {
		e := checkFinding{
			ID: f.ID, Kind: f.Kind, Severity: f.Severity, Start: f.Span.Start, End: f.Span.End,
			Seconds: micro(b.Rate.Seconds(f.Span.Start)), What: f.What, Why: f.Why, Source: f.Source, Dismissed: f.Dismissed,
		}
		if f.Panel != 0 {
			e.Panel = &checkPanel{f.Panel, f.Number}
		}
		if f.Mend != nil {
			e.Mend = f.Mend.Name
		}
		out.Findings = append(out.Findings, e)
	}
	return out
}
