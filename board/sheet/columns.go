package sheet

import "slices"

// column is a column on paper, in millimetres.
type column struct {
	title    string
	x, right float64
}

// The columns, from left to right; those of the caller's come after poses.
const (
	frameColumn = iota
	exposureColumn
	timeColumn
	beatColumn
	accentColumn
	soundColumn
	panelColumn
	poseColumn
	cameraColumn
	marksColumn
	noteColumn
	tickColumn
)

// printed are the columns with the least width each has and how it shares in
// what is left.
var printed = []struct {
	title       string
	wide, share float64
}{
	{"frame", 9, 0}, {"exp.", 9, 0}, {"time", 16, 0}, {"bar", 9, 0}, {"acc.", 7, 0}, {"sound", 14, 3},
	{"panel and action", 18, 5}, {"pose", 8, 0}, {"camera", 14, 2}, {"marks", 11, 0}, {"notes", 14, 3}, {"done", 7, 0},
}

// narrowest is the least width of a column of the caller's.
const narrowest = 6.0

// layColumns places the columns between two edges. Those of the caller follow
// those of the sheet in the list, each as wide as it is said to need, less
// where there is no room for that.
func layColumns(more []Column, needs []float64, left, right float64) []column {
	wide, shares := 0.0, 0.0
	for _, c := range printed {
		wide += c.wide
		shares += c.share
	}
	room, need := right-left-wide, 0.0
	for _, n := range needs {
		need += max(narrowest, n)
	}
	less := 1.0
	if need > room {
		less = room / need
	}
	room -= need * less
	out := make([]column, len(printed), len(printed)+len(more))
	x := left
	put := func(title string, wide float64) column {
		c := column{title, x, x + wide}
		x = c.right
		return c
	}
	for i, c := range printed {
		out[i] = put(c.title, c.wide+room*c.share/shares)
		if i == poseColumn {
			for k, m := range more {
				out = append(out, put(m.Title, max(narrowest, needs[k])*less))
			}
		}
	}
	return out
}

// used returns the caller's columns in which something stands in one of the
// rows, by their places in Options.Columns.
func used(rows []Row) (places []int) {
	if len(rows) == 0 {
		return nil
	}
	for k := range rows[0].Columns {
		if slices.ContainsFunc(rows, func(r Row) bool { return r.Columns[k] != "" }) {
			places = append(places, k)
		}
	}
	return places
}

// setColumns lays the columns of a page: of the caller's those alone that say
// something on it, so wide that their words fit.
func (d *printer) setColumns(rows []Row) {
	d.used = used(rows)
	var more []Column
	var needs []float64
	for _, k := range d.used {
		c := d.o.Columns[k]
		need := d.Width(c.Title, titles)
		for _, r := range rows {
			need = max(need, d.Width(r.Columns[k], d.words))
		}
		more, needs = append(more, c), append(needs, need+2*inset+0.2)
	}
	d.columns = layColumns(more, needs, d.left, d.right)
}
