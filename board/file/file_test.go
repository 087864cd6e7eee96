package file

import (
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"stillbeat/board"
)

func TestBoardComesBackAsItWas(t *testing.T) {
	full := longBoard(40, 60, 90)
	free := longBoard(3, 0, 0)
	free.Song = nil
	noPanels := board.New()
	noPanels.Panels = []board.Panel{}
	newTempo := full
	newTempo.Grid.Tempo = 60
	for _, c := range []struct {
		name  string
		board board.Board
	}{
		{"a new board", board.New()},
		{"a list without panels", noPanels},
		{"everything in use", full},
		{"another tempo, the same beats", newTempo},
		{"no song and no beats", free},
	} {
		t.Run(c.name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "film"+Ext)
			f := mustCreate(t, path, full)
			if err := f.SaveBoard(c.board); err != nil {
				t.Fatal(err)
			}
			mustClose(t, f)
			f, got := mustOpen(t, path)
			checkBoard(t, got, c.board)
			if f.Path() != path {
				t.Errorf("Path() = %q, want %q", f.Path(), path)
			}
		})
	}
}

func TestCreateKeepsItsBoard(t *testing.T) {
	path := filepath.Join(t.TempDir(), "film"+Ext)
	want := longBoard(20, 30, 40)
	mustClose(t, mustCreate(t, path, want))
	_, got := mustOpen(t, path)
	checkBoard(t, got, want)
	if names := filesIn(t, filepath.Dir(path)); len(names) != 1 {
		t.Errorf("the folder holds %q", names)
	}
}

