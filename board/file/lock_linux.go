package file

import (
	"errors"
	"os"
	"syscall"
	"time"
)

// On Linux the claim is an flock on the film itself. It lies beside the
// byte-range locks of SQLite, which last no longer than a transaction, so
// that a second window can read the film while the first edits it.
const lockingMode = "NORMAL"

func lock(f *os.File) error {
	for range 5 {
		err := syscall.Flock(int(f.Fd()), syscall.LOCK_EX|syscall.LOCK_NB)
		if !errors.Is(err, syscall.EWOULDBLOCK) {
			return err
		}
		time.Sleep(4 * time.Millisecond) // perhaps somebody just looks whether the film is in use
	}
	return ErrInUse
}

func unlock(f *os.File) error { return syscall.Flock(int(f.Fd()), syscall.LOCK_UN) }
