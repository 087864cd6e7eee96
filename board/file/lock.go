package file

import (
	"os"
	"slices"
	"sync"
)

// claim is the hold one File has on the file on disk. Of those that write
// there is one; those that only read are not counted.
type claim struct {
	*holding
	writes bool
}

// holding is a film that is open in this process. They are known by name here
// because opening and closing a file a second time would drop the locks that
// SQLite has on it (POSIX locks belong to the process, not to the opening):
// what is opened is kept open until the last claim is given back.
type holding struct {
	info    os.FileInfo
	files   []*os.File
	claims  int
	written bool     // one of the claims is that of a writer
	locked  *os.File // the writer's
}

var holdings struct {
	sync.Mutex
	list []*holding
}

// take claims the file at path, which must be a regular file with something
// in it. A second writer is refused with ErrInUse. A crash frees a claim: the
// system drops the locks of a process that ends.
func take(path string, write bool) (*claim, error) {
	holdings.Lock()
	defer holdings.Unlock()
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
	}
	h := &holding{info: info}
	known := slices.IndexFunc(holdings.list, func(h *holding) bool { return os.SameFile(h.info, info) })
	if known >= 0 {
		h = holdings.list[known]
	}
	if err := h.open(path, write); err != nil {
		h.closeUnclaimed()
		return nil, err
	}
	h.claims++
	if known < 0 {
		holdings.list = append(holdings.list, h)
	}
	return &claim{h, write}, nil
}

// open sees to it that the file is open for what is asked and, for a writer,
// that there is no other.
func (h *holding) open(path string, write bool) error {
	if !write {
		if len(h.files) > 0 {
			return nil
		}
		file, err := os.Open(path)
		if err == nil {
			h.files = append(h.files, file)
		}
		return err
	}
	if h.written {
		return ErrInUse
	}
	file, err := os.OpenFile(path, os.O_RDWR, 0)
	if err != nil {
		return err
	}
	h.files = append(h.files, file)
	if err := lock(file); err != nil {
		return err
	}
	h.written, h.locked = true, file
	return nil
}

// file is the claimed file, for reading.
func (c *claim) file() *os.File { return c.files[0] }

// release gives the file back.
func (c *claim) release() error {
	holdings.Lock()
	defer holdings.Unlock()
	var err error
	if c.writes {
		err = unlock(c.locked)
		c.written, c.locked = false, nil
	}
	c.claims--
	c.closeUnclaimed()
	return err
}

// closeUnclaimed closes the files if nobody has a claim on them.
func (h *holding) closeUnclaimed() {
	if h.claims > 0 {
		return
	}
	for _, file := range h.files {
		file.Close()
	}
	holdings.list = slices.DeleteFunc(holdings.list, func(other *holding) bool { return other == h })
}
