package file

import (
	"path/filepath"
	"testing"

	"stillbeat/board"
)

// The grid is written only when it changed; a lock alone is a change.
func TestLockedBeatsAreSaved(t *testing.T) {
	path := filepath.Join(t.TempDir(), "kettle.stillbeat")
	b, err := board.SetTempo(120, 0).Apply(board.New())
	if err != nil {
		t.Fatal(err)
	}
	f, err := Create(path, b)
	if err != nil {
		t.Fatal(err)
	}
	locked, err := board.LockBeats(1, 2).Apply(b)
	if err != nil {
		t.Fatal(err)
	}
	if err := f.SaveBoard(locked); err != nil {
		t.Fatal(err)
	}
	if err := f.Close(); err != nil {
		t.Fatal(err)
	}
	f, got, err := Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if len(got.Grid.Locks) != 1 || got.Grid.Locks[0] != (board.Stretch{From: 1, To: 2}) {
		t.Errorf("locks %v, want 1 to 2 s", got.Grid.Locks)
	}
}
