package ui

import (
	"encoding/csv"
	"fmt"
	"image"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"
	"fyne.io/fyne/v2/widget"

	"stillbeat/board"
	"stillbeat/board/motion"
	"stillbeat/board/sheet"
)

// sheetFilm is a film of two shots on twos, with words in most columns.
func sheetFilm(t *testing.T) board.Board {
	t.Helper()
	b := filmOf(t, 2, 2, 2)
	m := motion.Suggest(board.Falling, b.Panels[1].ID, b.Panels[1].ID)
	m.Object = "cup"
	return apply(t, b, board.SetStep(2), board.Open([]int{1}, board.OpensShot), board.SetHeading(1, "The cup"),
		board.Write([]int{0}, "words", func(w *board.Words) {
			w.Title, w.Action, w.Sound, w.Rig = "Steam", "The kettle lifts its lid, looks left and then right, and sighs", "hiss", true
		}),
		board.SetFrameNote(3, "hold the lid"), board.AddObjectMove(m))
}

func sheetOf(b board.Board, w, h float64) *sheetView {
	v := &sheetView{}
	v.setBoard(b)
	v.resize(w, h)
	return v
}

// lines writes the words in sight, a line for each of the sheet.
func (v *sheetView) lines(top float64) string {
	byLine := map[int][]string{}
	for _, t := range v.allWords(pen{scale: 1}, top, nil) {
		line := int((t.y - 13 - sheetHeadH + top) / sheetRowH)
		byLine[line] = append(byLine[line], t.s)
	}
	var out strings.Builder
	for line := range len(v.rows) + len(v.shots) {
		if words := byLine[line]; words != nil {
			fmt.Fprintf(&out, "%d: %s\n", line, strings.Join(words, " | "))
		}
	}
	return out.String()
}

func TestSheetRunsWordsDownTheRows(t *testing.T) {
	v := sheetOf(sheetFilm(t), 900, 500)
	if got := len(v.rows); got != 72 {
		t.Fatalf("%d rows, want one for each of 72 frames", got)
	}
	got := v.lines(0)
	for _, want := range []string{"0: Shot 1  ·  24 f · 12 exposures", "1: hiss | 1 | Steam: The kettle", "rig", "4: sighs | hold the lid"} {
		if !strings.Contains(got, want) {
			t.Errorf("the sheet lacks %q:\n%s", want, got)
		}
	}
	if !strings.Contains(v.lines(24*sheetRowH), "Shot 2  The cup  ·  48 f · 24 exposures") {
		t.Errorf("the second shot has no name of its own:\n%s", v.lines(24*sheetRowH))
	}
	// Scrolled into the hold, its words stand at the top once more.
	if got := v.lines(10 * sheetRowH); !strings.HasPrefix(got, "10: hiss | (1) | Steam") {
		t.Errorf("in the middle of the hold the sheet begins with %.60q", got)
	} else if strings.Contains(got, "hold the lid") {
		t.Errorf("the note on frame 3 stands elsewhere:\n%s", got)
	}
}

func TestSheetHasAColumnForEachObjectThatMoves(t *testing.T) {
	b := sheetFilm(t)
	v := sheetOf(b, 900, 500)
	if len(v.moves) != 1 || v.moves[0].Title != "cup" {
		t.Fatalf("columns of moves: %+v", v.moves)
	}
	table := motion.Tables(b, motion.Limits{})[0]
	row := v.rows[v.rowOf(table.Rows[2].Frame)]
	if want := motion.Tenths(table.Rows[2].Along) + " mm"; !strings.HasPrefix(row.Columns[0], want) {
		t.Errorf("at frame %d the cup is at %q, the table says %s", row.Frame, row.Columns[0], want)
	}
	for n := range sheet.MaxColumns + 2 {
		m := motion.Suggest(board.Evenly, b.Panels[0].ID, b.Panels[0].ID)
		m.Object = fmt.Sprintf("spoon %d", n)
		b = apply(t, b, board.AddObjectMove(m))
	}
	v = sheetOf(b, 900, 500)
	if n := len(v.moves); n != sheet.MaxColumns || v.moves[n-1].Title != "others" || len(v.rows) != 72 {
		t.Fatalf("with 11 objects %d columns of moves and %d rows", n, len(v.rows))
	}
	if words := v.rows[0].Columns[sheet.MaxColumns-1]; !strings.Contains(words, "spoon 6") || !strings.Contains(words, "spoon 9") {
		t.Errorf("the last column says %q", words)
	}
}

