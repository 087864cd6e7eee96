package board

import (
	"fmt"
	"slices"
	"strings"
)

// known returns for each picture of a list the panel that it is, -1 for none.
func (b Board) known(cues []Cue, numbers []string) []int {
	byID, byNumber := map[PanelID]int{}, map[string]int{}
	for i, n := range numbers {
		byID[b.Panels[i].ID] = i
		if _, twice := byNumber[n]; !twice {
			byNumber[n] = i
		}
	}
	out, any := make([]int, len(cues)), false
	for k, c := range cues {
		i, found := byID[c.ID]
		if !found {
			i, found = byNumber[c.Number]
		}
		if !found {
			i = -1
		}
		out[k], any = i, any || found
	}
	if !any {
		next := 0
		for k, c := range cues {
			if !c.Gap && next < len(b.Panels) {
				out[k] = next
				next++
			}
		}
	}
	return out
}

// taken returns the board's markers with those of a list: one that is there
// under the same name moves, others are added.
func (b Board) taken(marks []Mark) []Marker {
	out := slices.Clone(b.Markers)
	used := make([]bool, len(out))
	find := func(fits func(Marker) bool) int {
		for i, m := range out[:len(used)] {
			if !used[i] && fits(m) {
				used[i] = true
				return i
			}
		}
		return -1
	}
	var rest []Mark
	for _, m := range marks {
		f := b.Rate.Nearest(m.At)
		if find(func(o Marker) bool { return o.Name == m.Name && b.Frame(o.Start) == f }) < 0 {
			rest = append(rest, m)
		}
	}
	for _, m := range rest {
		f, own := b.Rate.Nearest(m.At), Start{}
		i := find(func(o Marker) bool { return o.Name == m.Name && m.Name != "" })
		if i >= 0 {
			own = out[i].Start
		} else {
			i, out = len(out), append(out, Marker{Name: m.Name})
		}
		if m.Was != nil && b.Frame(*m.Was) == f {
			out[i].Start = *m.Was
		} else {
			out[i].Start = b.landed(f, own, Span{f, f + 1})
		}
	}
	return out
}

// called returns what to call a picture of a list.
func (c Cue) called(r FrameRate) string {
	name := strings.Join(strings.Fields(c.Number), " ")
	if name == "" {
		name = strings.Join(strings.Fields(c.Words["title"]), " ")
	}
	if name == "" {
		return "the picture at " + r.Timecode(r.Nearest(c.At))
	}
	return fmt.Sprintf("%.40q", name)
}

// some returns the first of a list of names.
func some(names []string) string {
	const shown = 5
	if len(names) <= shown {
		return strings.Join(names, ", ")
	}
	return strings.Join(names[:shown], ", ") + " ..."
}
