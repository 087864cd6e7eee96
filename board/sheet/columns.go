package sheet

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

// widest is the width of a column of the caller's where there is room.
const widest, narrowest = 16.0, 6.0

// layColumns places the columns between two edges. The caller's follow those of
// the sheet in the list.
func layColumns(more []Column, left, right float64) []column {
	wide, shares := 0.0, 0.0
	for _, c := range printed {
		wide += c.wide
		shares += c.share
	}
	room := right - left - wide
	each := 0.0
	if len(more) > 0 {
		each = max(narrowest, min(widest, room*0.8/float64(len(more))))
		room = max(0, room-each*float64(len(more)))
	}
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
			for _, m := range more {
				out = append(out, put(m.Title, each))
			}
		}
	}
	return out
}
