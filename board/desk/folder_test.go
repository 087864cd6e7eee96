package desk

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"testing"

	"stillbeat/board"
	"stillbeat/board/file"
	"stillbeat/board/folder"
)

// folderFilm makes a film with a song and three panels, of which two show the
// same picture.
func folderFilm(t *testing.T) *Desk {
	t.Helper()
	d := newDeskForTest(t)
	must(t, d.LaySong(songForTest(t, "waltz.wav", "x")))
	pictures := []ReadPicture{{Name: "Чашка.png", Data: pictureOf(t, 10)}, {Name: "spoon.png", Data: pictureOf(t, 20)}, {Name: "again.png", Data: pictureOf(t, 10)}}
	must(t, d.AddPictures(0, pictures, 2))
	must(t, d.Do(board.SetTitle("Tea dance")))
	sketch, err := board.EncodeSketch(board.Sketch{Strokes: []board.Stroke{{Width: 80, Dots: []board.Dot{{Wide: 255}, {X: 900, Wide: 90}}}}})
	must(t, err)
	ids, err := d.store.AddMedia(file.Sketch, file.Media{Name: "on the cup.sketch", Data: sketch})
	must(t, err)
	must(t, d.Do(board.SetSketch([]int{0, 2}, ids[0])))
	must(t, d.Do(board.AddLetter([]int{1}, board.NewLetter(board.Speech, "Not yet!", board.Aspect{}))))
	must(t, d.Do(board.SetAspect(board.Aspect{W: 4, H: 3})))
	return d
}

func TestAFilmAsAFolderAndBack(t *testing.T) {
	d := folderFilm(t)
	dir := filepath.Join(t.TempDir(), "tea")
	told := 0.0
	progress := func(done float64) {
		if done < told {
			t.Errorf("progress goes from %g back to %g", told, done)
		}
		told = done
	}
	must(t, d.WriteFolder(context.Background(), dir, d.Board(), progress))
	if told != 1 {
		t.Errorf("progress ends at %g", told)
	}
	told = 0
	back, err := NewFromFolder(context.Background(), dir, progress)
	must(t, err)
	t.Cleanup(func() { back.Close() })
	if told != 1 {
		t.Errorf("progress ends at %g", told)
	}
	if !reflect.DeepEqual(back.Board(), d.Board()) {
		t.Errorf("the board is\n%+v\nwant\n%+v", back.Board(), d.Board())
	}
	if back.Path() != "" || back.Undo() {
		t.Errorf("the film has the path %q, or a step to undo", back.Path())
	}
	if n := len(d.Board().Media()); n != 4 {
		t.Errorf("the film has %d media, want a song, two pictures and a sketch", n)
	}
	for _, id := range d.Board().Media() {
		want, err := d.store.MediaName(id)
		must(t, err)
		if got, err := back.store.MediaName(id); err != nil || got != want {
			t.Errorf("%.8s is called %q, want %q (%v)", id, got, want, err)
		}
	}
	checkPicture(t, back, 2, 10)

	path := filmPath(t)
	scratch := back.store.Path()
	must(t, back.SaveAs(path))
	must(t, back.Close())
	if exists(scratch) {
		t.Error("the scratch file is left behind")
	}
	again := openForTest(t, path)
	if !reflect.DeepEqual(again.Board(), d.Board()) {
		t.Error("the film saved has another board")
	}
	checkPicture(t, again, 1, 20)
}

// A folder that cannot be taken in leaves no film behind, wherever it stops.
func TestFoldersThatCannotBeTakenIn(t *testing.T) {
	d := folderFilm(t)
	dir := filepath.Join(t.TempDir(), "tea")
	must(t, d.WriteFolder(context.Background(), dir, d.Board(), nil))
	scratch := filepath.Dir(d.store.Path())
	before, err := os.ReadDir(scratch)
	must(t, err)
	for stopAt := 1; stopAt <= 4; stopAt++ {
		ctx, cancel := context.WithCancel(context.Background())
		told := 0
		_, err := NewFromFolder(ctx, dir, func(float64) {
			if told++; told == stopAt {
				cancel()
			}
		})
		if !errors.Is(err, context.Canceled) {
			t.Errorf("stopped at %d: %v", stopAt, err)
		}
		cancel()
	}
	_, err = NewFromFolder(context.Background(), filepath.Dir(dir), nil)
	if !errors.Is(err, folder.ErrNotFilm) {
		t.Errorf("a folder of anything: %v", err)
	}
	after, err := os.ReadDir(scratch)
	must(t, err)
	if len(after) != len(before) {
		t.Errorf("there are %d scratch films, there were %d", len(after), len(before))
	}
}

func TestWriteFolderOfALostPicture(t *testing.T) {
	d := folderFilm(t)
	b := d.Board()
	must(t, d.Do(board.SetPicture([]int{1}, board.MediaID(strings.Repeat("ab", 32)))))
	dir := filepath.Join(t.TempDir(), "tea")
	err := d.WriteFolder(context.Background(), dir, d.Board(), nil)
	if err == nil || exists(dir) {
		t.Errorf("a picture that is not there: %v", err)
	}
	must(t, d.WriteFolder(context.Background(), dir, b, nil)) // the board handed in, not the one now
}