// Each of two objects moves in a shot of its own: they take one column.
func TestSheetSharesTheColumnOfMovesBetweenShots(t *testing.T) {
	b := sheetFilm(t) // the cup falls in the second shot
	m := motion.Suggest(board.Evenly, b.Panels[0].ID, b.Panels[0].ID)
	m.Object = "spoon"
	v := sheetOf(apply(t, b, board.AddObjectMove(m)), 900, 500)
	if v.slots != 1 {
		t.Fatalf("%d columns of moves, want one: nothing moves beside another", v.slots)
	}
	c := v.column(moveCell)
	for _, tt := range []struct {
		row         int
		line, title string
	}{
		{0, "spoon: 0.0 mm, sets off", "spoon"},
		{24, "cup: 200.0 mm high, lets go", "cup"},
	} {
		if got := v.titleOf(c, tt.row); got != tt.title {
			t.Errorf("with row %d at the top the column is %q, want %q", tt.row, got, tt.title)
		}
		if got := v.moveWords(tt.row, 0); got != tt.line {
			t.Errorf("row %d says %q, want %q", tt.row, got, tt.line)
		}
	}
	if got := v.moveWords(2, 0); strings.Contains(got, "spoon") || got == "" {
		t.Errorf("the next exposure says %q, want the place alone", got)
	}
	if got := v.hint(c.x+1, v.y(24)+1); got != "cup: 200.0 mm high, lets go" {
		t.Errorf("the hint says %q", got)
	}
}

func TestSheetBreaksWordsOfEveryScript(t *testing.T) {
	const chinese = "桌上没有任何东西在动。低低的阳光从左边照进来，茶壶慢慢地转向杯子，杯子等待着。"
	for _, words := range []string{chinese, "إبريق الشاي يميل ببطء وثقل نحو الفنجان ثم يتوقف قبل أن ينسكب", "Чайник медленно наклоняется, чашка отодвигается и ждёт", "the kettle lifts its lid, looks left and then right"} {
		v, p := &sheetView{}, pen{scale: 1}
		lines := v.wrap(p, words, 120)
		if len(lines) < 2 || strings.Join(strings.Fields(strings.Join(lines, " ")), "") != strings.Join(strings.Fields(words), "") {
			t.Errorf("%q is broken into %q", words, lines)
		}
		for _, l := range lines {
			if w := fyne.MeasureText(l, sheetText, fyne.TextStyle{}).Width; w > 124 {
				t.Errorf("the line %q is %.0f wide, of 120", l, w)
			}
			if strings.HasPrefix(l, "，") || strings.HasPrefix(l, "。") {
				t.Errorf("the line %q begins with a point", l)
			}
		}
	}
}

func TestSheetColumnsFitTheWidth(t *testing.T) {
	for _, width := range []float64{380, 620, 780, 1088, 2500} {
		v := sheetOf(sheetFilm(t), width, 500)
		last := v.columns[len(v.columns)-1]
		if width > 700 && last.right > width+0.5 {
			t.Errorf("%g wide: the columns end at %g", width, last.right)
		}
		for _, kind := range []cellKind{frameCell, beatCell, panelCell, poseCell, noteCell} {
			if c := v.column(kind); c.kind != kind {
				t.Errorf("%g wide: column %d is gone", width, kind)
			}
		}
	}
}

func TestSheetLinesAndRowsAgree(t *testing.T) {
	for _, exposures := range []bool{false, true} {
		v := sheetOf(sheetFilm(t), 900, 500)
		v.setExposures(exposures)
		for row := range v.rows {
			if at, named := v.rowAt(v.lineOf(row)); at != row || named {
				t.Fatalf("line %d is row %d, want %d", v.lineOf(row), at, row)
			}
			if at := v.under(v.y(row) + 1); at != row {
				t.Fatalf("under the top of row %d is row %d", row, at)
			}
			if at := v.rowOf(v.rows[row].Frame + v.rows[row].Frames - 1); at != row {
				t.Fatalf("the last frame of row %d is in row %d", row, at)
			}
		}
		if v.rowOf(72) >= 0 {
			t.Error("the end of the film is in a row")
		}
	}
}

// TestSheetLooks compares a small sheet with its picture.
func TestSheetLooks(t *testing.T) {
	v := sheetOf(sheetFilm(t), 820, 420)
	v.at = 12
	img := image.NewRGBA(image.Rect(0, 0, 820, 420))
	v.paint(pen{img, 1}, 6*sheetRowH)
	comparePicture(t, "testdata/sheet.png", img)
}

