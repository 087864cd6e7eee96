package ui

import (
	"image"
	"image/color"
	"image/png"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"

	"stillbeat/board"
	"stillbeat/board/check"
)

// checked shows the page and waits for what is found.
func checked(t *testing.T, w *window) *checkPage {
	t.Helper()
	w.check.run.wait = time.Millisecond
	w.pages.Show(w.check.tabPage)
	settle(t, w)
	return w.check
}

// kinds lists the kinds of the findings shown, in their order.
func kinds(p *checkPage) string {
	var out []string
	for _, r := range p.rows {
		if r.finding != nil {
			out = append(out, string(r.finding.Kind))
		}
	}
	return strings.Join(out, " ")
}

// flashingFilm has pictures that are black and white in turn, on each two frames.
func flashingFilm(t *testing.T, w *window) {
	t.Helper()
	var paths []string
	for k, c := range []color.Gray{{Y: 0}, {Y: 255}} {
		img := image.NewGray(image.Rect(0, 0, 32, 18))
		for i := range img.Pix {
			img.Pix[i] = c.Y
		}
		path := filepath.Join(t.TempDir(), string(rune('a'+k))+".png")
		f, err := os.Create(path)
		if err != nil {
			t.Fatal(err)
		}
		if err := png.Encode(f, img); err != nil {
			t.Fatal(err)
		}
		f.Close()
		paths = append(paths, path)
	}
	w.bringPictures(paths)
	settle(t, w)
	for range 4 {
		all := make([]int, len(w.board.Panels))
		for i := range all {
			all[i] = i
		}
		w.do(board.Duplicate(all))
	}
	all := make([]int, len(w.board.Panels))
	for i := range all {
		all[i] = i
	}
	w.do(board.SetHold(all, 2))
	settle(t, w)
}

func TestTheCheckListsWhatIsFoundAndMendsIt(t *testing.T) {
	w := openWindow(t)
	bringIn(t, w, 4)
	w.do(board.SetHold([]int{1}, 1))
	p := checked(t, w)
	short := slices.IndexFunc(p.rows, func(r checkRow) bool { return r.finding != nil && r.finding.Kind == check.ShortHold })
	if short < 0 {
		t.Fatalf("a hold of one frame is not among %q", kinds(p))
	}
	if !p.run.Fresh() {
		t.Errorf("the film just checked is not what was checked: %q", p.run.Words())
	}
	p.list.Select(short)
	if w.chosen != 1 || w.at != w.starts[1] {
		t.Errorf("choosing it chooses panel %d and puts the playhead on %d, want 1 and %d", w.chosen, w.at, w.starts[1])
	}
	if got := p.what.Text; !strings.HasPrefix(got, "Panel ") || p.why.Text == "" || p.source.Text == "" {
		t.Errorf("the finding reads %q, why %q, source %q", got, p.why.Text, p.source.Text)
	}
	before := w.board.Holds()[1]
	run(t, w, checkMendName)
	if got := w.board.Holds()[1]; got <= before {
		t.Errorf("mended, the panel holds %d, was %d", got, before)
	}
	if p.canMend() {
		t.Error("another film than was checked can be mended")
	}
	settle(t, w)
	if slices.ContainsFunc(p.rows, func(r checkRow) bool { return r.finding != nil && r.finding.Kind == check.ShortHold }) {
		t.Errorf("after mending the hold is still found: %q", kinds(p))
	}
	w.desk.Undo()
	settle(t, w)
	if got := w.board.Holds()[1]; got != before {
		t.Errorf("mending is not one step to undo: it holds %d, want %d", got, before)
	}
	if !strings.Contains(kinds(p), string(check.ShortHold)) {
		t.Errorf("after undo the hold is not found again: %q", kinds(p))
	}
}

