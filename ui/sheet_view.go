package ui

import (
	"fmt"
	"sort"

	"fyne.io/fyne/v2"

	"stillbeat/board"
	"stillbeat/board/sheet"
)

// sheetView is all the exposure sheet shows, as plain data: it is painted
// without a window and tested so. Places are in units of text.
type sheetView struct {
	OnSeek func(f board.Frame)
	OnNote func() // double click on the row of the playhead

	width, height float64
	board         board.Board
	rate          board.FrameRate
	moves         []sheet.Column
	inShot        map[int][]shotMove // what moves in a shot
	slots         int                // columns of moves: as many as move in one shot
	exposures     bool               // a row for each exposure
	rows          []sheet.Row
	shots         []string       // what each is called and how long it is
	headed        bool           // there are several shots: each has a line of its own over its rows
	begins        [running][]int // of each row, the row on which the words began that run down to it
	ends          [running][]int // and the row after the last one they run down to
	columns       []sheetColumn  // that there is room for, from left to right
	at            board.Frame    // the playhead
	texts         []wallText     // kept from one painting to the next for its room
	wraps         map[wrapKey][]string
}

// Measures of the sheet.
const (
	sheetRowH  = 18.0
	sheetHeadH = 22.0 // titles of the columns
	sheetText  = 11.0
	sheetInset = 5.0 // between a column's line and its words
)

// setBoard shows a film, in rows of its own kind.
func (v *sheetView) setBoard(b board.Board) {
	v.board, v.rate, v.moves = b, b.Rate, sheet.MoveColumns(b)
	v.wraps = map[wrapKey][]string{}
	v.lay()
}

// setExposures shows a row for each exposure, or for each frame.
func (v *sheetView) setExposures(on bool) {
	v.exposures = on
	v.lay()
}

func (v *sheetView) options() sheet.Options {
	return sheet.Options{Exposures: v.exposures, Columns: v.moves}
}

// lay makes the rows.
func (v *sheetView) lay() {
	v.rows, _ = sheet.Rows(v.board, v.options()) // all shots are there, and no more columns than fit
	v.shots = v.shots[:0]
	v.headed = len(v.board.Shots()) > 2 || len(v.board.Panels) > 0 && v.board.Panels[0].Heading != ""
	if v.headed {
		v.nameShots()
	}
	for c := range v.begins {
		v.begins[c], v.ends[c] = v.runs(c)
	}
	v.laySlots()
	v.layColumns()
}

// nameShots writes what stands over each shot.
func (v *sheetView) nameShots() {
	starts, shots := v.board.Starts(), v.board.Shots()
	for s, name := range sheet.ShotNames(v.board) {
		words := "Shot " + name
		if h := v.board.Panels[shots[s]].Heading; h != "" {
			words += "  " + h
		}
		frames, taken := starts[shots[s+1]]-starts[shots[s]], int64(0)
		for i := shots[s]; i < shots[s+1]; i++ {
			step := board.Frame(v.board.StepOf(i))
			taken += int64((starts[i+1] - starts[i] + step - 1) / step)
		}
		v.shots = append(v.shots, fmt.Sprintf("%s  ·  %d f · %d %s", words, frames, taken, plural(taken, "exposure")))
	}
}

// lineOf returns on which line of the sheet a row stands: over the first row of
// each shot is one with its name.
func (v *sheetView) lineOf(row int) int {
	if !v.headed || row >= len(v.rows) {
		return row + len(v.shots)
	}
	return row + v.rows[row].Shot + 1
}

// rowAt returns the row on a line; on the line of a shot's name named is true
// and row the first of the shot.
func (v *sheetView) rowAt(line int) (row int, named bool) {
	if !v.headed {
		return line, false
	}
	row = sort.Search(len(v.rows), func(r int) bool { return v.lineOf(r) >= line })
	return row, row < len(v.rows) && v.lineOf(row) != line
}

// rowOf returns the row a frame is in, -1 for none.
func (v *sheetView) rowOf(f board.Frame) int {
	i := sort.Search(len(v.rows), func(i int) bool { return v.rows[i].Frame > f }) - 1
	if i < 0 || f >= v.rows[i].Frame+v.rows[i].Frames {
		return -1
	}
	return i
}

// y returns where a row begins, from the top of the sheet.
func (v *sheetView) y(row int) float64 { return sheetHeadH + float64(v.lineOf(row))*sheetRowH }

func (v *sheetView) long() float64 {
	return sheetHeadH + float64(len(v.rows)+len(v.shots))*sheetRowH + 4
}

func (v *sheetView) head() float64 { return sheetHeadH }

func (v *sheetView) resize(w, h float64) {
	if w != v.width {
		v.wraps = map[wrapKey][]string{}
	}
	v.width, v.height = w, h
	v.layColumns()
}

// under returns the row at y, the first of a shot on the line of its name, -1
// for none.
func (v *sheetView) under(y float64) int {
	row, _ := v.rowAt(int((y - sheetHeadH) / sheetRowH))
	if y < sheetHeadH || row < 0 || row >= len(v.rows) {
		return -1
	}
	return row
}

func (v *sheetView) press(x, y float64, twice bool, _ fyne.KeyModifier) bool {
	row := v.under(y)
	if row < 0 {
		return false
	}
	if twice {
		if v.OnNote != nil {
			v.OnNote()
		}
		return false
	}
	v.seek(row)
	return true
}

func (v *sheetView) drag(_, y float64) {
	if row := v.under(y); row >= 0 {
		v.seek(row)
	}
}

// seek takes the playhead to a row, unless it is there.
func (v *sheetView) seek(row int) {
	if v.OnSeek != nil && v.rowOf(v.at) != row {
		v.OnSeek(v.rows[row].Frame)
	}
}

const sheetHint = "A click takes the playhead there; a double click or Return writes a note on the frame."

// hint says what is under the pointer, in full.
func (v *sheetView) hint(x, y float64) string {
	row := v.under(y)
	c := v.columnAt(x)
	if row < 0 || c == nil {
		return sheetHint
	}
	if k := c.run; k >= 0 {
		row = v.begins[k][row]
		if words := runWords(k, v.rows[row]); words != "" {
			return c.title + ": " + oneLine(words)
		}
	}
	if c.kind == moveCell {
		if object, words := v.moving(row, c.slot); words != "" {
			return object + ": " + words
		}
	}
	if c.hint != "" {
		return c.hint
	}
	return sheetHint
}
