//go:build unix

package desk

import (
	"context"
	"path/filepath"
	"syscall"
	"testing"
)

// TestPipeIsRefused would hang if the pipe were opened.
func TestPipeIsRefused(t *testing.T) {
	path := filepath.Join(t.TempDir(), "waltz.mp3")
	must(t, syscall.Mkfifo(path, 0o600))
	_, err := NewSong(context.Background(), path, fakeEar{}, Wish{}, nil)
	checkError(t, err, `open song "waltz.mp3": it is not an ordinary file`)
}
