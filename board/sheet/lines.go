package sheet

import (
	"strconv"
	"strings"

	"stillbeat/board"
)

// ruling says where seconds begin and which rows have a heavy line. Both go by
// the labels that are printed: a second begins where they say so.
type ruling struct {
	rate  board.FrameRate
	heavy int
}

// newRuling rules for a rate: a heavy line each third of a second where that
// is whole frames, as each 8 rows at 24 fps (half a foot of 35 mm film, three
// to a second), else each fifth, as each 5 at 25, else each half; at other
// rates each second alone. All but 24 fps is our own choice.
func newRuling(r board.FrameRate) ruling {
	n := int(r.Nominal())
	for _, parts := range []int{3, 5, 2} {
		if n%parts == 0 {
			return ruling{r, n / parts}
		}
	}
	return ruling{r, n}
}

// place returns the second a frame's label names, and the stretch between heavy
// lines within it.
func (u ruling) place(f board.Frame) (second string, stretch int) {
	label := u.rate.Timecode(f)
	i := strings.LastIndexAny(label, ":;+")
	frames, _ := strconv.Atoi(label[i+1:])
	return label[:i], frames / u.heavy
}

// Line is how heavy the line over a row is.
type Line int

// The lines.
const (
	Thin   Line = iota
	Heavy       // a part of a second begins, see newRuling
	Second      // a second does
)

// LineOver returns the line between a row that begins on one frame and the next
// row, which begins on another.
func LineOver(r board.FrameRate, above, below board.Frame) Line {
	return newRuling(r).over(above, below)
}

func (u ruling) over(above, below board.Frame) Line {
	before, last := u.place(above)
	switch second, stretch := u.place(below); {
	case second != before:
		return Second
	case stretch != last:
		return Heavy
	}
	return Thin
}

// usualLines returns the rows of a page: as many whole seconds as there are in
// 100 rows, so 96 at 24 fps and 100 at 25.
func usualLines(r board.FrameRate) int {
	n := int(r.Nominal())
	if n > 100 {
		return 100
	}
	return 100 / n * n
}

// pages cuts rows into pages of at most lines, each of one shot, that end where
// a second does if one ends on the page.
func (u ruling) pages(rows []Row, lines int) [][]Row {
	var out [][]Row
	for len(rows) > 0 {
		n := 1
		for n < len(rows) && n < lines && rows[n].Shot == rows[0].Shot {
			n++
		}
		if n == lines && n < len(rows) && rows[n].Shot == rows[0].Shot {
			n = u.secondsEnd(rows, n)
		}
		out = append(out, rows[:n])
		rows = rows[n:]
	}
	return out
}

// secondsEnd returns the last of the first n rows' ends at which a second ends,
// n if there is none.
func (u ruling) secondsEnd(rows []Row, n int) int {
	for k := n; k > 0; k-- {
		before, _ := u.place(rows[k-1].Frame)
		if after, _ := u.place(rows[k].Frame); before != after {
			return k
		}
	}
	return n
}
