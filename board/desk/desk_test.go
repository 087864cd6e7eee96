package desk

import (
	"context"
	"errors"
	"io/fs"
	"os"
	"path/filepath"
	"reflect"
	"sync"
	"testing"

	"stillbeat/board"
	"stillbeat/board/file"
	"stillbeat/board/picture"
)

func TestEditsAreFoundOnReopening(t *testing.T) {
	path := filmPath(t)
	d, err := Create(path, titled("The kettle dances"))
	must(t, err)
	must(t, d.AddPictures(0, []ReadPicture{{Name: "cup.png", Data: pictureOf(t, 10)}, {Name: "spoon.png", Data: pictureOf(t, 20)}}, 1))
	must(t, d.LaySong(songForTest(t, "waltz.mp3", "one")))
	must(t, d.Do(board.SetRate(board.FrameRate{Num: 12, Den: 1})))
	must(t, d.Do(board.SetTitle("The kettle waltzes")))
	d.SetSetting("zoom", "2.5")
	must(t, d.Flush())
	want := d.Board()
	must(t, d.Close())

	d = openForTest(t, path)
	if got := d.Board(); !reflect.DeepEqual(got, want) {
		t.Errorf("another film:\ngot  %+v\nwant %+v", got, want)
	}
	if d.Path() != path || d.Name() != "The kettle waltzes" || d.Untitled() || d.Setting("zoom") != "2.5" {
		t.Errorf("path %q, name %q, untitled %v, zoom %q", d.Path(), d.Name(), d.Untitled(), d.Setting("zoom"))
	}
	checkPicture(t, d, 1, 20)
	if d.Sound() != nil {
		t.Error("the song is decoded already")
	}
	if got := string(d.Waveform()); got != "~one" {
		t.Errorf("the waveform is %q", got)
	}
	s, err := d.LoadSong(context.Background(), d.Board(), fakeEar{}, Wish{Samples: true}, nil)
	if err != nil || s.Title != "one" || s.Sound == nil {
		t.Errorf("LoadSong = %+v, %v", s, err)
	}
}

func TestUndoAndRedo(t *testing.T) {
	d := newDeskForTest(t)
	changes := 0
	d.OnChange = func() { changes++ }
	if d.Undo() || d.Redo() || d.UndoName() != "" || d.RedoName() != "" {
		t.Error("there is something to undo in a new film")
	}
	must(t, d.Do(board.SetTitle("a")))
	d.CloseEdit()
	must(t, d.Do(board.SetTitle("b")))
	if err := d.Do(board.SetStep(99)); err == nil || changes != 2 {
		t.Errorf("a refused edit: %v after %d changes", err, changes)
	}
	if !d.Undo() || d.Board().Title != "a" || d.RedoName() == "" {
		t.Errorf("after undo the title is %q", d.Board().Title)
	}
	if !d.Undo() || d.Board().Title != "" || d.Undo() {
		t.Errorf("after all undo the title is %q", d.Board().Title)
	}
	if !d.Redo() || !d.Redo() || d.Redo() || d.Board().Title != "b" || changes != 6 {
		t.Errorf("after redo the title is %q after %d changes", d.Board().Title, changes)
	}
}

func TestScratchFilm(t *testing.T) {
	d := newDeskForTest(t)
	scratch := d.store.Path()
	if d.Path() != "" || d.Name() != "Untitled film" || d.Untitled() || !exists(scratch) {
		t.Errorf("path %q, name %q, untitled %v, scratch there: %v", d.Path(), d.Name(), d.Untitled(), exists(scratch))
	}
	for _, c := range []struct {
		name string
		do   func() error
	}{
		{"a title", func() error { return d.Do(board.SetTitle("a")) }},
		{"a picture", func() error { return d.AddPictures(0, []ReadPicture{{Name: "cup.png", Data: pictureOf(t, 1)}}, 1) }},
		{"a song", func() error { return d.LaySong(songForTest(t, "waltz.mp3", "one")) }},
	} {
		must(t, c.do())
		if !d.Untitled() {
			t.Errorf("%s would be lost without a word", c.name)
		}
		d.Undo()
		if d.Untitled() {
			t.Errorf("%s, taken back, is asked about", c.name)
		}
	}
	must(t, d.Close())
	if exists(scratch) {
		t.Error("the scratch file is left behind")
	}
}

