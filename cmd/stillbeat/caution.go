package main

import (
	"context"
	"slices"

	"stillbeat/board/check"
	"stillbeat/board/desk"
)

// moving are the formats in which a film that flashes does.
var moving = []string{".mp4", ".gif", ".html"}

// caution returns what must go with the film when it is shown in a format, and
// says it: nobody is to meet flashes unwarned.
func (a *app) caution(ctx context.Context, d *desk.Desk, format shareFormat) ([]string, error) {
	if !slices.Contains(moving, format.ending) {
		return nil, nil
	}
	m := a.meter()
	report, err := check.Run(ctx, d.Board(), check.Options{Pictures: d.Pictures, Progress: m.stage("looking for flashing")})
	m.close()
	if err != nil {
		return nil, err
	}
	found := check.Cautions(report.Findings)
	for _, c := range found {
		a.note([]string{"caution: " + c})
	}
	return found, nil
}
