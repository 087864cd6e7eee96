package ui

// cellKind says what stands in a column of the sheet.
type cellKind int

const (
	frameCell cellKind = iota
	exposureCell
	timeCell
	beatCell
	accentCell
	soundCell
	panelCell
	poseCell
	moveCell
	cameraCell
	marksCell
	noteCell
	tickCell
)

// Columns of which the words run down the rows.
const (
	soundRun = iota
	panelRun
	cameraRun
	marksRun
	noteRun
	running // how many there are
)

// sheetColumn is a column of the sheet where it stands.
type sheetColumn struct {
	kind        cellKind
	title, hint string
	x, right    float64
	run         int // which of the running columns it is, -1: none
	slot        int // of those with moves, which
}

// sheetColumns are all but those of moves, with the least width each has, how
// it shares in what is left, and how soon it goes where there is no room: 0 for
// never.
var sheetColumns = []struct {
	sheetColumn
	wide, share float64
	goes        int
}{
	{sheetColumn{kind: frameCell, title: "frame", hint: "The frame of the film, from 0.", run: -1}, 50, 0, 0},
	{sheetColumn{kind: exposureCell, title: "exp.", hint: "The exposure of the film, from 1; where it is held there is none.", run: -1}, 46, 0, 4},
	{sheetColumn{kind: timeCell, title: "time", hint: "Timecode, or a count where the rate has none.", run: -1}, 84, 0, 2},
	{sheetColumn{kind: beatCell, title: "bar", hint: "Bar and beat of the music.", run: -1}, 48, 0, 0},
	{sheetColumn{kind: accentCell, title: "acc.", hint: "A diamond where a bar begins, a cross where a sound does.", run: -1}, 34, 0, 3},
	{sheetColumn{kind: soundCell, title: "sound", run: soundRun}, 60, 3, 0},
	{sheetColumn{kind: panelCell, title: "panel and action", run: panelRun}, 110, 5, 0},
	{sheetColumn{kind: poseCell, title: "pose", hint: "The exposure within the panel; the line says that it is held, X that nothing is on the panel.", run: -1}, 40, 0, 0},
	{sheetColumn{kind: cameraCell, title: "camera", run: cameraRun}, 56, 2, 0},
	{sheetColumn{kind: marksCell, title: "marks", hint: "What the shoot needs: rig, effect, plate, still.", run: marksRun}, 56, 1, 0},
	{sheetColumn{kind: noteCell, title: "notes", run: noteRun}, 70, 3, 0},
	{sheetColumn{kind: tickCell, title: "done", hint: "A box to tick on paper.", run: -1}, 38, 0, 1},
}

// Widths of the column of a move.
const leastMove, mostMove = 64.0, 230.0

// layColumns places the columns in the width there is. Where they do not fit,
// those that say least go first.
func (v *sheetView) layColumns() {
	v.columns = v.columns[:0]
	room, shares, gone := v.width-float64(v.slots)*leastMove, 0.0, 0
	for _, c := range sheetColumns {
		room -= c.wide
		shares += c.share
	}
	for ; room < 0 && gone < 4; gone++ {
		for _, c := range sheetColumns {
			if c.goes == gone+1 {
				room += c.wide
			}
		}
	}
	room = max(0, room)
	each := leastMove
	if n := float64(v.slots); n > 0 {
		each = min(mostMove, leastMove+room*0.5/n)
		room -= (each - leastMove) * n
	}
	x := 0.0
	put := func(c sheetColumn, wide float64) {
		c.x, c.right = x, x+wide
		x += wide
		v.columns = append(v.columns, c)
	}
	for _, c := range sheetColumns {
		if c.goes > 0 && c.goes <= gone {
			continue
		}
		put(c.sheetColumn, c.wide+room*c.share/shares)
		if c.kind != poseCell {
			continue
		}
		for k := range v.slots {
			put(sheetColumn{kind: moveCell, run: -1, slot: k}, each)
		}
	}
}

func (v *sheetView) columnAt(x float64) *sheetColumn {
	for k := range v.columns {
		if c := &v.columns[k]; x >= c.x && x < c.right {
			return c
		}
	}
	return nil
}

// column returns the column of a kind, the last one where it has no room.
func (v *sheetView) column(kind cellKind) sheetColumn {
	for _, c := range v.columns {
		if c.kind == kind {
			return c
		}
	}
	return v.columns[len(v.columns)-1]
}
