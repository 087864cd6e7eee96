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
func connect(source string) *sql.DB { return connectTo(connector{source, MaxMedia + 1<<16}) }

// connectDamaged returns the database in a file that may be damaged: nothing
// in it is larger than itself.
func connectDamaged(path string, size int64) *sql.DB {
	return connectTo(connector{damagedSource(path), int(min(size, MaxMedia+1<<16))})
}

func connectTo(c connector) *sql.DB {
	db := sql.OpenDB(c)
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
	return sourceWith(path, url.Values{
		"mode":          {"rw"}, // never make a file
		"_journal_mode": {"DELETE"},
		"_synchronous":  {"EXTRA"},
		"_foreign_keys": {"on"},
		"_txlock":       {"immediate"},
		"_locking_mode": {lockingMode},
	})
}

// draftSource is the source of a file that nobody knows of yet: it is brought
// to the disk as a whole when it is ready.
func draftSource(path string) string {
	return sourceWith(path, url.Values{
		"mode":          {"rw"},
		"_journal_mode": {"MEMORY"},
		"_synchronous":  {"OFF"},
		"_foreign_keys": {"on"},
		"_txlock":       {"immediate"},
	})
}

// readingSource is the source of a film that is not to be written to. Its
// transactions see the film as it was last saved, also while another program
// saves it.
func readingSource(path string) string { return sourceWith(path, url.Values{"mode": {"ro"}}) }

// damagedSource is the source of a file of which is read what can be read.
// SQLite takes it as one that nobody changes, and does not mind what the
// header says of its length or that the schema is damaged.
func damagedSource(path string) string {
	return sourceWith(path, url.Values{"mode": {"ro"}, "immutable": {"1"}, "_writable_schema": {"1"}})
}

func sourceWith(path string, options url.Values) string {
	path = filepath.ToSlash(path)
	if !strings.HasPrefix(path, "/") {
		path = "/" + path
	}
	return (&url.URL{Scheme: "file", Path: path, RawQuery: options.Encode()}).String()
}

type connector struct {
	source string
	most   int // bytes of a value
}

func (c connector) Driver() driver.Driver { return &sqlite3.SQLiteDriver{ConnectHook: c.guard} }

func (c connector) Connect(context.Context) (driver.Conn, error) {
	return c.Driver().Open(c.source)
}

// guard sets a fresh connection to distrust the file it reads.
func (c connector) guard(conn *sqlite3.SQLiteConn) error {
	conn.SetLimit(sqlite3.SQLITE_LIMIT_LENGTH, c.most)
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
