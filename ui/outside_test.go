package ui

import (
	"bytes"
	"errors"
	"image"
	"image/color"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"stillbeat/board"
	"stillbeat/board/picture"
)

// openOutsideTest opens a film of two panels and lends the first one's picture;
// it returns the file that another program would have open.
func openOutsideTest(t *testing.T) (w *window, path string) {
	t.Helper()
	w = openWindow(t)
	w.bringPictures(writePictures(t, 2))
	settle(t, w)
	w.choose(0)
	w.outside.every = 5 * time.Millisecond
	w.outside.open = func(_, p string) error { path = p; return nil }
	t.Cleanup(w.outside.Stop)
	run(t, w, outsideName)
	settle(t, w)
	if path == "" {
		t.Fatalf("no program was opened; the foot says %q", w.foot.words.Text)
	}
	return w, path
}

func waitFor(t *testing.T, w *window, what string, ok func() bool) {
	t.Helper()
	for end := time.Now().Add(5 * time.Second); !ok(); {
		if time.Now().After(end) {
			t.Fatalf("it does not come to: %s; the foot says %q", what, w.foot.words.Text)
		}
		settle(t, w)
	}
}

func mustWrite(t *testing.T, path string, data []byte) {
	t.Helper()
	if err := os.WriteFile(path, data, 0o600); err != nil {
		t.Fatal(err)
	}
}

func bytesOf(t *testing.T, path string) []byte {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return data
}

func TestPictureComesBackFromAnotherProgram(t *testing.T) {
	w, path := openOutsideTest(t)
	first := w.board.Panels[0].Picture
	data, err := w.desk.Media(first)
	if err != nil || !bytes.Equal(data, bytesOf(t, path)) || !strings.HasSuffix(path, ".png") {
		t.Fatalf("lent as %s: %v", path, err)
	}
	steps := len(w.desk.Past().Steps)

	saves := writePictures(t, 4)
	mustWrite(t, path, bytesOf(t, saves[2]))
	waitFor(t, w, "the panel has what was saved", func() bool { return w.board.Panels[0].Picture != first })
	second := w.board.Panels[0].Picture

	next := path + ".new" // as programs do that write beside and rename
	mustWrite(t, next, bytesOf(t, saves[3]))
	if err := os.Rename(next, path); err != nil {
		t.Fatal(err)
	}
	waitFor(t, w, "the panel has what was saved then", func() bool { return w.board.Panels[0].Picture != second })
	if got := len(w.desk.Past().Steps) - steps; got != 2 {
		t.Errorf("two saves are %d steps to undo", got)
	}
	w.desk.Undo()
	w.desk.Undo()
	if w.board.Panels[0].Picture != first {
		t.Error("undone twice it is not the first picture")
	}
}

// TestABlankPanelIsLentAsASheet: with what is drawn on it, which is the picture's
// when that comes back.
func TestABlankPanelIsLentAsASheet(t *testing.T) {
	w := openWindow(t)
	w.addBlank(false)
	w.choose(0)
	w.do(board.SetAspect(board.Aspect{W: 9, H: 16}))
	dot := board.Stroke{Layer: board.Middle, Ink: color.NRGBA{R: 200, A: 255}, Width: 2000, Dots: []board.Dot{{Wide: 255}}}
	id, err := w.desk.KeepSketch(board.Sketch{Strokes: []board.Stroke{dot}}, "")
	if err != nil {
		t.Fatal(err)
	}
	w.do(board.DrawOn(0, "stroke", id))
	w.do(board.AddLetter([]int{0}, board.NewLetter(board.TitleCard, "The salt has run out", w.board.Aspect)))
	w.desk.CloseEdit()
	before := w.board.Panels[0]
	w.outside.every = 5 * time.Millisecond
	path := ""
	w.outside.open = func(_, p string) error { path = p; return nil }
	t.Cleanup(w.outside.Stop)
	run(t, w, outsideName)
	settle(t, w)
	if path == "" {
		t.Fatalf("no program was opened; the foot says %q", w.foot.words.Text)
	}
	sheet, err := picture.Decode(bytesOf(t, path))
	if err != nil {
		t.Fatal(err)
	}
	if got := sheet.Bounds().Size(); got != image.Pt(1440, 2560) {
		t.Errorf("the sheet is %v", got)
	}
	if r, g, _, _ := sheet.At(720, 1280).RGBA(); r>>8 != 200 || g != 0 {
		t.Errorf("the middle, where a stroke is and lettering over it, is %v", sheet.At(720, 1280))
	}
	if r, g, b, _ := sheet.At(30, 1280).RGBA(); min(r, g, b)>>8 < 200 {
		t.Errorf("the edge is %v, not paper", sheet.At(30, 1280))
	}

	mustWrite(t, path, bytesOf(t, writePictures(t, 2)[1]))
	waitFor(t, w, "the panel has what was saved", func() bool { return w.board.Panels[0].Picture != "" })
	if d := w.board.Panels[0].Drawing(); d.Sketch != "" || len(d.Lettering) != 1 {
		t.Errorf("the strokes are there twice, or the lettering is gone: %+v", d)
	}
	run(t, w, "Undo")
	if got := w.board.Panels[0]; got.Picture != "" || got.Drawing().Sketch != before.Drawing().Sketch {
		t.Errorf("undone it is %+v", got)
	}
}

