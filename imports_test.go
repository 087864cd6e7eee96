// Package stillbeat_test checks rules that hold for the whole repository.
package stillbeat_test

import (
	"fmt"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"slices"
	"strconv"
	"strings"
	"testing"
	"testing/fstest"
)

const module = "stillbeat"

// floors says, for each folder of the house, which imports it must not have.
// A name stands for itself and all below it.
var floors = map[string][]string{
	"assets": {"fyne.io", module + "/audio", module + "/board", module + "/ui", module + "/cmd"},
	"audio":  {"fyne.io", module + "/assets", module + "/board", module + "/ui", module + "/cmd"},
	"board":  {"fyne.io", module + "/audio", module + "/ui", module + "/cmd"},
	"ui":     {module + "/cmd"},
	"cmd":    {"fyne.io", module + "/cmd"},
}

// violations parses the imports of every Go file below root, tests included,
// and returns one line for each that the floors forbid, and for each package
// folder that stands on no floor.
func violations(root fs.FS) ([]string, error) {
	var out []string
	files := token.NewFileSet()
	err := fs.WalkDir(root, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		base := path.Base(name)
		if d.IsDir() && name != "." && (strings.HasPrefix(base, ".") || base == "testdata") {
			return fs.SkipDir
		}
		if d.IsDir() || !strings.HasSuffix(name, ".go") {
			return nil
		}
		src, err := fs.ReadFile(root, name)
		if err != nil {
			return err
		}
		file, err := parser.ParseFile(files, name, src, parser.ImportsOnly)
		if err != nil {
			return err
		}
		folder, _, inside := strings.Cut(name, "/")
		banned, known := floors[folder]
		switch {
		case !inside: // this test alone, which imports nothing of the house
			banned = []string{"fyne.io", module}
		case !known:
			out = append(out, fmt.Sprintf("%s stands on no floor: name %s in this test", name, folder))
		}
		for _, spec := range file.Imports {
			imported, err := strconv.Unquote(spec.Path.Value)
			if err != nil {
				return err
			}
			for _, b := range banned {
				if imported == b || strings.HasPrefix(imported, b+"/") {
					out = append(out, fmt.Sprintf("%s imports %s", name, imported))
				}
			}
		}
		return nil
	})
	return out, err
}

func TestImportsPointDown(t *testing.T) {
	bad, err := violations(os.DirFS("."))
	if err != nil {
		t.Fatal(err)
	}
	for _, v := range bad {
		t.Error(v)
	}
}

func TestTheCheckOfImportsFindsViolations(t *testing.T) {
	source := func(imports ...string) *fstest.MapFile {
		text := "package p\n"
		for _, i := range imports {
			text += "import _ " + strconv.Quote(i) + "\n"
		}
		return &fstest.MapFile{Data: []byte(text)}
	}
	bad := fstest.MapFS{
		"board/a.go":              source("fmt", "stillbeat/board/file"),
		"board/b.go":              source("stillbeat/audio"),
		"board/desk/c.go":         source("stillbeat/audio/beat", "stillbeat/boarding"),
		"board/desk/d_test.go":    source("stillbeat/ui"),
		"audio/wav/e.go":          source("fyne.io/fyne/v2", "stillbeat/audio/clip"),
		"audio/f.go":              source("stillbeat/board"),
		"assets/g.go":             source("stillbeat/assets/internal/ink", "stillbeat/audio/wav"),
		"ui/h.go":                 source("fyne.io/fyne/v2/app", "stillbeat/board", "stillbeat/audio", "stillbeat/assets"),
		"ui/i.go":                 source("stillbeat/cmd/stillbeat"),
		"cmd/stillbeat/j.go":      source("stillbeat/ui", "stillbeat/audio", "fyne.io/systray"),
		"extra/k.go":              source("fmt"),
		"l.go":                    source("stillbeat/board"),
		".git/m.go":               source("fyne.io/fyne/v2"),
		"board/testdata/n.go":     source("fyne.io/fyne/v2"),
		"board/read.txt":          {Data: []byte("import stillbeat/audio")},
		"audio/internal/tag/o.go": source("stillbeat/audio/internal/guard"),
	}
	want := []string{
		"assets/g.go imports stillbeat/audio/wav",
		"audio/f.go imports stillbeat/board",
		"audio/wav/e.go imports fyne.io/fyne/v2",
		"board/b.go imports stillbeat/audio",
		"board/desk/c.go imports stillbeat/audio/beat",
		"board/desk/d_test.go imports stillbeat/ui",
		"cmd/stillbeat/j.go imports fyne.io/systray",
		"extra/k.go stands on no floor: name extra in this test",
		"l.go imports stillbeat/board",
		"ui/i.go imports stillbeat/cmd/stillbeat",
	}
	got, err := violations(bad)
	if err != nil {
		t.Fatal(err)
	}
	slices.Sort(got)
	if !slices.Equal(got, want) {
		t.Errorf("found\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
	if _, err := violations(fstest.MapFS{"board/a.go": {Data: []byte("no Go")}}); err == nil {
		t.Error("a file that is no Go passes")
	}
}
