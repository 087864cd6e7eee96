package ui

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"stillbeat/board"
	"stillbeat/board/plan"
)

func planOf(t *testing.T, b board.Board, w, h float64) *planView {
	t.Helper()
	v := &planView{chosen: -1}
	v.resize(w, h)
	v.setBoard(b)
	return v
}

// planFilm is a film of three shots: the second has a rig, the third is still.
func planFilm(t *testing.T) board.Board {
	t.Helper()
	return apply(t, filmOf(t, 4, 2, 2), board.SetStep(2), board.Open([]int{1, 2}, board.OpensShot), board.SetHeading(1, "The cup falls"),
		board.Write([]int{1}, "rig", func(w *board.Words) { w.Rig = true }), board.SetStill([]int{2}, true))
}

// said is all words of the plan, in order.
func (v *planView) said() string {
	h := v.height
	v.height = v.end + 100
	defer func() { v.height = h }()
	var out []string
	for _, t := range v.allWords(pen{scale: 1}, 0, nil) {
		out = append(out, t.s)
	}
	return strings.Join(out, "\n")
}

func TestPlanSaysWhatTheShootTakes(t *testing.T) {
	b := planFilm(t)
	v := planOf(t, b, 800, 500)
	said := v.said()
	for _, want := range []string{"The cup falls", v.plan.Shots[1].Mind(), "Take care", "local rules apply"} {
		if !strings.Contains(said, want) {
			t.Errorf("the plan lacks %q:\n%s", want, said)
		}
	}
	for _, l := range v.plan.Summary() {
		if !strings.Contains(said, l[1]) {
			t.Errorf("the plan lacks %q", l[1])
		}
	}
	for _, l := range plan.Cautions() {
		if first := strings.Fields(l)[0]; !strings.Contains(said, first) {
			t.Errorf("the plan does not caution %q", l)
		}
	}
	if v.found != nil || strings.Contains(said, "To be seen to") {
		t.Errorf("there is nothing to be seen to, but %v", v.found)
	}
	p := b.Planning()
	p.Session = 30
	if v.setBoard(apply(t, b, board.SetPlan(p))); !strings.Contains(v.said(), "To be seen to") || !strings.Contains(strings.ReplaceAll(v.said(), "\n", " "), "longer than a session of 30 min") {
		t.Errorf("a shot longer than a session is not told:\n%s", v.said())
	}
}

func TestPlanBarsAreAsLongAsTheirSessions(t *testing.T) {
	v := planOf(t, planFilm(t), 800, 500)
	x, minute := v.scale()
	for i, s := range v.plan.Sessions {
		end, sum := x, 0.0
		v.piecesOf(i, func(p plan.Piece, x0, x1 float64) {
			if x0 != end {
				t.Errorf("session %d: a piece begins at %g, the one before ends at %g", i, x0, end)
			}
			end, sum = x1, sum+p.Minutes
		})
		if d := end - x - s.Minutes*minute; d > 0.5 || d < -0.5 {
			t.Errorf("session %d of %g min is %g long, want %g", i, s.Minutes, end-x, s.Minutes*minute)
		}
	}
}

func TestPlanFindsTheShotUnderThePointer(t *testing.T) {
	v := planOf(t, planFilm(t), 800, 500)
	shots, pieces := 0, 0
	for _, l := range v.lines {
		switch l.kind {
		case planShot:
			if got, _ := v.shotAt(100, l.y+5); got != l.i {
				t.Errorf("on the row of shot %d is shot %d", l.i, got)
			}
			shots++
		case planSession:
			v.piecesOf(l.i, func(p plan.Piece, x0, x1 float64) {
				if got, piece := v.shotAt((x0+x1)/2, l.y+10); got != p.Shot || piece == nil || *piece != p {
					t.Errorf("on the bar of shot %d is shot %d", p.Shot, got)
				}
				pieces++
			})
		}
	}
	if shots != 3 || pieces < 3 {
		t.Errorf("%d rows and %d pieces of 3 shots", shots, pieces)
	}
	got := -1
	v.OnShot = func(panel int, open bool) { got = panel }
	for _, l := range v.lines {
		if l.kind == planShot && l.i == 1 {
			v.press(100, l.y+5, false, 0)
		}
	}
	if got != 1 {
		t.Errorf("a click on shot 2 goes to panel %d", got)
	}
	if !v.choosePanel(2) || v.chosen != 2 || v.choosePanel(2) {
		t.Errorf("panel 3 is in shot %d", v.chosen)
	}
}

