package file

import (
	"os"
	"slices"
	"sync"
)

// claim is the hold one File has on the file on disk: nobody else edits it.
type claim struct {
	file *os.File
	info os.FileInfo
}

// claims are the films open in this process. They are known by name here
// because opening and closing a file a second time would drop the locks that
// SQLite has on it (POSIX locks belong to the process, not to the opening).
var claims struct {
	sync.Mutex
	held []*claim
}

// take claims the file at path, which must be a regular file with something
// in it, and refuses one that is claimed with ErrInUse. A crash frees a
// claim: the system drops the locks of a process that ends.
func take(path string) (*claim, error) {
	claims.Lock()
	defer claims.Unlock()
	info, err := os.Stat(path)
	if err != nil {
		return nil, err
	}
	switch {
	case info.IsDir():
		return nil, reason{"this is a folder, not a film", ErrNotFilm}
	case !info.Mode().IsRegular():
		return nil, reason{"this is a pipe or device, not a film", ErrNotFilm}
	case info.Size() == 0:
		return nil, reason{"the file is empty, so it is not a Stillbeat film", ErrNotFilm}
	case held(info):
		return nil, ErrInUse
	}
	file, err := os.OpenFile(path, os.O_RDWR, 0)
	if err != nil {
		return nil, err
	}
	c := &claim{file, info}
	if err := lock(file); err != nil {
		file.Close()
		return nil, err
	}
	claims.held = append(claims.held, c)
	return c, nil
}

// held reports whether this process has a claim on the file. Callers hold
// claims.
func held(info os.FileInfo) bool {
	return slices.ContainsFunc(claims.held, func(c *claim) bool { return os.SameFile(c.info, info) })
}

// release gives the file back.
func (c *claim) release() error {
	claims.Lock()
	defer claims.Unlock()
	claims.held = slices.DeleteFunc(claims.held, func(other *claim) bool { return other == c })
	return c.file.Close()
}