func TestSaveAs(t *testing.T) {
	d := newDeskForTest(t)
	must(t, d.AddPictures(0, []ReadPicture{{Name: "cup.png", Data: pictureOf(t, 10)}}, 1))
	checkPicture(t, d, 0, 10)
	scratch, path := d.store.Path(), filmPath(t)
	must(t, d.SaveAs(path))
	if exists(scratch) || d.Path() != path || d.Name() != "kettle" || d.Untitled() {
		t.Errorf("scratch there: %v, path %q, name %q, untitled %v", exists(scratch), d.Path(), d.Name(), d.Untitled())
	}
	if d.Pictures.Drawn(picture.PictureShot(d.Board().Panels[0].Picture, 16, 9), 16, 9) == nil {
		t.Error("the drawn pictures were dropped")
	}
	must(t, d.ReplacePicture(0, ReadPicture{Name: "spoon.png", Data: pictureOf(t, 20)}))
	if !d.Undo() {
		t.Error("there is nothing to undo after SaveAs")
	}
	checkPicture(t, d, 0, 10)
	d.Redo()
	must(t, d.Close())
	if !exists(path) {
		t.Fatal("closing removed the film")
	}
	checkPicture(t, openForTest(t, path), 0, 20)
}

func TestSaveCopyStays(t *testing.T) {
	path, to := filmPath(t), filmPath(t)
	d, err := Create(path, titled("a"))
	must(t, err)
	defer d.Close()
	must(t, d.Do(board.SetTitle("b")))
	must(t, d.SaveCopy(to))
	must(t, d.Do(board.SetTitle("c")))
	if d.Path() != path {
		t.Errorf("the film is at %q now", d.Path())
	}
	if got := openForTest(t, to).Board().Title; got != "b" {
		t.Errorf("the copy is called %q, want b", got)
	}
}

func TestSavingThatFailsLeavesTheDesk(t *testing.T) {
	notAFolder := writeFile(t, "props.txt", []byte("a cup"))
	for _, c := range []struct {
		name string
		to   func(path string) string
		want string
	}{
		{"onto itself", func(path string) string { return path }, `save film "kettle.stillbeat": it is there already`},
		{"onto itself by a link", func(path string) string {
			link := filepath.Join(filepath.Dir(path), "link"+file.Ext)
			must(t, os.Symlink(path, link))
			return link
		}, `save film "link.stillbeat": it is there already`},
		{"to a folder that is not there", func(path string) string { return filepath.Join(filepath.Dir(path), "sub", "copy"+file.Ext) },
			`save film "copy.stillbeat": there is no such file or folder`},
		{"to a folder that is a file", func(string) string { return filepath.Join(notAFolder, "copy"+file.Ext) },
			`save film "copy.stillbeat": not a directory`},
		{"onto a film that is open", func(string) string {
			other := newDeskForTest(t)
			to := filepath.Join(t.TempDir(), "copy"+file.Ext)
			must(t, other.SaveAs(to))
			return to
		}, `save film "copy.stillbeat": "copy.stillbeat" is open in another window`},
	} {
		t.Run(c.name, func(t *testing.T) {
			path := filmPath(t)
			d, err := Create(path, board.New())
			must(t, err)
			must(t, d.AddPictures(0, []ReadPicture{{Name: "cup.png", Data: pictureOf(t, 10)}}, 1))
			to := c.to(path)
			checkError(t, d.SaveAs(to), c.want)
			checkError(t, d.SaveCopy(to), c.want)
			must(t, d.Do(board.SetTitle("afterwards")))
			checkPicture(t, d, 0, 10)
			must(t, d.Close())
			if got := openForTest(t, path).Board(); got.Title != "afterwards" || len(got.Panels) != 1 {
				t.Errorf("the film holds %q with %d panels", got.Title, len(got.Panels))
			}
		})
	}
}

