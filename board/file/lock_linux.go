package file

import (
	"errors"
	"os"
	"syscall"
)

// On Linux the claim is an flock on the film itself. It lies beside the
// byte-range locks of SQLite, which last no longer than a transaction, so
// that a second window can read the film while the first edits it.
const lockingMode = "NORMAL"

func lock(f *os.File) error {
	err := syscall.Flock(int(f.Fd()), syscall.LOCK_EX|syscall.LOCK_NB)
	if errors.Is(err, syscall.EWOULDBLOCK) {
		return ErrInUse
	}
	return err
}
