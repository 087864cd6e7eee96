package desk

import (
	"fmt"
	"os"
	"path/filepath"
	"sort"

	"stillbeat/board"
	"stillbeat/board/file"
)

// A film without a name lives in a scratch file, so that it too is on disk as
// it is on screen.
const scratchPattern = "untitled-*" + file.Ext

// New starts an empty film in a scratch file; SaveAs gives it a name.
func New() (*Desk, error) {
	dir, err := scratchDir()
	if err != nil {
		return nil, err
	}
	f, err := os.CreateTemp(dir, scratchPattern)
	if err != nil {
		return nil, fmt.Errorf("start a film: %w", err)
	}
	path := f.Name()
	f.Close()
	if err := os.Remove(path); err != nil {
		return nil, fmt.Errorf("start a film: %w", err)
	}
	d, err := Create(path, board.New())
	if err != nil {
		return nil, err
	}
	d.untitled = true
	return d, nil
}

// Resume opens the film that was left without a name last, by a crash or a
// signal, and deletes empty ones on the way. It returns nil if there is none;
// films open in another window and damaged ones are passed over.
func Resume() (*Desk, error) {
	dir, err := scratchDir()
	if err != nil {
		return nil, err
	}
	left, err := filepath.Glob(filepath.Join(dir, scratchPattern))
	if err != nil {
		return nil, fmt.Errorf("look for films left behind: %w", err)
	}
	sort.Slice(left, func(i, j int) bool { return modified(left[i]) > modified(left[j]) })
	for _, path := range left {
		d, err := Open(path)
		if err != nil {
			continue
		}
		d.untitled = true
		if d.Untitled() {
			return d, nil
		}
		if err := d.Close(); err != nil {
			return nil, err
		}
	}
	return nil, nil
}

func modified(path string) int64 {
	info, err := os.Stat(path)
	if err != nil {
		return 0
	}
	return info.ModTime().UnixNano()
}

func scratchDir() (string, error) {
	dir, err := os.UserCacheDir()
	if err != nil {
		dir = os.TempDir()
	}
	dir = filepath.Join(dir, "stillbeat")
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return "", fmt.Errorf("start a film: %w", err)
	}
	return dir, nil
}

// Untitled reports whether the film has no name yet but holds something that
// throwing it away would lose.
func (d *Desk) Untitled() bool {
	b := d.Board()
	return d.untitled && (len(b.Panels) > 0 || b.Song != nil || b.Title != "")
}

// Abandon has Close delete a film without a name, unless it is edited again.
// A film with a name is left alone.
func (d *Desk) Abandon() { d.abandoned = true }
