package check

import (
	"cmp"
	"fmt"
	"slices"

	"stillbeat/board"
)

// IDOf names a finding of a kind about a panel, 0 for the film. It stays the
// same however the panels are moved and numbered.
func IDOf(kind Kind, panel board.PanelID) string { return fmt.Sprintf("%s:%d", kind, panel) }

// finish puts findings into order, tells those of one name apart and fills in
// numbers and what was dismissed.
func finish(b board.Board, all []Finding) {
	numbers := make(map[board.PanelID]string, len(b.Panels))
	for i, n := range b.Numbers() {
		numbers[b.Panels[i].ID] = n
	}
	dismissed := make(map[string]bool, len(b.Dismissed))
	for _, id := range b.Dismissed {
		dismissed[id] = true
	}
	slices.SortStableFunc(all, func(x, y Finding) int {
		return cmp.Or(
			cmp.Compare(slices.Index(Severities, x.Severity), slices.Index(Severities, y.Severity)),
			cmp.Compare(x.Span.Start, y.Span.Start),
			cmp.Compare(x.ID, y.ID))
	})
	times := make(map[string]int, len(all))
	for i := range all {
		f := &all[i]
		if times[f.ID]++; times[f.ID] > 1 {
			f.ID = fmt.Sprintf("%s~%d", f.ID, times[f.ID])
		}
		f.Number, f.Dismissed = numbers[f.Panel], dismissed[f.ID]
	}
}

// Group is the findings of one kind.
type Group struct {
	Kind     Kind
	Findings []Finding
}

// Groups sorts findings by kind; the group with the worst comes first, and
// each keeps the order it has.
func Groups(all []Finding) []Group {
	var out []Group
	for _, f := range all {
		k := slices.IndexFunc(out, func(g Group) bool { return g.Kind == f.Kind })
		if k < 0 {
			k, out = len(out), append(out, Group{Kind: f.Kind})
		}
		out[k].Findings = append(out[k].Findings, f)
	}
	return out
}

// Open returns the findings that were not dismissed.
func Open(all []Finding) []Finding {
	return slices.DeleteFunc(slices.Clone(all), func(f Finding) bool { return f.Dismissed })
}

// Cautions returns what must go with the film when it is shown or shared, each
// once, whether or not its findings were dismissed.
func Cautions(all []Finding) []string {
	var out []string
	for _, f := range all {
		if f.Caution != "" && !slices.Contains(out, f.Caution) {
			out = append(out, f.Caution)
		}
	}
	return out
}
