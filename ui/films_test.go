package ui

import (
	"math"
	"path/filepath"
	"testing"

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
