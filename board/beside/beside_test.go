package beside

import (
	"errors"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

func held(t *testing.T, dir string) string {
	t.Helper()
	all, err := os.ReadDir(dir)
	if err != nil {
		t.Fatal(err)
	}
	var names []string
	for _, e := range all {
		names = append(names, e.Name())
	}
	return strings.Join(names, " ")
}

// A file comes up whole; what fails leaves the old one and nothing else.
func TestFile(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "чай.txt")
	put := func(text string, err error) func(*os.File) error {
		return func(f *os.File) error {
			if held(t, dir) == "" {
				t.Error("nothing is being written")
			}
			f.WriteString(text)
			return err
		}
	}
	if err := File(path, put("first", nil)); err != nil {
		t.Fatal(err)
	}
	full := errors.New("no space left")
	if err := File(path, put("second", full)); !errors.Is(err, full) {
		t.Errorf("error %v, want %v", err, full)
	}
	if err := File(path, func(*os.File) error { panic("a bug") }); err == nil || !strings.Contains(err.Error(), "a bug") {
		t.Errorf("a panic is the error %v", err)
	}
	if text, _ := os.ReadFile(path); string(text) != "first" || held(t, dir) != "чай.txt" {
		t.Errorf("the file holds %q, the folder %s", text, held(t, dir))
	}
	if err := File(dir, put("", nil)); err == nil || err.Error() != "it is a folder" {
		t.Errorf("over a folder: error %v", err)
	}
	if err := File(filepath.Join(dir, "none", "a"), put("", nil)); !errors.Is(err, fs.ErrNotExist) || strings.Contains(err.Error(), ".part") {
		t.Errorf("in no folder: error %v", err)
	}
}

// What comes up while a folder is written is not replaced either.
func TestFolderMeetsAnother(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "panels")
	err := Folder(path, false, ".png", func(string) error { return os.Mkdir(path, 0o755) })
	if !errors.Is(err, ErrThere) || held(t, dir) != "panels" {
		t.Errorf("error %v, the folder holds %s", err, held(t, dir))
	}
	full := errors.New("no space left")
	err = Folder(path, true, ".png", func(part string) error {
		if err := os.WriteFile(filepath.Join(part, "1.png"), nil, 0o644); err != nil {
			t.Fatal(err)
		}
		return full
	})
	if !errors.Is(err, full) || held(t, dir) != "panels" || held(t, path) != "" {
		t.Errorf("error %v, the folder holds %s and %s", err, held(t, dir), held(t, path))
	}
	if err := Folder(path, true, ".png", func(string) error { panic("a bug") }); err == nil || held(t, dir) != "panels" {
		t.Errorf("a panic is the error %v, the folder holds %s", err, held(t, dir))
	}
}

// What is saved is whole or as it was, and an error names the file once.
func TestSave(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "чашка 茶.csv")
	save := func(text string, fails error) error {
		return Save(path, func(w io.Writer) error {
			_, err := io.WriteString(w, text)
			return errors.Join(err, fails)
		})
	}
	if err := save("first", nil); err != nil {
		t.Fatal(err)
	}
	spilt := errors.New("spilt")
	if err := save("second", spilt); !errors.Is(err, spilt) || err.Error() != "cannot write "+path+": spilt" {
		t.Errorf("the error is %v", err)
	}
	if now, err := os.ReadFile(path); err != nil || string(now) != "first" || held(t, dir) != filepath.Base(path) {
		t.Errorf("after a failure: %q, %v; the folder holds %s", now, err, held(t, dir))
	}
	gone := filepath.Join(dir, "gone", "cup.csv")
	if err := Save(gone, func(io.Writer) error { return nil }); err == nil || strings.Count(err.Error(), "gone") != 1 {
		t.Errorf("into a folder that is not there: %v", err)
	}
}
