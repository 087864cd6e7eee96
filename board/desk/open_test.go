package desk

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"os"
	"reflect"
	"testing"
	"testing/synctest"

	"stillbeat/board"
	"stillbeat/board/file"
)

func TestUndoSurvivesClosing(t *testing.T) {
	path := filmPath(t)
	d, err := Create(path, board.New())
	must(t, err)
	must(t, d.AddPictures(0, []ReadPicture{{Name: "cup.png", Data: pictureOf(t, 10)}}, 1))
	must(t, d.ReplacePicture(0, ReadPicture{Name: "spoon.png", Data: pictureOf(t, 20)}))
	must(t, d.Do(board.SetTitle("a")))
	must(t, d.Do(board.SetTitle("ab"))) // one step with the one before
	must(t, d.Do(board.SetStep(2)))
	d.Undo()
	must(t, d.Close())

	d = openForTest(t, path)
	names := []string{d.RedoName()}
	for d.UndoName() != "" {
		names = append(names, d.UndoName())
		if !d.Undo() {
			t.Fatal("undo fails")
		}
	}
	want := []string{"frames per exposure", "film title", "picture of panel 1", "add panel"}
	if !reflect.DeepEqual(names, want) {
		t.Errorf("the steps are %q, want %q", names, want)
	}
	d.Redo()
	checkPicture(t, d, 0, 10) // in the film for the sake of the history alone
	d.Redo()
	checkPicture(t, d, 0, 20)
	if !d.Redo() || !d.Redo() || d.Redo() || d.Board().Title != "ab" || d.Board().Step != 2 {
		t.Errorf("after redo the film is %q on %ds", d.Board().Title, d.Board().Step)
	}
}

// TestStepsOfABurst writes once after several edits, as when they follow each
// other faster than the disk: each is a step of its own on disk.
func TestStepsOfABurst(t *testing.T) {
	path := filmPath(t)
	d, err := Create(path, board.New())
	must(t, err)
	for i := range 50 {
		must(t, d.Do(board.SetStep(i%4+1)))
	}
	must(t, d.Close())
	d = openForTest(t, path)
	n := 0
	for d.Undo() {
		n++
	}
	if n != 50 || d.Board().Step != 1 {
		t.Errorf("%d steps lead back to a film on %ds", n, d.Board().Step)
	}
}

func TestSecondDeskOnlyShows(t *testing.T) {
	path := filmPath(t)
	d, err := Create(path, titled("a"))
	must(t, err)
	defer d.Close()
	must(t, d.AddPictures(0, []ReadPicture{{Name: "cup.png", Data: pictureOf(t, 10)}}, 1))
	must(t, d.Flush())
	if _, err := Open(path); !errors.Is(err, file.ErrInUse) {
		t.Errorf("a second editor: %v", err)
	}
	other, err := OpenOrView(path)
	must(t, err)
	defer other.Close()
	const shown = "it is open in another window, so it is only shown here"
	checkError(t, other.ReadOnly(), shown)
	checkPicture(t, other, 0, 10)
	if other.UndoName() != "add panel" || other.Undo() || other.Redo() {
		t.Errorf("undo %q works on a film that is only shown", other.UndoName())
	}
	for name, err := range map[string]error{
		"edit":    other.Do(board.SetTitle("b")),
		"picture": other.ReplacePicture(0, ReadPicture{Name: "spoon.png", Data: pictureOf(t, 20)}),
		"song":    other.LaySong(songForTest(t, "waltz.mp3", "one")),
		"compact": second(other.Compact()),
	} {
		if !errors.Is(err, file.ErrReadOnly) {
			t.Errorf("%s: %v", name, err)
		}
	}
	other.SetSetting("zoom", "9")
	must(t, d.Do(board.SetTitle("b")))
	must(t, d.Flush())
	changed := 0
	other.OnChange = func() { changed++ }
	must(t, other.SaveAs(filmPath(t)))
	if other.ReadOnly() != nil || other.Board().Title != "b" || changed != 1 || other.UndoName() != "film title" {
		t.Errorf("saved elsewhere it is %q, %v", other.Board().Title, other.ReadOnly())
	}
	must(t, other.Do(board.SetTitle("c")))
	must(t, other.Flush())
	if d.Board().Title != "b" || d.ReadOnly() != nil || d.Setting("zoom") != "" {
		t.Errorf("the first desk has %q, %v", d.Board().Title, d.ReadOnly())
	}
}

func second[T any](_ T, err error) error { return err }

