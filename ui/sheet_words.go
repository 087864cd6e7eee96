package ui

// words are those in sight that are not painted.
func (v *sheetView) words(p pen, top float64, out []wallText) []wallText {
	from := len(out)
	all := v.allWords(p, top, out)
	out = all[:from]
	for _, t := range all[from:] {
		if !isLatin(t.s) {
			out = append(out, t)
		}
	}
	return out
}

// allWords appends all words in sight but figures: names of shots and of panels,
// what runs down the rows, where things are.
func (v *sheetView) allWords(p pen, top float64, out []wallText) []wallText {
	if len(v.rows) == 0 {
		return out
	}
	for _, c := range v.columns {
		if title := v.titleOf(c, v.firstRow(top)); !isLatin(title) { // the others are painted
			out = append(out, wallText{c.x + sheetInset, 15, c.right - c.x - sheetInset, 10.5, false, inkSoft, title})
		}
	}
	first, last := v.inSight(top)
	seen := [running]int{}
	for c := range seen {
		seen[c] = -1
	}
	for line := first; line < last; line++ {
		y := sheetHeadH + float64(line)*sheetRowH - top
		row, named := v.rowAt(line)
		if row >= len(v.rows) {
			break
		}
		if named {
			out = append(out, wallText{sheetInset, y + 13, v.width - 2*sheetInset, 11.5, true, ink, v.shots[v.rows[row].Shot]})
			continue
		}
		for _, c := range v.columns {
			switch {
			case c.kind == moveCell:
				if words := v.moveWords(row, c.slot); words != "" {
					out = append(out, wallText{c.x + sheetInset, y + 13, c.right - c.x - 2*sheetInset, sheetText, false, ink, words})
				}
			case c.run >= 0 && v.begins[c.run][row] != seen[c.run]:
				seen[c.run] = v.begins[c.run][row]
				out = v.runDown(p, c, row, y, out)
			}
		}
	}
	return out
}

// runDown writes the words that run down to a row, the first of theirs in
// sight at y. Where they begin so far above that nothing of them is left to be
// seen, they stand there softly once more, as on a new page.
func (v *sheetView) runDown(p pen, c sheetColumn, row int, y float64, out []wallText) []wallText {
	begin, end := v.begins[c.run][row], v.ends[c.run][row]
	r := v.rows[begin]
	x, room := c.x+sheetInset, c.right-c.x-2*sheetInset
	if c.run != panelRun && c.run != noteRun {
		x, room = x+5, room-5
	}
	words, colour, indent := runWords(c.run, r), ink, 0.0
	if c.kind == soundCell && words == "" && r.SoundLasts {
		words = v.board.Panels[r.Panel].Sound
	}
	if words == "" && c.run != panelRun {
		return out
	}
	if c.run == panelRun {
		indent = max(20, p.width(sheetText, true, "("+r.Number+")")+6)
	}
	lines := v.wrap(p, words, room-indent)
	if n := end - begin; len(lines) > n {
		lines = append(lines[:n-1:n-1], lines[n-1]+"…")
	}
	skip, number := row-begin, r.Number
	if skip >= max(1, len(lines)) { // all of it is above
		if c.run == noteRun {
			return out // it is of one row
		}
		lines, colour, number, skip = lines[:min(1, len(lines))], inkSoft, "("+number+")", 0
	}
	if c.run == panelRun && skip == 0 {
		out = append(out, wallText{x, y + 13, min(room, indent), sheetText, true, colour, number})
	}
	for k, line := range lines[min(skip, len(lines)):] {
		if line != "" && room-indent > 8 {
			out = append(out, wallText{x + indent, y + float64(k)*sheetRowH + 13, room - indent, sheetText, false, colour, line})
		}
	}
	return out
}