func TestNamesOfFilms(t *testing.T) {
	for _, name := range []string{
		"ten % off?#1", "100%25", "a?mode=memory&cache=shared", "печенье 茶", `quote " and ' and \`,
		"file:film", ":memory:", "semi;colon&and+plus=", " blank ", "\u202eright to left", "new\nline", "-dash",
	} {
		t.Run(name, func(t *testing.T) {
			folder := filepath.Join(t.TempDir(), name)
			if err := os.Mkdir(folder, 0o755); err != nil {
				t.Fatal(err)
			}
			path := filepath.Join(folder, name+Ext)
			f := mustCreate(t, path, longBoard(2, 3, 4))
			if err := f.CopyTo(path + ".copy"); err != nil {
				t.Fatal(err)
			}
			mustClose(t, f)
			mustOpen(t, path)
			if got, want := filesIn(t, folder), []string{name + Ext, name + Ext + ".copy"}; !reflect.DeepEqual(got, want) {
				t.Errorf("the folder holds %q, want %q", got, want)
			}
		})
	}
}

func TestRelativePath(t *testing.T) {
	t.Chdir(t.TempDir())
	mustClose(t, mustCreate(t, "film"+Ext, longBoard(2, 3, 4)))
	f, b := mustOpen(t, "film"+Ext)
	t.Chdir(t.TempDir())
	if err := f.SaveBoard(b); err != nil {
		t.Fatal(err)
	}
	if f.Path() != "film"+Ext {
		t.Errorf("Path() = %q", f.Path())
	}
}

func TestCreateRefuses(t *testing.T) {
	broken := longBoard(2, 3, 4)
	broken.Step = 99
	for _, c := range []struct {
		name  string
		make  func(path string) error // what is at the path before
		path  string
		board board.Board
		is    error
		want  string
	}{
		{"a file that is there", func(p string) error { return os.WriteFile(p, []byte("x"), 0o644) }, "a.stillbeat", board.New(),
			fs.ErrExist, `create film "a.stillbeat": there is already a file of that name`},
		{"a link to nothing", func(p string) error { return os.Symlink("nothing", p) }, "a.stillbeat", board.New(),
			fs.ErrExist, `create film "a.stillbeat": there is already a file of that name`},
		{"a folder that is not there", nil, "no/a.stillbeat", board.New(),
			fs.ErrNotExist, `create film "a.stillbeat": there is no such file or folder`},
		{"a board against the rules", nil, "a.stillbeat", broken,
			nil, `create film "a.stillbeat": the film is on 99s: a step is 1 to 12 frames`},
	} {
		t.Run(c.name, func(t *testing.T) {
			folder := t.TempDir()
			path := filepath.Join(folder, c.path)
			if c.make != nil {
				if err := c.make(path); err != nil {
					t.Fatal(err)
				}
			}
			before := filesIn(t, folder)
			_, err := Create(path, c.board)
			checkError(t, err, c.is, c.want)
			if after := filesIn(t, folder); !reflect.DeepEqual(after, before) {
				t.Errorf("the folder held %q, now %q", before, after)
			}
		})
	}
}

// checkError checks that err says want and is what it should be.
func checkError(t *testing.T, err, is error, want string) {
	t.Helper()
	if err == nil || err.Error() != want {
		t.Errorf("got  %v\nwant %s", err, want)
	}
	if is != nil && !errors.Is(err, is) {
		t.Errorf("%v is not %v", err, is)
	}
}

func TestSecondOpening(t *testing.T) {
	path := filepath.Join(t.TempDir(), "film"+Ext)
	f := mustCreate(t, path, longBoard(2, 3, 4))
	link := filepath.Join(t.TempDir(), "link"+Ext)
	if err := os.Symlink(path, link); err != nil {
		t.Fatal(err)
	}
	_, _, err := Open(path)
	checkError(t, err, ErrInUse, `open film "film.stillbeat": the film is already open in another window`)
	_, _, err = Open(link)
	checkError(t, err, ErrInUse, `open film "link.stillbeat": the film is already open in another window`)
	if said := ask(t, "open", path); !strings.Contains(said, "already open in another window") {
		t.Errorf("another program opening the film got %q", said)
	}
	mustClose(t, f)
	if said := ask(t, "open", path); said != "<nil>" {
		t.Errorf("another program opening the closed film got %q", said)
	}
	mustOpen(t, path)
}

// ask returns what another program says when it does a task with the film.
func ask(t *testing.T, task, path string) string {
	t.Helper()
	out, err := child(task, path).Output()
	if err != nil {
		t.Fatal(err)
	}
	return strings.TrimSpace(string(out))
}

func TestFileTakenAwayUnderneath(t *testing.T) {
	for _, c := range []struct {
		name string
		do   func(path string) error
	}{
		{"removed", os.Remove},
		{"renamed", func(p string) error { return os.Rename(p, p+".old") }},
		{"replaced", func(p string) error {
			if err := os.WriteFile(p+".new", []byte("another"), 0o644); err != nil {
				return err
			}
			return os.Rename(p+".new", p)
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			path := filepath.Join(t.TempDir(), "film"+Ext)
			b := longBoard(2, 3, 4)
			f := mustCreate(t, path, b)
			if err := c.do(path); err != nil {
				t.Fatal(err)
			}
			changed := b
			changed.Title = "too late"
			checkError(t, f.SaveBoard(changed), fs.ErrNotExist, `save film "film.stillbeat": the file was moved or removed while it was open`)
			rescued := filepath.Join(t.TempDir(), "rescued"+Ext)
			if err := f.CopyTo(rescued); err != nil {
				t.Fatal(err)
			}
			_, got := mustOpen(t, rescued)
			checkBoard(t, got, b)
		})
	}
}

func TestSettings(t *testing.T) {
	path := filepath.Join(t.TempDir(), "film"+Ext)
	f := mustCreate(t, path, board.New())
	for _, s := range [][2]string{{"zoom", "1"}, {"zoom", "2.5"}, {"gone", "x"}, {"gone", ""}, {"'; DROP TABLE board; --", "\x00 茶 \"'"}} {
		if err := f.SetSetting(s[0], s[1]); err != nil {
			t.Fatal(err)
		}
	}
	if err := f.SetSetting("bad", "\xff"); err == nil {
		t.Error("a value that is not UTF-8 was taken")
	}
	mustClose(t, f)
	f, _ = mustOpen(t, path)
	for key, want := range map[string]string{"zoom": "2.5", "gone": "", "never": "", "bad": "", "'; DROP TABLE board; --": "\x00 茶 \"'"} {
		if got, err := f.Setting(key); err != nil || got != want {
			t.Errorf("Setting(%q) = %q, %v, want %q", key, got, err, want)
		}
	}
}