// onSheet opens a film of n panels on the page of the sheet.
func onSheet(t *testing.T, n int) *window {
	t.Helper()
	w := openWindow(t)
	bringIn(t, w, n)
	typeKey(w, fyne.KeyF4)
	if !w.sheet.root.Visible() {
		t.Fatal("F4 does not show the sheet")
	}
	w.seek(0)
	return w
}

func TestSheetIsWalkedByKeys(t *testing.T) {
	w := onSheet(t, 4) // 96 frames
	for _, s := range []struct {
		name string
		key  fyne.KeyName
		want board.Frame
	}{
		{"down", fyne.KeyDown, 1}, {"down again", fyne.KeyDown, 2}, {"up", fyne.KeyUp, 1}, {"the end", fyne.KeyEnd, 95},
		{"beyond it", fyne.KeyDown, 95}, {"the start", fyne.KeyHome, 0}, {"before it", fyne.KeyUp, 0},
	} {
		if typeKey(w, s.key); w.at != s.want {
			t.Errorf("%s: the playhead is at frame %d, want %d", s.name, w.at, s.want)
		}
		if r := w.sheet.roll; !r.Sees(w.sheet.rowTop(), sheetRowH) {
			t.Errorf("%s: the row of the playhead is out of sight", s.name)
		}
	}
	typeKey(w, fyne.KeyPageDown)
	if w.at < 10 || !w.sheet.roll.Sees(w.sheet.rowTop(), sheetRowH) {
		t.Errorf("a page down goes to frame %d", w.at)
	}
	typeKey(w, fyne.KeyPageUp)
	if w.at != 0 {
		t.Errorf("a page down and one up end at frame %d", w.at)
	}
}

func TestClickOnTheSheetSeeksAndTwoOpenANote(t *testing.T) {
	w := onSheet(t, 4)
	r := w.sheet.roll
	click := func() {
		y := float32(w.sheet.view.y(7) - r.top + 5)
		r.MouseDown(&desktop.MouseEvent{Button: desktop.MouseButtonPrimary, PointEvent: fyne.PointEvent{Position: fyne.NewPos(300, y)}})
		r.MouseUp(nil)
	}
	if click(); w.at != 7 || w.sheet.note.Visible() {
		t.Errorf("a click goes to frame %d, the note is open: %v", w.at, w.sheet.note.Visible())
	}
	if click(); !w.sheet.note.Visible() || w.sheet.note.frame != 7 {
		t.Error("a double click does not open the note")
	}
}

func TestNotesAreWrittenOnTheSheet(t *testing.T) {
	w := onSheet(t, 2)
	w.seek(5)
	n := w.sheet.note
	write := func(text string, key fyne.KeyName) {
		typeKey(w, fyne.KeyReturn)
		if !n.Visible() || w.win.Canvas().Focused() != fyne.Focusable(n) {
			t.Fatal("Return does not open the note")
		}
		n.SetText(text)
		n.TypedKey(&fyne.KeyEvent{Name: key})
		if n.Visible() {
			t.Fatal("the note stays open")
		}
	}
	note := func() string { return w.board.NotesOn(5, w.starts) }
	if write("mind the spoon", fyne.KeyReturn); note() != "mind the spoon" || w.sheet.view.rows[5].Note != "mind the spoon" {
		t.Errorf("the film says %q, the sheet %q", note(), w.sheet.view.rows[5].Note)
	}
	if write("something else", fyne.KeyEscape); note() != "mind the spoon" {
		t.Errorf("after Escape the film says %q", note())
	}
	if write("and the cup", fyne.KeyReturn); note() != "and the cup" {
		t.Errorf("written over: %q", note())
	}
	if w.desk.Undo(); note() != "mind the spoon" {
		t.Errorf("undone: %q", note())
	}
	if write("", fyne.KeyReturn); note() != "" {
		t.Errorf("emptied: %q", note())
	}
	// A row an exposure opens the note it shows, on whichever frame that is.
	w.do(board.SetStep(2))
	w.desk.Undo()
	w.do(board.SetFrameNote(5, "late"))
	w.do(board.SetStep(2))
	w.sheet.setExposures(true)
	w.seek(4)
	if typeKey(w, fyne.KeyReturn); n.frame != 5 || n.Text != "late" {
		t.Errorf("the note opened is that of frame %d: %q", n.frame, n.Text)
	}
}