// onPlan opens a film of n panels on the page of the plan.
func onPlan(t *testing.T, n int) *window {
	t.Helper()
	w := openWindow(t)
	bringIn(t, w, n)
	typeKey(w, fyne.KeyF9)
	if !w.planPage.root.Visible() {
		t.Fatal("F9 does not show the plan")
	}
	return w
}

func TestFiguresOfThePlanAreTyped(t *testing.T) {
	w := onPlan(t, 3)
	type figures = board.Planning
	for k, x := range []struct {
		name, typed string
		field       int
		want        func(f figures) bool
	}{
		{"a session", "240", 0, func(f figures) bool { return f.Session == 240 }},
		{"a pace", "4,5", 1, func(f figures) bool { return f.Pace == 4.5 }},
		{"a pace to be learnt", "", 1, func(f figures) bool { return f.Pace == 0 }},
		{"a set-up", "20", 2, func(f figures) bool { return f.SetUp == 20 }},
		{"per cent", "35 %", 4, func(f figures) bool { return f.Contingency == 0.35 }},
		{"copies", "3", 8, func(f figures) bool { return f.Copies == 3 }},
		{"no battery", "0", 9, func(f figures) bool { return f.Charge == 0 }},
	} {
		f, before := w.planPage.figures[x.field], w.board.Plan
		f.SetText(x.typed)
		f.OnReturn()
		if !x.want(w.board.Planning()) {
			t.Errorf("%s: the film is planned by %+v; the foot says %q", x.name, w.board.Planning(), w.foot.words.Text)
			continue
		}
		after := w.board.Plan
		if w.desk.Undo(); before != w.board.Plan && (before == nil || w.board.Plan == nil || fmt.Sprint(*before) != fmt.Sprint(*w.board.Plan)) {
			t.Errorf("%s, step %d: undo takes back more or less than the figure", x.name, k)
		}
		if w.desk.Redo(); fmt.Sprint(*after) != fmt.Sprint(*w.board.Plan) {
			t.Errorf("%s: done again it is another plan", x.name)
		}
	}
	if got := w.planPage.totals[4].figure.Text; got != "mains" {
		t.Errorf("from the mains the batteries say %q", got)
	}
}

func TestWrongFiguresOfThePlanAreToldAndTakenBack(t *testing.T) {
	w := onPlan(t, 2)
	was := w.desk.UndoName()
	for _, x := range []struct {
		typed string
		field int
	}{{"soon", 0}, {"5", 0}, {"-3", 2}, {"NaN", 3}, {"1.5", 8}, {"99", 8}, {"", 2}} {
		f := w.planPage.figures[x.field]
		shown := f.Text
		w.foot.Say("")
		f.SetText(x.typed)
		if f.OnReturn(); f.Text != x.typed || w.foot.words.Text == "" {
			t.Errorf("%q: Return leaves %q in the field, the foot says %q", x.typed, f.Text, w.foot.words.Text)
		}
		if f.OnDone(); f.Text != shown {
			t.Errorf("%q: left, the field says %q, want %q", x.typed, f.Text, shown)
		}
	}
	if w.desk.UndoName() != was || w.board.Plan != nil {
		t.Errorf("wrong figures changed the film: %q", w.desk.UndoName())
	}
}

func TestThePaceIsLearntFromTheLog(t *testing.T) {
	w := onPlan(t, 2)
	w.do(board.Log(board.Logged{Shot: "1", Exposures: 10, Minutes: 40}))
	w.do(board.Log(board.Logged{Exposures: 10, Minutes: 20}))
	if got := w.planPage.learnt.Text; !strings.HasPrefix(got, "3 min each over 20 logged") {
		t.Errorf("learnt is %q", got)
	}
	w.planPage.loggedDialog()
	tapButton(t, w, "Take out") // the last entry stands first
	if log := w.board.Planning().Log; len(log) != 1 || log[0].Minutes != 40 {
		t.Errorf("left in the log is %+v", log)
	}
	tapButton(t, w, "Close")
	w.planPage.logDialog()
	tapButton(t, w, "Log it") // nothing is typed yet
	if len(w.board.Planning().Log) != 1 || w.win.Canvas().Overlays().Top() == nil {
		t.Error("an empty entry is logged")
	}
}

