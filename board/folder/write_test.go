package folder

import (
	"context"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"reflect"
	"slices"
	"strings"
	"syscall"
	"testing"

	"stillbeat/board"
)

func TestWriteIntoAnEmptyFolder(t *testing.T) {
	b, s := drawnFilm(t)
	at := t.TempDir()
	dir := filepath.Join(at, "tea")
	must(t, os.Mkdir(dir, 0o700))
	before, err := os.Stat(dir)
	must(t, err)
	must(t, Write(context.Background(), dir, b, s.source, nil))
	holds(t, at, "tea")
	holds(t, dir, "film.json", "pictures", "sketches", "song")
	got, _, err := Read(context.Background(), dir, nil)
	must(t, err)
	if !reflect.DeepEqual(got, b) {
		t.Errorf("another board came back: %+v", got)
	}
	after, err := os.Stat(dir)
	must(t, err)
	if !os.SameFile(before, after) || after.Mode() != before.Mode() {
		t.Errorf("the folder was replaced: it was %v, it is %v", before.Mode(), after.Mode())
	}
}

// What keeps a folder from being written is one sentence, and nothing is left
// or changed.
func TestWriteRefuses(t *testing.T) {
	for _, c := range []struct {
		name    string
		prepare func(t *testing.T, dir string, b *board.Board, s store)
		want    string
		is      error
	}{
		{"a folder with something in it", func(t *testing.T, dir string, _ *board.Board, _ store) {
			must(t, os.Mkdir(dir, 0o755))
			must(t, os.WriteFile(filepath.Join(dir, "mine"), nil, 0o644))
		}, "with something in it", fs.ErrExist},
		{"a file", func(t *testing.T, dir string, _ *board.Board, _ store) {
			must(t, os.WriteFile(dir, []byte("mine"), 0o644))
		}, "already a file of that name", fs.ErrExist},
		{"a link to nothing", func(t *testing.T, dir string, _ *board.Board, _ store) {
			must(t, os.Symlink("nowhere", dir))
		}, "already a file of that name", fs.ErrExist},
		{"a board that breaks the rules", func(_ *testing.T, _ string, b *board.Board, _ store) { b.Step = 0 }, "a step is 1 to 12", nil},
		{"a picture that is lost", func(_ *testing.T, _ string, b *board.Board, s store) { delete(s, b.Panels[1].Picture) },
			"the picture of panel 2: there is no medium", nil},
		{"a sketch that is lost", func(_ *testing.T, _ string, b *board.Board, _ store) {
			b.Panels[2].Drawn = &board.Drawn{Sketch: idOf(nil)}
		}, "the sketch of panel 3: there is no medium", nil},
		{"a song that is lost", func(_ *testing.T, _ string, b *board.Board, s store) { delete(s, b.Song.Media) }, "the song: there is no medium", nil},
		{"more onsets than are read", func(_ *testing.T, _ string, b *board.Board, _ store) {
			b.Grid.Onsets = make([]board.Onset, maxOnsets+1)
		}, "500001 onsets: a folder holds at most 500000", nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			b, s := teaFilm(t)
			at := t.TempDir()
			dir := filepath.Join(at, "tea")
			c.prepare(t, dir, &b, s)
			before := tree(t, at)
			err := Write(context.Background(), dir, b, s.source, nil)
			oneSentence(t, err, `write folder "tea": `, c.want)
			if c.is != nil && !errors.Is(err, c.is) {
				t.Errorf("%v is not %v", err, c.is)
			}
			if after := tree(t, at); !slices.Equal(after, before) {
				t.Errorf("there is %q, there was %q", after, before)
			}
		})
	}
	b, s := teaFilm(t)
	err := Write(context.Background(), filepath.Join(t.TempDir(), "gone", "tea"), b, s.source, nil)
	oneSentence(t, err, `write folder "tea": there is no folder `, "gone")
}

// Whichever medium it is stopped at, nothing is there.
func TestWriteCanBeStopped(t *testing.T) {
	b, s := drawnFilm(t)
	for _, empty := range []bool{false, true} {
		for stopAt := range len(s) + 1 {
			ctx, cancel := context.WithCancel(context.Background())
			at := t.TempDir()
			dir := filepath.Join(at, "tea")
			want := []string{}
			if empty {
				must(t, os.Mkdir(dir, 0o755))
				want = append(want, "tea")
			}
			asked := 0
			if stopAt == 0 {
				cancel()
			}
			err := Write(ctx, dir, b, func(id board.MediaID) ([]byte, string, error) {
				if asked++; asked == stopAt {
					cancel()
				}
				return s.source(id)
			}, nil)
			if !errors.Is(err, context.Canceled) || asked != max(1, stopAt) {
				t.Errorf("stopped at %d: %v after %d media", stopAt, err, asked)
			}
			holds(t, at, want...)
			if len(want) > 0 {
				holds(t, dir)
			}
			cancel()
		}
	}
}

func TestProgressGoesUpToOne(t *testing.T) {
	b, s := teaFilm(t)
	var told []float64
	note := func(done float64) { told = append(told, done) }
	dir := filepath.Join(t.TempDir(), "tea")
	must(t, Write(context.Background(), dir, b, s.source, note))
	_, _, err := Read(context.Background(), dir, note)
	must(t, err)
	if want := []float64{1. / 3, 2. / 3, 1, 1. / 3, 2. / 3, 1}; !slices.Equal(told, want) {
		t.Errorf("told %v, want %v", told, want)
	}
}

func TestCausesInWords(t *testing.T) {
	for want, cause := range map[string]error{
		"the disk is full":                   syscall.ENOSPC,
		"there is no permission for it":      syscall.EACCES,
		"there is no such file or folder":    syscall.ENOENT,
		syscall.EROFS.Error():                syscall.EROFS,
		strings.ToLower(syscall.EIO.Error()): syscall.EIO,
	} {
		err := plain(&fs.PathError{Op: "write", Path: "secret/path", Err: cause})
		if err.Error() != want || !errors.Is(err, cause) {
			t.Errorf("%v is told as %q, want %q", cause, err, want)
		}
	}
	if got := plain(&os.LinkError{Op: "rename", Old: "a", New: "b", Err: syscall.EDQUOT}); got.Error() != "the disk is full" {
		t.Errorf("a full quota is told as %q", got)
	}
	if got := plain(errDisk); got != errDisk {
		t.Errorf("%v became %v", errDisk, got)
	}
}
