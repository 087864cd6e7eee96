package file

import (
	"context"
	"database/sql"
	"database/sql/driver"
	"net/url"
	"path/filepath"
	"strings"

	"github.com/mattn/go-sqlite3"
)

// connect returns the database behind a data source name. It has a single
// connection: goroutines take turns, and none meets a lock of another.
func connect(source string) *sql.DB {
	db := sql.OpenDB(connector{source})
	db.SetMaxOpenConns(1)
	return db
}

// source returns the data source name of the film at an absolute path.
//
// The rollback journal is deleted after each transaction, so that a film at
// rest is one file. Synchronisation is EXTRA: FULL, and the folder too is
// synchronised after the journal is gone, without which a power cut just
// after a save could bring the journal back and undo the save
// (SQLite documentation, "PRAGMA synchronous").
func source(path string) string {
	path = filepath.ToSlash(path)
	if !strings.HasPrefix(path, "/") {
		path = "/" + path
	}
	options := url.Values{
		"mode":          {"rw"}, // never make a file
		"_journal_mode": {"DELETE"},
		"_synchronous":  {"EXTRA"},
		"_foreign_keys": {"on"},
		"_txlock":       {"immediate"},
		"_locking_mode": {lockingMode},
	}
	return (&url.URL{Scheme: "file", Path: path, RawQuery: options.Encode()}).String()
}

type connector struct{ source string }

func (c connector) Driver() driver.Driver { return &sqlite3.SQLiteDriver{ConnectHook: guard} }

func (c connector) Connect(context.Context) (driver.Conn, error) {
	return c.Driver().Open(c.source)
}

// guard sets a fresh connection to distrust the file it reads.
func guard(conn *sqlite3.SQLiteConn) error {
	conn.SetLimit(sqlite3.SQLITE_LIMIT_LENGTH, MaxMedia+1<<16)
	conn.SetLimit(sqlite3.SQLITE_LIMIT_ATTACHED, 1) // VACUUM needs one
	for _, pragma := range []string{
		`PRAGMA trusted_schema = OFF`,
		`PRAGMA cell_size_check = ON`,
		`PRAGMA fullfsync = ON`, // macOS: through the drive's own cache
	} {
		if _, err := conn.Exec(pragma, nil); err != nil {
			return err
		}
	}
	return nil
}

// inTransaction runs do in one transaction: all of it happens, or nothing.
func inTransaction(db *sql.DB, do func(*sql.Tx) error) error {
	tx, err := db.Begin()
	if err != nil {
		return err
	}
	if err := do(tx); err != nil {
		tx.Rollback()
		return err
	}
	return tx.Commit()
}
