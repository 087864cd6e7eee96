package ui

import (
	"bytes"
	"context"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"stillbeat/board"
	"stillbeat/board/desk"
	"stillbeat/board/file"
)

// saveFilm gives the film on the desk a name.
func saveFilm(t *testing.T, w *window, name string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name+file.Ext)
	if err := w.desk.SaveAs(path); err != nil {
		t.Fatal(err)
	}
	w.remember()
	return path
}

func TestAFilmOpensWhereItWasLeft(t *testing.T) {
	w := openWindow(t)
	bringIn(t, w, 4)
	kettle := saveFilm(t, w, "kettle")
	w.choose(2)
	w.seek(w.starts[2] + 3)
	w.timeline.zoom(5, 200)
	from, perSec, at := w.timeline.view.from, w.timeline.view.perSec, w.at

	w.openFilm("")
	if w.at != 0 || !w.timeline.whole {
		t.Fatalf("an empty film opens at frame %d, the whole in sight: %v", w.at, w.timeline.whole)
	}
	w.openFilm(kettle)
	settle(t, w)
	v := w.timeline.view
	if w.at != at || w.chosen != 2 || math.Abs(v.from-from) > 1e-9 || math.Abs(v.perSec-perSec) > 1e-9 {
		t.Errorf("it opens at frame %d, panel %d, from %g at %g a second; it was left at %d, 2, %g, %g",
			w.at, w.chosen, v.from, v.perSec, at, from, perSec)
	}

	w.desk.SetSetting(placeSetting, `{"at":-1e300,"chosen":99,"from":1e300,"perSec":1}`)
	w.openFilm("")
	w.desk.SetSetting(placeSetting, `no place`)
	w.takePlace()
	w.openFilm(kettle)
	settle(t, w)
	if w.at < 0 || w.at > w.lastFrame() || w.chosen >= len(w.board.Panels) {
		t.Errorf("a place outside the film led to frame %d, panel %d", w.at, w.chosen)
	}
}

func TestFilmsOpenedLately(t *testing.T) {
	w := openWindow(t)
	if got := w.recentFilms(); len(got) > 0 {
		t.Fatalf("before the first there are %v", got)
	}
	w.recentDialog()
	if w.win.Canvas().Overlays().Top() != nil {
		t.Error("an empty list is shown")
	}
	bringIn(t, w, 1)
	kettle := saveFilm(t, w, "kettle")
	w.openFilm("")
	bringIn(t, w, 1)
	spoon := saveFilm(t, w, "ложка")
	if got := w.recentFilms(); len(got) != 1 || got[0] != kettle {
		t.Errorf("with the second film open the list is %v, want %v", got, kettle)
	}
	w.openFilm("")
	if got := w.recentFilms(); len(got) != 2 || got[0] != spoon || got[1] != kettle {
		t.Errorf("the list is %v, want %v and %v", got, spoon, kettle)
	}
	if n := len(w.welcome.lately.Objects); n != 3 {
		t.Errorf("the welcome offers %d objects, want a word and two films", n)
	}
	w.recentDialog()
	if w.win.Canvas().Overlays().Top() == nil {
		t.Error("the list is not shown")
	}
}

// wantNotice fails unless the strip says words and the film is as told.
func wantNotice(t *testing.T, w *window, words string) {
	t.Helper()
	if got := w.notice.words.Text; !w.notice.root.Visible() || !strings.Contains(got, words) {
		t.Errorf("the notice, shown %v, says %q, want %q", w.notice.root.Visible(), got, words)
	}
}

func TestAFilmThatIsOpenElsewhereIsShown(t *testing.T) {
	w := openWindow(t)
	bringIn(t, w, 2)
	kettle := saveFilm(t, w, "kettle")
	other, err := desk.New()
	if err != nil {
		t.Fatal(err)
	}
	mine := w.desk
	w.setDesk(other) // mine stays open, as in another window
	defer mine.Close()
	w.openFilm(kettle)
	settle(t, w)
	wantNotice(t, w, "open in another window")
	if len(w.board.Panels) != 2 {
		t.Fatalf("%d panels are shown", len(w.board.Panels))
	}
	w.choose(0)
	for _, c := range w.commands {
		if can := c.can == nil || c.can(); can && editMenus[c.menu] && !c.looks && c.name != "" {
			t.Errorf("%s can be done to a film that is only shown", c.name)
		}
	}
	w.do(board.Duplicate([]int{0})) // as by dragging
	if len(w.board.Panels) != 2 || w.foot.words.Text == "" {
		t.Errorf("a film that is only shown was changed; the foot says %q", w.foot.words.Text)
	}
	copied := filepath.Join(t.TempDir(), "copy"+file.Ext)
	if err := w.desk.SaveAs(copied); err != nil {
		t.Fatal(err)
	}
	w.show()
	if w.notice.root.Visible() {
		t.Errorf("saved elsewhere the notice says %q", w.notice.words.Text)
	}
	run(t, w, "Duplicate")
	if len(w.board.Panels) != 3 {
		t.Error("the copy cannot be changed")
	}
}