func TestAllOfAKindAreMendedAsOneStep(t *testing.T) {
	w := openWindow(t)
	bringIn(t, w, 6)
	w.do(board.SetHold([]int{1, 3}, 1))
	was := w.board.Holds()
	p := checked(t, w)
	p.list.Select(slices.IndexFunc(p.rows, func(r checkRow) bool { return r.finding != nil && r.finding.Kind == check.ShortHold }))
	run(t, w, checkMendKindName)
	if got := w.board.Holds(); got[1] < 2 || got[3] < 2 {
		t.Errorf("holds are %v, were %v", got, was)
	}
	w.desk.Undo()
	if got := w.board.Holds(); !slices.Equal(got, was) {
		t.Errorf("one undo leaves holds %v, want %v", got, was)
	}
}

func TestFindingsAreDismissedAndBroughtBack(t *testing.T) {
	w := openWindow(t)
	bringIn(t, w, 4)
	w.do(board.SetHold([]int{1}, 1))
	p := checked(t, w)
	n, open := len(p.rows), len(check.Open(p.report.Findings))
	p.typedKey(fyne.KeyHome, 0)
	f, ok := p.chosen()
	if !ok {
		t.Fatalf("nothing is chosen of %d rows", n)
	}
	typeKey(w, fyne.KeyDelete)
	if len(w.board.Panels) != 4 {
		t.Fatal("Delete took a panel out")
	}
	if !w.board.IsDismissed(f.ID) || len(check.Open(p.report.Findings)) != open-1 {
		t.Errorf("dismissed: %v; %d open, want %d", w.board.Dismissed, len(check.Open(p.report.Findings)), open-1)
	}
	p.showOld(true)
	at := slices.IndexFunc(p.rows, func(r checkRow) bool { return r.finding != nil && r.finding.ID == f.ID })
	if at < 0 || !p.rows[at].finding.Dismissed {
		t.Fatalf("shown, it is row %d", at)
	}
	p.list.Select(at)
	if p.canMend() {
		t.Error("what was dismissed can be mended")
	}
	run(t, w, checkDismissName)
	if w.board.IsDismissed(f.ID) {
		t.Error("it was not brought back")
	}
}

func TestTheCheckTellsOfFlashing(t *testing.T) {
	w := openWindow(t)
	flashingFilm(t, w)
	p := checked(t, w)
	p.typedKey(fyne.KeyHome, 0)
	if f, _ := p.chosen(); f.Severity != check.Danger || !p.caution.Visible() || !strings.Contains(p.why.Text, check.Screening) {
		t.Errorf("the first is %q, its caution seen: %v, why %q", f.Severity, p.caution.Visible(), p.why.Text)
	}
	if got := p.tabPage.tab.button.Text; !strings.HasPrefix(got, "Check · ") {
		t.Errorf("the tab says %q", got)
	}
	w.do(board.SetTitle("Tea"))
	if got := p.tabPage.tab.button.Text; got != "Check" {
		t.Errorf("of a film that changed since the tab says %q", got)
	}
}

func TestTheCheckOfAFilmThatPasses(t *testing.T) {
	w := openWindow(t)
	p := checked(t, w)
	if got := p.nothingWords.Text; got != "The film has no panels yet: there is nothing to check." {
		t.Errorf("without panels it says %q", got)
	}
	w.bringPictures(writePictures(t, 1))
	settle(t, w)
	w.do(board.SetHold([]int{0}, 12)) // for one sitting
	settle(t, w)
	if len(p.rows) > 0 || p.count.Text != "Nothing found" || !strings.HasPrefix(p.nothingWords.Text, "Nothing was found") {
		t.Errorf("rows %q; it says %q and %q", kinds(p), p.count.Text, p.nothingWords.Text)
	}
}

func TestANewerFilmEndsTheCheck(t *testing.T) {
	w := openWindow(t)
	bringIn(t, w, 3)
	w.check.run.wait = time.Hour
	w.pages.Show(w.check.tabPage)
	first := w.check.run.turn
	w.do(board.SetTitle("Tea"))
	if w.check.run.turn == first {
		t.Error("an edit does not end the check of the film before it")
	}
	w.pages.Show(w.timelinePage)
	if w.check.run.under {
		t.Error("the check goes on after the page went away")
	}
}
