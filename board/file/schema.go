package file

import (
	"database/sql"
	"fmt"
	"slices"
	"strings"
)

// applicationID marks a SQLite file as a film: the letters "Stlb". It stands
// in bytes 68 to 71 of the file ("Database File Format", section 1.3).
const applicationID = 0x53746c62

// migrations lead from one schema version to the next: migrations[0] makes
// version 1 of an empty file. A released step is never changed, only
// followed by another. A new field in the board's JSON is a new version too,
// even with no statement: an older program would drop what it cannot read.
// A version that writes an old board in other JSON has to delete the history,
// which leads from one JSON to the next.
//
// The bytes of pictures and songs, the patches of the history and the spare
// boards lie in tables of their own, so that all other tables are small and
// can be checked at every opening.
var migrations = [][]string{
	{
		`CREATE TABLE grid (hash BLOB PRIMARY KEY, json BLOB NOT NULL) STRICT`,
		`CREATE TABLE board (id INTEGER PRIMARY KEY CHECK (id = 1), hash BLOB NOT NULL,
			grid BLOB NOT NULL REFERENCES grid (hash), json BLOB NOT NULL) STRICT`,
		`CREATE TABLE media (id TEXT PRIMARY KEY, kind TEXT NOT NULL, name TEXT NOT NULL) STRICT`,
		`CREATE TABLE content (id TEXT PRIMARY KEY REFERENCES media (id) ON DELETE CASCADE, data BLOB NOT NULL) STRICT`,
		`CREATE TABLE setting (key TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT`,
	},
	{
		`ALTER TABLE board ADD COLUMN step INTEGER NOT NULL DEFAULT 0`,
		`CREATE TABLE history (id INTEGER PRIMARY KEY, name TEXT NOT NULL, before BLOB NOT NULL, after BLOB NOT NULL) STRICT`,
		`CREATE TABLE patch (id INTEGER PRIMARY KEY REFERENCES history (id) ON DELETE CASCADE, data BLOB NOT NULL) STRICT`,
		`CREATE TABLE spare (id INTEGER PRIMARY KEY, hash BLOB NOT NULL, data BLOB NOT NULL) STRICT`,
		`CREATE TABLE waveform (id TEXT PRIMARY KEY REFERENCES media (id) ON DELETE CASCADE, data BLOB NOT NULL) STRICT`,
	},
	{ // what the shoot needs is in the board's JSON
		`CREATE TABLE alike (id TEXT PRIMARY KEY REFERENCES media (id) ON DELETE CASCADE, base TEXT NOT NULL, data BLOB NOT NULL) STRICT`,
	},
}

// withHistory is the first version whose films have a history.
const withHistory = 2

// smallTables are checked at every opening, as far as the film's version has
// them; "sqlite_schema" stands for the schema itself and the list of free
// pages.
var smallTables = []string{"sqlite_schema", "grid", "board", "media", "setting", "history"}

// migrate brings a film from schema version have to version want.
func migrate(tx *sql.Tx, have, want int) error {
	for _, step := range migrations[have:want] {
		for _, statement := range step {
			if _, err := tx.Exec(statement); err != nil {
				return err
			}
		}
	}
	if have == want {
		return nil
	}
	_, err := tx.Exec(fmt.Sprintf(`PRAGMA user_version = %d`, want))
	return err
}

// version returns the schema version, if this program knows it.
func version(tx *sql.Tx) (int, error) {
	var v int
	if err := tx.QueryRow(`PRAGMA user_version`).Scan(&v); err != nil {
		return 0, err
	}
	return v, checkVersion(v)
}

func checkVersion(v int) error {
	switch {
	case v > len(migrations):
		return fmt.Errorf("%w (its version is %d, this program knows up to %d)", ErrNewer, v, len(migrations))
	case v < 1:
		return damaged("it has no version")
	}
	return nil
}

// checkSchema refuses a database whose tables are damaged or not exactly
// those of a film of that version: a film comes by mail, and a trigger or
// view in it would run here.
func checkSchema(tx *sql.Tx, version int) error {
	want, err := madeSchema(version)
	if err != nil {
		return err
	}
	got, err := schemaOf(tx)
	if err != nil {
		return err
	}
	if !slices.Equal(got, want) {
		return damaged("its tables are not those of a film")
	}
	for _, table := range smallTables {
		if table != "sqlite_schema" && !defines(want, table) {
			continue
		}
		var finding string
		if err := tx.QueryRow(`SELECT * FROM pragma_quick_check(?)`, table).Scan(&finding); err != nil {
			return err
		}
		if finding != "ok" {
			return damaged("%s", firstFinding(finding))
		}
	}
	return nil
}

// firstFinding returns the first line of a check's report that is no heading.
func firstFinding(report string) string {
	for line := range strings.Lines(report) {
		if line = strings.TrimSpace(line); !strings.HasPrefix(line, "***") {
			return line
		}
	}
	return "a table cannot be read"
}

// madeSchema is the schema that the migrations up to a version make.
func madeSchema(version int) (schema []string, err error) {
	db := connect(":memory:")
	defer db.Close()
	err = inTransaction(db, func(tx *sql.Tx) error {
		if err := migrate(tx, 0, version); err != nil {
			return err
		}
		schema, err = schemaOf(tx)
		return err
	})
	return schema, err
}

// defines reports whether a schema has a table of that name.
func defines(schema []string, table string) bool {
	prefix := fmt.Sprintf("table %q ", table)
	return slices.ContainsFunc(schema, func(line string) bool { return strings.HasPrefix(line, prefix) })
}

// schemaOf lists what is defined in the database, in words that are equal
// for equal schemas.
func schemaOf(tx *sql.Tx) ([]string, error) {
	rows, err := tx.Query(`SELECT type, name, tbl_name, coalesce(sql, '') FROM sqlite_schema LIMIT 100`)
	if err != nil {
		return nil, err
	}
	defer rows.Close()
	var out []string
	for rows.Next() {
		var kind, name, table, statement string
		if err := rows.Scan(&kind, &name, &table, &statement); err != nil {
			return nil, err
		}
		out = append(out, schemaLine(kind, name, table, statement))
	}
	slices.Sort(out)
	return out, rows.Err()
}

func schemaLine(kind, name, table, statement string) string {
	return fmt.Sprintf("%s %q of %q: %s", kind, name, table, statement)
}