// TestUnwrittenEdits has a store that takes no board any more, as on a full
// disk: the film goes on in memory and can be saved elsewhere.
func TestUnwrittenEdits(t *testing.T) {
	d := newDeskForTest(t)
	must(t, d.AddPictures(0, []ReadPicture{{Name: "cup.png", Data: pictureOf(t, 10)}}, 1))
	must(t, d.Flush())
	var mu sync.Mutex
	var told error
	d.OnTrouble = func(err error) {
		mu.Lock()
		defer mu.Unlock()
		told = err
	}
	d.keeper.stop()
	d.keeper = newKeeper(&slowSaver{fail: errDisk}, d.OnTrouble)
	must(t, d.Do(board.SetTitle("not written")))
	if err := d.Flush(); err != errDisk {
		t.Errorf("Flush = %v", err)
	}
	mu.Lock()
	if told != errDisk {
		t.Errorf("OnTrouble was told %v", told)
	}
	mu.Unlock()
	copied, path := filmPath(t), filmPath(t)
	must(t, d.SaveCopy(copied))
	must(t, d.SaveAs(path))
	must(t, d.Flush())
	must(t, d.Close())
	for _, p := range []string{copied, path} {
		f := openForTest(t, p)
		if got := f.Board().Title; got != "not written" {
			t.Errorf("%q was saved", got)
		}
		checkPicture(t, f, 0, 10)
	}
}

// TestFilmThatVanished loses the file under the open film: the last edits
// are saved elsewhere, or at the same place again.
func TestFilmThatVanished(t *testing.T) {
	for _, c := range []struct {
		name string
		to   func(path string) string
	}{
		{"saved elsewhere", func(string) string { return filmPath(t) }},
		{"saved at the same place", func(path string) string { return path }},
	} {
		t.Run(c.name, func(t *testing.T) {
			path := filmPath(t)
			d, err := Create(path, board.New())
			must(t, err)
			must(t, os.Remove(path))
			must(t, d.Do(board.SetTitle("last words")))
			if err := d.Flush(); !errors.Is(err, fs.ErrNotExist) {
				t.Errorf("Flush = %v", err)
			}
			to := c.to(path)
			must(t, d.SaveAs(to))
			must(t, d.Close())
			if got := openForTest(t, to).Board().Title; got != "last words" {
				t.Errorf("%q was saved", got)
			}
		})
	}
}

// TestCloseTriesAgain frees the disk between a failed write and Close.
func TestCloseTriesAgain(t *testing.T) {
	d, err := Create(filmPath(t), board.New())
	must(t, err)
	s := &slowSaver{fail: errDisk}
	d.keeper = newKeeper(s, func(error) {})
	must(t, d.Do(board.SetTitle("late")))
	if err := d.Flush(); err != errDisk {
		t.Errorf("Flush = %v", err)
	}
	s.failing(nil)
	must(t, d.Close())
	if len(s.titles) != 1 || s.titles[0] != "late" {
		t.Errorf("written: %v", s.titles)
	}
}

func TestSoundFollowsUndo(t *testing.T) {
	d := newDeskForTest(t)
	if d.Sound() != nil {
		t.Error("a film without a song has a sound")
	}
	if s, err := d.LoadSong(context.Background(), d.Board(), fakeEar{}, Wish{Samples: true}, nil); s != nil || err != nil || d.Waveform() != nil {
		t.Errorf("LoadSong without a song = %v, %v, waveform %q", s, err, d.Waveform())
	}
	first, second := songForTest(t, "first.mp3", "one"), songForTest(t, "second.mp3", "two")
	var seen board.Sound
	d.OnChange = func() { seen = d.Sound() }
	must(t, d.LaySong(first))
	if seen != first.Sound {
		t.Error("the sound is not there when the change is told")
	}
	must(t, d.LaySong(second))
	for _, c := range []struct {
		name string
		do   func() bool
		want board.Sound
	}{
		{"undo", d.Undo, first.Sound}, {"undo all", d.Undo, nil},
		{"redo", d.Redo, first.Sound}, {"redo all", d.Redo, second.Sound},
	} {
		if !c.do() || d.Sound() != c.want || seen != c.want {
			t.Errorf("%s: the sound is %v, want %v", c.name, d.Sound(), c.want)
		}
	}
	must(t, d.Do(board.SetSong(nil, board.Grid{})))
	if d.Sound() != nil {
		t.Error("the song is gone and its sound is there")
	}
}

