package review

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func TestOpen(t *testing.T) {
	dir := t.TempDir()
	for name, data := range map[string][]byte{
		"tea.notes.json": text(t, fileOn(teaFilm(), note("a", 30, 2, 6))),
		"big.notes.json": make([]byte, MaxBytes+1),
	} {
		if err := os.WriteFile(filepath.Join(dir, name), data, 0o600); err != nil {
			t.Fatal(err)
		}
	}
	if f, err := Open(filepath.Join(dir, "tea.notes.json")); err != nil || len(f.Notes) != 1 {
		t.Errorf("%d notes, %v", len(f.Notes), err)
	}
	for path, want := range map[string]string{
		filepath.Join(dir, "big.notes.json"):  `read "big.notes.json": it has more than 16 MB`,
		filepath.Join(dir, "gone.notes.json"): `read "gone.notes.json": `,
		dir:                                   "these are not notes on a film",
	} {
		if _, err := Open(path); err == nil || !strings.Contains(err.Error(), want) || strings.Contains(err.Error(), dir+string(filepath.Separator)) {
			t.Errorf("%s: %v, want %q", path, err, want)
		}
	}
}
