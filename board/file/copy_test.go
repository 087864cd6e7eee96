package file

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"testing"

	"stillbeat/board"
)

// filmWithPicture makes a film in a folder of its own.
func filmWithPicture(t *testing.T) (f *File, b board.Board, path string) {
	t.Helper()
	path = filepath.Join(t.TempDir(), "film"+Ext)
	b = longBoard(3, 5, 5)
	b.Song = nil
	f = mustCreate(t, path, b)
	ids, err := f.AddMedia(Picture, Media{Name: "cup.png", Data: noise(20000, 1)})
	if err != nil {
		t.Fatal(err)
	}
	b.Panels[1].Picture = ids[0]
	if err := f.SaveBoard(b); err != nil {
		t.Fatal(err)
	}
	return f, b, path
}

func TestCopyIsTheWholeFilm(t *testing.T) {
	for _, c := range []struct {
		name string
		make func(t *testing.T, to string) // what is there before
	}{
		{"to a new name", func(*testing.T, string) {}},
		{"over another film", func(t *testing.T, to string) { mustClose(t, mustCreate(t, to, board.New())) }},
		{"over a longer file", func(t *testing.T, to string) { mustWrite(t, to, noise(1<<20, 9)) }},
		{"over an empty file", func(t *testing.T, to string) { mustWrite(t, to, nil) }},
		{"over a link", func(t *testing.T, to string) {
			mustWrite(t, to+".target", []byte("x"))
			if err := os.Symlink(to+".target", to); err != nil {
				t.Fatal(err)
			}
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			f, b, _ := filmWithPicture(t)
			to := filepath.Join(t.TempDir(), "copy"+Ext)
			c.make(t, to)
			if err := f.CopyTo(to); err != nil {
				t.Fatal(err)
			}
			if err := f.SaveBoard(board.New()); err != nil { // the copy goes its own way
				t.Fatal(err)
			}
			copied, got := mustOpen(t, to)
			checkBoard(t, got, b)
			if data, err := copied.Media(b.Panels[1].Picture); err != nil || !bytes.Equal(data, noise(20000, 1)) {
				t.Errorf("the picture in the copy: %d bytes, %v", len(data), err)
			}
			if hidden, _ := filepath.Glob(filepath.Join(filepath.Dir(to), ".*")); hidden != nil {
				t.Errorf("left behind: %q", hidden)
			}
		})
	}
}

func TestCopyKeepsPermissions(t *testing.T) {
	f, _, path := filmWithPicture(t)
	to := filepath.Join(t.TempDir(), "copy"+Ext)
	mustWrite(t, to, []byte("x"))
	if err := os.Chmod(to, 0o600); err != nil {
		t.Fatal(err)
	}
	fresh := filepath.Join(t.TempDir(), "fresh"+Ext)
	for _, p := range []string{to, fresh} {
		if err := f.CopyTo(p); err != nil {
			t.Fatal(err)
		}
	}
	if got := modeOf(t, to); got != 0o600 {
		t.Errorf("the replaced file had 0600, the copy has %o", got)
	}
	if got, want := modeOf(t, fresh), modeOf(t, path); got != want {
		t.Errorf("a new copy has %o, the film has %o", got, want)
	}
}

func modeOf(t *testing.T, path string) os.FileMode {
	t.Helper()
	info, err := os.Stat(path)
	if err != nil {
		t.Fatal(err)
	}
	return info.Mode().Perm()
}

func TestCopyOntoItself(t *testing.T) {
	f, b, path := filmWithPicture(t)
	link := filepath.Join(filepath.Dir(path), "link"+Ext)
	if err := os.Link(path, link); err != nil {
		t.Fatal(err)
	}
	before := mustRead(t, path)
	for _, to := range []string{path, link, filepath.Join(filepath.Dir(path), ".", "film"+Ext)} {
		if err := f.CopyTo(to); err != nil {
			t.Errorf("CopyTo(%q): %v", to, err)
		}
	}
	if !bytes.Equal(mustRead(t, path), before) {
		t.Error("the film was changed")
	}
	if err := f.SaveBoard(b); err != nil {
		t.Errorf("saving afterwards: %v", err)
	}
}