func TestALeapOnTheSheetShowsWhatIsAbout(t *testing.T) {
	w := onSheet(t, 10) // 240 frames
	p := w.sheet
	w.seek(150)
	if y := p.rowTop() - p.roll.top; y < p.roll.height/4 || y > p.roll.height/2 {
		t.Errorf("after a leap the row is %g below the top of %g", y, p.roll.height)
	}
	last := board.Frame(p.view.rows[0].Frame)
	for _, r := range p.view.rows {
		if p.roll.Sees(p.view.y(p.view.rowOf(r.Frame)), sheetRowH) {
			last = r.Frame
		}
	}
	w.seek(last)
	top := p.roll.top
	if w.seek(last + 1); p.roll.top <= top || p.roll.top > top+2*sheetRowH {
		t.Errorf("a step beyond what is in sight scrolls by %g, a row is %g", p.roll.top-top, float64(sheetRowH))
	}
}

func TestSheetFollowsWhilePlaying(t *testing.T) {
	w := onSheet(t, 10)
	w.playing = &playback{ticker: fyne.NewAnimation(0, func(float32) {})}
	defer func() { w.playing = nil }()
	p := w.sheet
	w.goTo(100, true)
	if y := p.rowTop() - p.roll.top; y < p.roll.height/4 || y > p.roll.height/2 {
		t.Errorf("while playing the row is %g below the top of %g", y, p.roll.height)
	}
	p.roll.byHand(0)
	if w.goTo(101, true); p.roll.top != 0 {
		t.Error("scrolled away by hand, the sheet jumps back")
	}
	p.roll.byHand(p.rowTop() - 100)
	w.goTo(102, true)
	if w.goTo(103, true); p.loose {
		t.Error("scrolled back, the sheet does not follow again")
	}
}

func TestSheetIsWrittenAsATable(t *testing.T) {
	w := onSheet(t, 3)
	w.app.Preferences().SetString("folder.papers", t.TempDir())
	w.sheet.csvDialog()
	tapButton(t, w, "Choose the file…")
	settle(t, w)
	tapButton(t, w, "Save")
	settle(t, w)
	files, _ := filepath.Glob(filepath.Join(w.lastFolder("papers"), "*"))
	if len(files) != 1 || filepath.Ext(files[0]) != ".csv" {
		t.Fatalf("written are %q; the foot says %q", files, w.foot.words.Text)
	}
	f, err := os.Open(files[0])
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	if rows, err := csv.NewReader(f).ReadAll(); err != nil || len(rows) != 1+72 {
		t.Errorf("%d rows, error %v; want a head and 72", len(rows), err)
	}
}

// tapButton taps a button of the dialog on top, the first of its name.
func tapButton(t *testing.T, w *window, name string) {
	t.Helper()
	var found *widget.Button
	for _, o := range test.LaidOutObjects(w.win.Canvas().Overlays().Top()) {
		if b, ok := o.(*widget.Button); ok && b.Text == name && found == nil {
			found = b
		}
	}
	if found == nil {
		t.Fatalf("the dialog on top has no button %q", name)
	}
	test.Tap(found)
}

func BenchmarkSheetOfTenMinutes(b *testing.B) {
	beats := make([]float64, 1500)
	for i := range beats {
		beats[i] = float64(i) * 0.4
	}
	panels := make([]board.Panel, 1000)
	for i := range panels {
		panels[i].Title, panels[i].Action = fmt.Sprintf("The kettle thinks of %d", i), "It lifts its lid, looks left, then right, and sighs"
		panels[i].Sound = "hiss"
		if i%6 == 0 {
			panels[i].Opens = board.OpensShot
		}
	}
	film := apply(b, board.New(), board.SetSong(&board.Song{Name: "s", Media: "s", Seconds: 600}, board.NewGrid(beats, nil)),
		board.Insert(0, panels, 1), board.SetStep(2))
	for film.Frames() < 14400 {
		film = apply(b, film, board.SetHold([]int{len(film.Panels) - 1}, 14400-film.Frames()+board.Frame(12)))
	}
	img := image.NewRGBA(image.Rect(0, 0, 2560, 1300))
	v := sheetOf(film, 2548, 1300)
	b.Run("rows made", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			v.setBoard(film)
		}
		b.ReportMetric(float64(len(v.rows)), "rows")
	})
	b.Run("follow", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			v.at = (v.at + 1) % 14000
			v.paint(pen{img, 1}, max(0, v.y(v.rowOf(v.at))-400))
		}
	})
}