func TestHalfWrittenSaveIsNotTaken(t *testing.T) {
	w, path := openOutsideTest(t)
	before := w.board
	whole := bytesOf(t, writePictures(t, 3)[2])
	damaged := bytes.Clone(whole)
	damaged[len(damaged)/2] ^= 0xff
	for name, data := range map[string][]byte{"half of it": whole[:len(whole)/2], "a byte of it another": damaged, "words": []byte("spoons and cups")} {
		w.foot.Say("")
		mustWrite(t, path, data)
		waitFor(t, w, name+" is told", func() bool { return strings.Contains(w.foot.words.Text, "keeps its picture") })
		if w.board.Panels[0].Picture != before.Panels[0].Picture {
			t.Errorf("%s was taken", name)
		}
	}
	mustWrite(t, path, whole)
	waitFor(t, w, "the whole is taken", func() bool { return w.board.Panels[0].Picture != before.Panels[0].Picture })
}

func TestNothingComesBackToAFilmThatIsClosed(t *testing.T) {
	w, path := openOutsideTest(t)
	ctx := w.outside.ctx
	w.openFilm("")
	if ctx.Err() == nil {
		t.Fatal("the film that was closed is still watched for")
	}
	mustWrite(t, path, bytesOf(t, writePictures(t, 3)[2]))
	time.Sleep(40 * time.Millisecond)
	settle(t, w)
	if len(w.board.Panels) != 0 || w.desk.UndoName() != "" {
		t.Error("the save went into another film")
	}
}

func TestSaveForAPanelThatIsGone(t *testing.T) {
	w, path := openOutsideTest(t)
	w.do(board.Delete([]int{0}))
	mustWrite(t, path, bytesOf(t, writePictures(t, 3)[2]))
	waitFor(t, w, "it is told", func() bool { return strings.Contains(w.foot.words.Text, "no longer in the film") })
}

func TestProgramThatCannotBeStarted(t *testing.T) {
	w := openWindow(t)
	w.bringPictures(writePictures(t, 1))
	settle(t, w)
	w.choose(0)
	w.outside.open = func(_, _ string) error { return errors.New("paint cannot be started") }
	run(t, w, outsideName)
	settle(t, w)
	if w.win.Canvas().Overlays().Top() == nil || w.outside.stop != nil {
		t.Error("it is not told, or the file is watched all the same")
	}
	if err := startProgram(filepath.Join(t.TempDir(), "no such program"), "a.png", nil); err == nil {
		t.Error("a program that is not there gives no error")
	}
}

func TestLentPicturesAreSweptAway(t *testing.T) {
	t.Setenv("XDG_CACHE_HOME", t.TempDir())
	t.Setenv("HOME", t.TempDir())
	old, err := lend([]byte("\x89PNG\r\n\x1a\n"), "panel 1: cup/spoon")
	if err != nil {
		t.Fatal(err)
	}
	if got := filepath.Base(old); got != "panel 1- cup-spoon.png" {
		t.Errorf("it is called %q", got)
	}
	long := time.Now().Add(-40 * 24 * time.Hour)
	for _, p := range []string{old, filepath.Dir(old)} {
		if err := os.Chtimes(p, long, long); err != nil {
			t.Fatal(err)
		}
	}
	fresh, err := lend([]byte("GIF89a"), "b")
	if err != nil {
		t.Fatal(err)
	}
	if _, err := os.Stat(old); err == nil {
		t.Error("a picture lent forty days ago is still there")
	}
	if _, err := os.Stat(fresh); err != nil || filepath.Ext(fresh) != ".gif" {
		t.Errorf("%s: %v", fresh, err)
	}
}
