package ui

// shotMove is an object that moves in a shot: its place among the columns of
// moves, and the row on which it begins to.
type shotMove struct{ move, row int }

// laySlots finds what moves in each shot. The sheet has as many columns as move
// in one, so that those of other shots take no room from it.
func (v *sheetView) laySlots() {
	v.inShot, v.slots = map[int][]shotMove{}, 0
	if len(v.moves) == 0 {
		return
	}
	seen := map[[2]int]bool{}
	for i, r := range v.rows {
		for k, words := range r.Columns {
			if words == "" || seen[[2]int{r.Shot, k}] {
				continue
			}
			seen[[2]int{r.Shot, k}] = true
			v.inShot[r.Shot] = append(v.inShot[r.Shot], shotMove{k, i})
		}
		v.slots = max(v.slots, len(v.inShot[r.Shot]))
	}
}

// moving returns what moves in a slot of a row's shot, and what is said of it
// on the row.
func (v *sheetView) moving(row, slot int) (object, words string) {
	in := v.inShot[v.rows[row].Shot]
	if slot >= len(in) {
		return "", ""
	}
	return v.moves[in[slot].move].Title, v.rows[row].Columns[in[slot].move]
}

// moveWords returns what is written in a slot of a row: with the object's name
// where it begins to move, unless that stands over the sheet for good.
func (v *sheetView) moveWords(row, slot int) string {
	object, words := v.moving(row, slot)
	if words != "" && v.headed && v.inShot[v.rows[row].Shot][slot].row == row {
		return object + ": " + words
	}
	return words
}

// titleOf returns the title of a column where a row is the first in sight.
func (v *sheetView) titleOf(c sheetColumn, row int) string {
	if c.kind != moveCell {
		return c.title
	}
	if object, _ := v.moving(row, c.slot); object != "" {
		return object
	}
	return "moves"
}

// firstRow returns the first row in sight from top on, of at least one.
func (v *sheetView) firstRow(top float64) int {
	row, _ := v.rowAt(max(0, int(top/sheetRowH)))
	return min(row, len(v.rows)-1)
}