func TestSalvagedFilm(t *testing.T) {
	path := filmPath(t)
	d, err := Create(path, titled("a"))
	must(t, err)
	must(t, d.AddPictures(0, []ReadPicture{{Name: "cup.png", Data: pictureOf(t, 10)}, {Name: "spoon.png", Data: append(pictureOf(t, 20), bytes.Repeat([]byte("spoon"), 2000)...)}}, 1))
	must(t, d.Close())
	damaged, err := os.ReadFile(path)
	must(t, err)
	damaged[16] ^= 0xff // in the header
	damaged[bytes.Index(damaged, []byte("spoonspoon"))] = 0
	must(t, os.WriteFile(path, damaged, 0o644))

	if _, err := OpenOrView(path); !errors.Is(err, file.ErrDamaged) {
		t.Fatalf("opening it: %v", err)
	}
	d, err = Salvage(context.Background(), path)
	must(t, err)
	if got := d.Missing(); !reflect.DeepEqual(got, []string{"1 of 2 pictures is damaged or missing"}) {
		t.Errorf("missing is %q", got)
	}
	checkError(t, d.ReadOnly(), "it is damaged, so it is only shown here")
	checkPicture(t, d, 0, 10)
	checkError(t, d.SaveAs(path), `save film "kettle.stillbeat": it is there already`)
	mended := filmPath(t)
	must(t, d.SaveAs(mended))
	if d.ReadOnly() != nil || d.Missing() != nil {
		t.Errorf("the repaired film: %v, %q", d.ReadOnly(), d.Missing())
	}
	must(t, d.Do(board.SetTitle("b")))
	must(t, d.Close())
	if got, err := os.ReadFile(path); err != nil || !bytes.Equal(got, damaged) {
		t.Errorf("the damaged film was changed, %v", err)
	}
	d = openForTest(t, mended)
	checkPicture(t, d, 0, 10)
	if d.Board().Title != "b" || !d.Undo() || d.UndoName() != "add 2 panels" {
		t.Errorf("the repaired film is %q, undo %q", d.Board().Title, d.UndoName())
	}
}

func TestStepThatCannotBeRead(t *testing.T) {
	path := filmPath(t)
	d, err := Create(path, board.New())
	must(t, err)
	must(t, d.Do(board.SetStep(2)))
	must(t, d.Do(board.SetStep(3)))
	must(t, d.Close())
	told := make(chan error, 1)
	d = openForTest(t, path)
	d.OnTrouble = func(err error) { told <- err }
	d.history.Shelve(emptyShelf{})
	if d.Undo() || d.UndoName() != "" || d.Board().Step != 3 {
		t.Errorf("undo leads to a film on %ds", d.Board().Step)
	}
	if err := <-told; err != errDisk {
		t.Errorf("told is %v", err)
	}
}

type emptyShelf struct{}

func (emptyShelf) Holds(board.StepID) bool { return false }

func (emptyShelf) Before(board.StepID, board.Board) (board.Board, error) {
	return board.Board{}, errDisk
}

func (emptyShelf) After(board.StepID, board.Board) (board.Board, error) {
	return board.Board{}, errDisk
}

// TestUnwrittenIsToldAndCleared fails to write, and then writes with the next
// edit.
func TestUnwrittenIsToldAndCleared(t *testing.T) {
	d := newDeskForTest(t)
	synctest.Test(t, func(t *testing.T) {
		var told []string
		d.OnTrouble = func(err error) { told = append(told, err.Error()) }
		d.OnWritten = func() { told = append(told, "written") }
		s := &slowSaver{fail: errDisk}
		d.keeper = newKeeper(s, d.told)
		must(t, d.Do(board.SetStep(2)))
		synctest.Wait()
		if d.Unwritten() != errDisk {
			t.Errorf("unwritten is %v", d.Unwritten())
		}
		must(t, d.Do(board.SetStep(3)))
		synctest.Wait()
		s.failing(nil)
		must(t, d.Do(board.SetStep(4)))
		synctest.Wait()
		must(t, d.Do(board.SetStep(1)))
		synctest.Wait()
		if d.Unwritten() != nil {
			t.Errorf("unwritten is %v", d.Unwritten())
		}
		if got := fmt.Sprint(told); got != fmt.Sprintf("[%v %v written]", errDisk, errDisk) {
			t.Errorf("told is %s", got)
		}
	})
}

func TestCompact(t *testing.T) {
	path := filmPath(t)
	d, err := Create(path, board.New())
	must(t, err)
	must(t, d.AddPictures(0, []ReadPicture{{Name: "cup.png", Data: append(pictureOf(t, 10), make([]byte, 1<<20)...)}}, 1))
	must(t, d.ReplacePicture(0, ReadPicture{Name: "spoon.png", Data: pictureOf(t, 20)}))
	changed := 0
	d.OnChange = func() { changed++ }
	won, err := d.Compact()
	if err != nil || won < 1<<20 || changed != 1 || d.UndoName() != "" || d.Undo() {
		t.Errorf("%d bytes are won, %v, undo is %q", won, err, d.UndoName())
	}
	must(t, d.Do(board.SetTitle("on")))
	must(t, d.Close())
	d = openForTest(t, path)
	checkPicture(t, d, 0, 20)
	if !d.Undo() || d.Undo() || d.Board().Title != "" {
		t.Errorf("undo leads to %q", d.Board().Title)
	}
}