func TestCopyRefuses(t *testing.T) {
	for _, c := range []struct {
		name string
		make func(t *testing.T, to string)
		is   error
		want string
	}{
		{"a film that is open", func(t *testing.T, to string) { mustCreate(t, to, board.New()) }, ErrInUse,
			`save film "copy.stillbeat": "copy.stillbeat" is open in another window`},
		{"a folder", func(t *testing.T, to string) {
			if err := os.Mkdir(to, 0o755); err != nil {
				t.Fatal(err)
			}
		}, nil, `save film "copy.stillbeat": "copy.stillbeat" is not a file and cannot be replaced`},
		{"a folder that is not there", func(t *testing.T, to string) {
			if err := os.Remove(filepath.Dir(to)); err != nil {
				t.Fatal(err)
			}
		}, os.ErrNotExist, `save film "copy.stillbeat": there is no such file or folder`},
	} {
		t.Run(c.name, func(t *testing.T) {
			f, _, _ := filmWithPicture(t)
			to := filepath.Join(t.TempDir(), "sub", "copy"+Ext)
			if err := os.Mkdir(filepath.Dir(to), 0o755); err != nil {
				t.Fatal(err)
			}
			c.make(t, to)
			checkError(t, f.CopyTo(to), c.is, c.want)
			if hidden, _ := filepath.Glob(filepath.Join(filepath.Dir(to), ".*")); hidden != nil {
				t.Errorf("left behind: %q", hidden)
			}
		})
	}
}

func TestCopyThatFailsLeavesTheTarget(t *testing.T) {
	film, _ := goodFilm(t)
	path := filepath.Join(t.TempDir(), "film"+Ext)
	mustWrite(t, path, film)
	f, _ := mustOpen(t, path)
	mustWrite(t, path, film[:len(film)/2]) // half of it is lost while it is open
	to := filepath.Join(t.TempDir(), "copy"+Ext)
	mustWrite(t, to, []byte("what was there"))
	if err := f.CopyTo(to); !errors.Is(err, ErrDamaged) {
		t.Errorf("got %v, want %v", err, ErrDamaged)
	}
	checkUntouched(t, to, []byte("what was there"))
}

func TestCompactDropsWhatIsNotUsed(t *testing.T) {
	f, b, path := filmWithPicture(t)
	if _, err := f.AddMedia(Picture, Media{Name: "unused.png", Data: noise(1<<20, 7)}); err != nil {
		t.Fatal(err)
	}
	songs, err := f.AddMedia(Song, Media{Name: "tune.mp3", Data: noise(1000, 8)})
	if err != nil {
		t.Fatal(err)
	}
	b.Song = &board.Song{Name: "tune.mp3", Media: songs[0], Seconds: 3}
	if err := f.SaveBoard(b); err != nil {
		t.Fatal(err)
	}
	won, err := f.Compact()
	if err != nil || won < 1<<20 {
		t.Fatalf("%d bytes won, %v", won, err)
	}
	mustClose(t, f)
	if size := len(mustRead(t, path)); size > 200000 {
		t.Errorf("the film has %d bytes after the picture of 1 MB was dropped", size)
	}
	f, got := mustOpen(t, path)
	checkBoard(t, got, b)
	for _, id := range []board.MediaID{b.Panels[1].Picture, b.Song.Media} {
		if _, err := f.Media(id); err != nil {
			t.Error(err)
		}
	}
	if media, contents := countRows(t, f, "media"), countRows(t, f, "content"); media != 2 || contents != 2 {
		t.Errorf("%d media with %d contents are left, want 2", media, contents)
	}
}