func TestFewSoundsAreKept(t *testing.T) {
	d := newDeskForTest(t)
	for _, name := range []string{"a", "b", "c", "d", "e"} {
		must(t, d.LaySong(songForTest(t, name+".mp3", name)))
	}
	if len(d.songs) != maxSongs || len(d.recent) != maxSongs {
		t.Errorf("%d sounds are kept, want %d", len(d.songs), maxSongs)
	}
	d.Undo()
	d.Undo()
	if s, _ := d.Sound().(*silence); s == nil || s.title != "c" {
		t.Errorf("two songs back: %v", s)
	}
	d.Undo()
	if d.Sound() != nil {
		t.Error("three songs back is kept")
	}
	s, err := d.LoadSong(context.Background(), d.Board(), fakeEar{}, Wish{Samples: true}, nil)
	must(t, err)
	d.SetSong(d.Board().Song.Media, s)
	if got, _ := d.Sound().(*silence); got == nil || got.title != "b" {
		t.Errorf("loaded again: %v", got)
	}
}

func TestRefusedEditsLeaveTheFilm(t *testing.T) {
	d := newDeskForTest(t)
	must(t, d.AddPictures(0, []ReadPicture{{Name: "cup.png", Data: pictureOf(t, 10)}}, 1))
	before := d.Board()
	empty := songForTest(t, "waltz.mp3", "one")
	empty.Data = nil
	for _, c := range []struct {
		name string
		err  error
	}{
		{"pictures at a place that is not there", d.AddPictures(7, []ReadPicture{{Name: "cup.png", Data: pictureOf(t, 1)}}, 1)},
		{"a picture without bytes", d.AddPictures(0, []ReadPicture{{Name: "cup.png", Data: nil}}, 1)},
		{"the picture of a panel that is not there", d.ReplacePicture(7, ReadPicture{Name: "cup.png", Data: pictureOf(t, 1)})},
		{"a song without bytes", d.LaySong(empty)},
	} {
		if c.err == nil {
			t.Errorf("%s: no error", c.name)
		}
	}
	must(t, d.AddPictures(0, nil, 1)) // nothing to do
	if !reflect.DeepEqual(d.Board(), before) {
		t.Error("the film was changed")
	}
	d.Undo()
	if d.Undo() {
		t.Error("a refused edit can be undone")
	}
}

// TestMediaDuringSaveAs reads pictures on other goroutines while the film
// moves from file to file, as the timeline and an export do.
func TestMediaDuringSaveAs(t *testing.T) {
	d := newDeskForTest(t)
	must(t, d.AddPictures(0, []ReadPicture{{Name: "cup.png", Data: pictureOf(t, 10)}}, 1))
	id, cache := d.Board().Panels[0].Picture, d.Pictures
	stop := make(chan struct{})
	var all sync.WaitGroup
	for g := range 2 {
		all.Go(func() {
			for i := 0; ; i++ {
				select {
				case <-stop:
					return
				default:
				}
				if _, err := d.Media(id); err != nil {
					t.Error(err)
				}
				if _, err := cache.Draw(picture.PictureShot(id, 1+i%50, 1+g), 1+i%50, 1+g); err != nil {
					t.Error(err)
				}
			}
		})
	}
	for range 3 {
		must(t, d.SaveAs(filmPath(t)))
	}
	close(stop)
	all.Wait()
}

func TestCreateAndOpenRefuse(t *testing.T) {
	notes := writeFile(t, "notes"+file.Ext, []byte("props"))
	_, err := Create(notes, board.New())
	checkError(t, err, `create film "notes.stillbeat": there is already a file of that name`)
	if d, err := Open(notes); !errors.Is(err, file.ErrNotFilm) || d != nil {
		t.Errorf("Open = %v, %v", d, err)
	}
}

func TestNewWithoutACache(t *testing.T) {
	t.Setenv("XDG_CACHE_HOME", writeFile(t, "cache", []byte("not a folder")))
	if d, err := New(); err == nil || d != nil {
		t.Errorf("New = %v, %v", d, err)
	}
}
