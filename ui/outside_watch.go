package ui

import (
	"context"
	"os"
	"time"
)

// fileState tells one state of a file from another.
type fileState struct {
	at   time.Time
	size int64
}

func stateOf(path string) (fileState, error) {
	info, err := os.Stat(path)
	if err != nil {
		return fileState{}, err
	}
	return fileState{info.ModTime(), info.Size()}, nil
}

// watchFile looks at a file again and again until ctx ends, and calls saved each
// time it is another than before and has been the same for two looks: by then it
// is written. A file that is away for a moment is being replaced.
func watchFile(ctx context.Context, path string, seen fileState, every time.Duration, saved func()) {
	look := time.NewTicker(every)
	defer look.Stop()
	last := seen
	for {
		select {
		case <-ctx.Done():
			return
		case <-look.C:
		}
		now, err := stateOf(path)
		switch {
		case err != nil:
			last = fileState{}
		case now != last:
			last = now
		case now != seen && now.size > 0:
			seen = now
			saved()
		}
	}
}
