package check

import (
	"fmt"
	"slices"

	"stillbeat/board"
)

// unread finds lettering that is gone before it can be read. Words that stay
// the same over several panels are read over all of them.
func (l look) unread() []Finding {
	var out []Finding
	for i := 0; i < len(l.Panels); {
		last := i
		for last+1 < len(l.Panels) && sameWords(l.Panels[i], l.Panels[last+1]) {
			last++
		}
		need, held := l.ReadingTime(i, l.Reading), l.starts[last+1]-l.starts[i]
		if held < need {
			f := l.at(Reading, i, last)
			f.Severity = Fault
			f.What = fmt.Sprintf("shows its words for %s: they take %s to read", frames(held), frames(need))
			f.Why = "Words that are gone too soon are missed, and the picture with them."
			f.Source = "BBC and titlevision.dk on subtitles: 170 words a minute, 15 characters a second; titles twice, common practice"
			if l.Reading != (board.Reading{}) {
				f.Source = "the speed of reading that was asked for"
			}
			f.Mend = l.longer(last, need-(l.starts[last]-l.starts[i]))
			out = append(out, f)
		}
		i = last + 1
	}
	return out
}

// sameWords reports whether two panels have the same words on the screen.
func sameWords(p, q board.Panel) bool {
	a, b := p.Drawing().Lettering, q.Drawing().Lettering
	return len(a) > 0 && slices.EqualFunc(a, b, func(x, y board.Letter) bool { return x.Text == y.Text && x.Kind == y.Kind })
}

// numbered finds panels that have the number of one before them.
func (l look) numbered() []Finding {
	var out []Finding
	first := map[board.Numbers]int{}
	all := l.AllNumbers()
	for i, n := range all {
		k, twice := first[n]
		if !twice {
			first[n] = i
			continue
		}
		f := l.at(TwoNumbers, i, i)
		f.Severity = Fault
		f.What = fmt.Sprintf("has the same number as the panel at frame %d", l.starts[k])
		f.Why = "Files and sheets of the shoot go by the numbers: two of one are mixed up."
		f.Source = "common practice"
		f.Mend = l.recounted(i)
		out = append(out, f)
	}
	return out
}

// recounted returns an edit that lets numbers be counted again so that panel i
// has one of its own: its own number, else that of its shot, else of its scene.
func (l look) recounted(i int) *board.Edit {
	opens := func(from []int) int {
		k, _ := slices.BinarySearch(from, i+1)
		return from[k-1]
	}
	set := []int{i}
	for _, more := range [][]int{nil, {opens(l.Shots())}, {opens(l.Scenes())}} {
		set = append(set, more...)
		e := board.CountNumbers(set)
		if out, err := e.Apply(l.Board); err == nil && !slices.Contains(out.TwiceNumbered(), i) {
			return &e
		}
	}
	return nil
}