func TestADamagedFilmIsShownAsFarAsItGoes(t *testing.T) {
	w := openWindow(t)
	bringIn(t, w, 3)
	kettle := saveFilm(t, w, "kettle")
	w.openFilm("")
	data, err := os.ReadFile(kettle)
	if err != nil {
		t.Fatal(err)
	}
	// The page of the film's own row of the board.
	at := bytes.Index(data, []byte(`"panels":[`))
	if at < 0 {
		t.Fatal("no board in the file")
	}
	copy(data[at:], make([]byte, 40))
	if err := os.WriteFile(kettle, data, 0o600); err != nil {
		t.Fatal(err)
	}
	w.openFilm(kettle)
	settle(t, w)
	wantNotice(t, w, "This film is damaged")
	if len(w.board.Panels) != 3 {
		t.Errorf("%d of 3 panels are shown", len(w.board.Panels))
	}
	after, err := os.ReadFile(kettle)
	if err != nil || !bytes.Equal(after, data) {
		t.Error("the damaged file was changed")
	}
}

func TestAFilmAsAFolderAndSmaller(t *testing.T) {
	w := openWindow(t)
	bringIn(t, w, 2)
	saveFilm(t, w, "kettle")
	dir := filepath.Join(t.TempDir(), "kettle")
	if err := w.desk.WriteFolder(context.Background(), dir, w.board, nil); err != nil {
		t.Fatal(err)
	}
	read, err := desk.NewFromFolder(context.Background(), dir, nil)
	if err != nil {
		t.Fatal(err)
	}
	want := titles(w)
	w.adoptDesk(read)
	settle(t, w)
	if got := titles(w); got != want || !w.desk.Untitled() {
		t.Errorf("read from the folder the panels are %q, want %q; without a name: %v", got, want, w.desk.Untitled())
	}
	w.choose(0)
	run(t, w, "Duplicate")
	if _, err := w.desk.Compact(); err != nil {
		t.Fatal(err)
	}
	if w.desk.UndoName() != "" || len(w.board.Panels) != 3 {
		t.Errorf("compacted, undo is %q and there are %d panels", w.desk.UndoName(), len(w.board.Panels))
	}
}

func TestALongNoticeCoversNothing(t *testing.T) {
	w := openWindow(t)
	bringIn(t, w, 2)
	w.notice.Say(strings.Repeat("The last changes are not on disk. ", 8), quiet("Save elsewhere…", w.saveAs))
	bottom := w.notice.root.Position().Y + w.notice.words.MinSize().Height
	if lines := w.notice.words.MinSize().Height / 16; lines < 2 {
		t.Fatal("the words fit one line: nothing is tried here")
	}
	if top := fyne.CurrentApp().Driver().AbsolutePositionForObject(w.timeline).Y - fyne.CurrentApp().Driver().AbsolutePositionForObject(w.body).Y; top < bottom {
		t.Errorf("the timeline begins at %g, the notice ends at %g", top, bottom)
	}
}

func TestTheNameOfAFileIsTypedAndTaken(t *testing.T) {
	w := openWindow(t)
	w.app.Preferences().SetString("folder.films", t.TempDir())
	var got []string
	ask := func() *field {
		w.pick(pickRequest{title: "Save", extensions: []string{file.Ext}, kind: "films", saveAs: "kettle" + file.Ext}, func(paths []string) { got = paths })
		return w.win.Canvas().Focused().(*field)
	}
	ask().TypedKey(&fyne.KeyEvent{Name: fyne.KeyEscape})
	if w.win.Canvas().Overlays().Top() != nil || got != nil {
		t.Fatalf("Escape leaves the file window open, or took %v", got)
	}
	ask().TypedKey(&fyne.KeyEvent{Name: fyne.KeyReturn})
	if w.win.Canvas().Overlays().Top() != nil || len(got) != 1 || filepath.Base(got[0]) != "kettle"+file.Ext {
		t.Errorf("Return takes %v", got)
	}
}
