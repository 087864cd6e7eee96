package sheet

import (
	"strings"

	"stillbeat/board"
	"stillbeat/board/motion"
)

// MoveColumns makes a column for each object that moves, of where it is at each
// exposure in millimetres. Objects beyond the room share the last column.
func MoveColumns(b board.Board) []Column {
	var names []string
	of := map[string][]motion.Table{}
	for _, t := range motion.Tables(b, motion.Limits{}) {
		name := t.Move.Object
		if _, known := of[name]; !known {
			names = append(names, name)
		}
		of[name] = append(of[name], t)
	}
	var out []Column
	for k, name := range names {
		tables, title := of[name], name
		if name == "" {
			title = "object"
		}
		last := k == MaxColumns-1
		if last && len(names) > MaxColumns {
			title = "others"
			for _, more := range names[k+1:] {
				tables = append(tables, of[more]...)
			}
		}
		named := title == "others"
		out = append(out, Column{Title: title, Words: func(f board.Frame) string {
			var words []string
			for _, t := range tables {
				if r, ok := t.At(f); ok && r.Frame == f {
					words = append(words, t.Words(r, named))
				}
			}
			return strings.Join(words, "; ")
		}})
		if last {
			break
		}
	}
	return out
}