func TestStillPanelsTakeOnePhotograph(t *testing.T) {
	w := onPlan(t, 3)
	was := w.planPage.view.plan.Take
	w.choose(1)
	still := w.keys.named["Still: one photograph for all of the hold"]
	if still.run(); !w.board.Panels[1].Still || w.planPage.view.plan.Take >= was || !still.ticked() {
		t.Errorf("marked still: %v, %d exposures, before %d", w.board.Panels[1].Still, w.planPage.view.plan.Take, was)
	}
	if !w.card.marks[3].Checked {
		t.Error("the card does not say that the panel is still")
	}
	if w.desk.Undo(); w.board.Panels[1].Still || w.planPage.view.plan.Take != was {
		t.Error("undo does not take the mark back")
	}
	typeKey(w, fyne.KeyF3)
	if test.Tap(w.card.marks[3]); !w.board.Panels[1].Still {
		t.Error("the tick on the card does not mark the panel")
	}
}

func TestCallSheetsAreWritten(t *testing.T) {
	w := onPlan(t, 2)
	w.app.Preferences().SetString("folder.papers", t.TempDir())
	w.planPage.printDialog()
	tapButton(t, w, "Choose the file…")
	settle(t, w)
	tapButton(t, w, "Save")
	settle(t, w)
	files, _ := filepath.Glob(filepath.Join(w.lastFolder("papers"), "*.pdf"))
	if len(files) != 1 {
		t.Fatalf("written are %q; the foot says %q", files, w.foot.words.Text)
	}
	if data, err := os.ReadFile(files[0]); err != nil || !strings.HasPrefix(string(data), "%PDF-") {
		t.Errorf("%s is no PDF: %v", files[0], err)
	}
}

func TestPagesOfAFilmWithoutPanels(t *testing.T) {
	w := openWindow(t)
	for _, key := range []fyne.KeyName{fyne.KeyF4, fyne.KeyReturn, fyne.KeyEnd, fyne.KeyF9, fyne.KeyEnd} {
		typeKey(w, key)
	}
	if !w.planPage.print.Disabled() || !w.sheet.print.Disabled() || !w.sheet.noting.Disabled() {
		t.Error("there is something to print of an empty film")
	}
	if got := w.planPage.totals[0].figure.Text; got != "–" {
		t.Errorf("an empty film takes %q exposures", got)
	}
}

func BenchmarkPlanOfAThousandPanels(b *testing.B) {
	panels := make([]board.Panel, 1000)
	for i := range panels {
		panels[i].Title, panels[i].Rig = fmt.Sprintf("The kettle thinks of %d", i), i%30 == 0
		if i%4 == 0 {
			panels[i].Opens = board.OpensShot
		}
	}
	film := apply(b, board.New(), board.Insert(0, panels, 1))
	v := &planView{chosen: -1}
	v.resize(1500, 1000)
	b.ReportAllocs()
	for b.Loop() {
		v.setBoard(film)
	}
}

func TestPagesOfAFilmThatIsOnlyShown(t *testing.T) {
	w := openWindow(t)
	bringIn(t, w, 2)
	path := filepath.Join(t.TempDir(), "film.stillbeat")
	if err := w.desk.SaveAs(path); err != nil {
		t.Fatal(err)
	}
	shown, err := openDesk(path) // it is open already
	if err != nil {
		t.Fatal(err)
	}
	editing := w.desk
	defer editing.Close()
	w.setDesk(shown)
	settle(t, w)
	if w.desk.ReadOnly() == nil {
		t.Fatal("the film can be changed")
	}
	w.seek(0)
	typeKey(w, fyne.KeyF4)
	if typeKey(w, fyne.KeyReturn); w.sheet.note.Visible() || !w.sheet.noting.Disabled() {
		t.Error("a note can be written")
	}
	if w.sheet.print.Disabled() {
		t.Error("the sheet cannot be printed")
	}
	typeKey(w, fyne.KeyF9)
	for k, f := range w.planPage.figures {
		if !f.Disabled() {
			t.Errorf("figure %d can be changed", k)
		}
	}
	if !w.planPage.every.Disabled() || !w.planPage.log.Disabled() || w.planPage.print.Disabled() {
		t.Error("the plan can be changed, or not printed")
	}
	for _, name := range []string{noteOnFrame, "Still: one photograph for all of the hold"} {
		if w.keys.named[name].can() {
			t.Errorf("%q can be done", name)
		}
	}
}
