//go:build !linux

package file

import "os"

// Elsewhere flock is missing or gets in the way of SQLite's own locks, so
// SQLite keeps the lock of the first transaction until the film is closed.
const lockingMode = "EXCLUSIVE"

func lock(*os.File) error { return nil }

func unlock(*os.File) error { return nil }
