package file

import (
	"context"
	"database/sql"
	"fmt"
	"slices"
	"strings"

	"stillbeat/board"
)

// wreck is a damaged film while it is read. Whatever is asked of SQLite is
// asked in few rows, each found by itself or one after the other without a
// filter, since a damaged table can lead it in circles; what comes back counts
// only if its hash is right.
type wreck struct {
	ctx   context.Context
	db    *sql.DB
	pages int64 // of the file

	tables   map[string]bool // that are defined as a film's
	first    bool            // they are those of the first version, which had no history
	steps    []row           // of the history that can be read, oldest first
	allSteps bool            // and these are all

	settings map[string]string
	now      text // of the board that is shown; empty: there is none
	at       board.StepID
	rows     []row // of the history that lead to and from it
	past     board.Past
	media    []medium
	place    map[board.MediaID]int64
	lost     []string
}

func (r *wreck) say(format string, args ...any) {
	r.lost = append(r.lost, fmt.Sprintf(format, args...))
}

// findTables notes which tables are defined as in a film, of any version: of
// others nothing is read, for a view could run without end.
func (r *wreck) findTables() error {
	want := map[string]bool{}
	for v := 1; v <= len(migrations); v++ {
		schema, err := madeSchema(v)
		if err != nil {
			return err
		}
		for _, line := range schema {
			want[line] = true
		}
	}
	r.tables = map[string]bool{}
	r.list(`SELECT type, name, tbl_name, coalesce(sql, '') FROM sqlite_schema LIMIT 100`, func(rows *sql.Rows) error {
		var kind, name, table, statement string
		err := rows.Scan(&kind, &name, &table, &statement)
		if want[schemaLine(kind, name, table, statement)] {
			r.tables[name] = true
			r.first = r.first || name == "board" && !strings.Contains(statement, "step")
		}
		return err
	})
	return nil
}

// list runs a query and hands each row to take until there is an error. It
// reports whether it came to the end.
func (r *wreck) list(query string, take func(*sql.Rows) error) bool {
	rows, err := r.db.QueryContext(r.ctx, query)
	if err != nil {
		return false
	}
	defer rows.Close()
	for rows.Next() {
		if take(rows) != nil {
			return false
		}
	}
	return rows.Err() == nil
}

// both lists a table from its end and, if that meets damage, from its start
// too. It reports whether it came through.
func (r *wreck) both(query, order string, most int, take func(*sql.Rows) error) bool {
	if r.list(fmt.Sprintf("%s ORDER BY %s DESC LIMIT %d", query, order, most), take) {
		return true
	}
	r.list(fmt.Sprintf("%s ORDER BY %s LIMIT %d", query, order, most), take)
	return false
}

// blob returns one value of one row, nil if it cannot be read.
func (r *wreck) blob(query string, args ...any) (data []byte) {
	if r.db.QueryRowContext(r.ctx, query, args...).Scan(&data) != nil {
		return nil
	}
	return data
}

const maxSettings = 1000

func (r *wreck) readSettings() {
	r.settings = map[string]string{}
	all := r.tables["setting"] && r.both(fmt.Sprintf(`SELECT iif(octet_length(key) + octet_length(value) <= %d, key, ''), value FROM setting`, maxSetting),
		"rowid", maxSettings, func(rows *sql.Rows) error {
			var key, value string
			err := rows.Scan(&key, &value)
			if err == nil && key != "" {
				r.settings[key] = value
			}
			return err
		})
	if !all {
		r.say("some settings are lost, such as where the film was left")
	}
}

// readSteps lists the steps of the history. A film of the first version has
// none.
func (r *wreck) readSteps() {
	if !r.tables["history"] || !r.tables["patch"] {
		return
	}
	r.allSteps = r.both(fmt.Sprintf(`SELECT id, iif(octet_length(name) + octet_length(before) + octet_length(after) <= %d, name, ''), before, after FROM history`, maxName),
		"id", board.MaxHistory, func(rows *sql.Rows) error {
			var s row
			err := rows.Scan(&s.id, &s.name, &s.before, &s.after)
			if err == nil && len(s.before) == hashSize && len(s.after) == hashSize {
				r.steps = append(r.steps, s)
			}
			return err
		})
	slices.SortFunc(r.steps, func(a, b row) int { return int(a.id - b.id) })
	r.steps = slices.CompactFunc(r.steps, func(a, b row) bool { return a.id == b.id })
}
