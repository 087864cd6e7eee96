package ui

import (
	"math"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"stillbeat/board"
	"stillbeat/board/motion"
)

// readyMoveOf returns the ready move with those words in its name.
func readyMoveOf(t *testing.T, words string) motion.Ready {
	t.Helper()
	for _, r := range motion.ReadyMoves() {
		if strings.Contains(r.Name, words) {
			return r
		}
	}
	t.Fatalf("no ready move is called %q", words)
	return motion.Ready{}
}

// openMotion opens a film of panels with a move in the second and the third.
func openMotion(t *testing.T, words string) *window {
	t.Helper()
	w := openWindow(t)
	bringIn(t, w, 4)
	w.choose(1)
	w.timeline.OnChoose(2, chooseMore)
	w.addMove(readyMoveOf(t, words))
	if len(w.board.Moves) != 1 || w.faces.up != w.motion.face {
		t.Fatalf("%d moves; the foot says %q", len(w.board.Moves), w.foot.words.Text)
	}
	return w
}

func TestAMoveIsGivenToAnObject(t *testing.T) {
	w := openMotion(t, "saucer slides")
	m := w.board.Moves[0]
	if m.First != w.board.Panels[1].ID || m.Last != w.board.Panels[2].ID {
		t.Errorf("it goes from panel id %d to %d", m.First, m.Last)
	}
	f := w.motion
	if f.name.Text != "The saucer" || f.object.Text != "saucer" || f.first.Text != w.numbers[1] || f.last.Text != w.numbers[2] {
		t.Errorf("the face says %q, %q, panels %q to %q", f.name.Text, f.object.Text, f.first.Text, f.last.Text)
	}
	f.object.SetText("cup")
	f.object.OnDone()
	f.last.SetText(w.numbers[1])
	f.last.OnDone()
	if m := w.board.Moves[0]; m.Object != "cup" || m.Last != w.board.Panels[1].ID {
		t.Errorf("changed: %+v", m)
	}
	f.last.SetText("no number")
	f.last.OnDone()
	if w.board.Moves[0].Last != w.board.Panels[1].ID || f.last.Text != w.numbers[1] {
		t.Errorf("a panel there is not was taken: the field says %q", f.last.Text)
	}
	w.choose(3)
	if f.hasMove() || !f.none.Visible() {
		t.Error("a panel in which nothing moves shows a move")
	}
	w.choose(1)
	run(t, w, removeMoveName)
	if len(w.board.Moves) != 0 || len(w.board.Panels) != 4 {
		t.Errorf("removed: %d moves, %d panels", len(w.board.Moves), len(w.board.Panels))
	}
	w.desk.Undo()
	if len(w.board.Moves) != 1 {
		t.Error("removing is not one step to undo")
	}
}

func TestTheMannerDecidesWhichFiguresAreAsked(t *testing.T) {
	tests := []struct{ words, want string }{
		{"cup is dropped", "Set 1 to"},
		{"lid jumps", "Set 1 to|Rise, mm|Anticipates|for, s|Overshoots|Damping|Period, s"},
		{"ball bounces", "Set 1 to|Rebound"},
		{"head swings", "Set 1 to|Damping"},
		{"sugar lumps", "Anticipates|Overshoots"},
		{"leans over and settles", "Overshoots|Damping|Period, s"},
	}
	names := []string{"Set 1 to", "Rise, mm", "Rebound", "Anticipates", "for, s", "Overshoots", "Damping", "Period, s"}
	for _, tt := range tests {
		t.Run(tt.words, func(t *testing.T) {
			w := openMotion(t, tt.words)
			var got []string
			for i, g := range w.motion.figures {
				if g.row.field.Visible() {
					got = append(got, names[i])
				}
			}
			if strings.Join(got, "|") != tt.want {
				t.Errorf("asked are %q, want %q", strings.Join(got, "|"), tt.want)
			}
		})
	}
}

func TestFiguresOfAMoveAreTyped(t *testing.T) {
	w := openMotion(t, "ball bounces")
	f := w.motion
	typeNumber(w, f.figures[2].field, "70")
	w.win.Canvas().Unfocus()
	if got := w.board.Moves[0].Rebound; math.Abs(got-0.7) > 1e-9 {
		t.Errorf("rebound %g, want 0.7", got)
	}
	typeNumber(w, f.height, "150")
	w.win.Canvas().Unfocus()
	if got := w.board.Moves[0].Keys[0].Height; got != 150 {
		t.Errorf("height %g, want 150", got)
	}
	typeNumber(w, f.figures[2].field, "300")
	w.win.Canvas().Unfocus()
	if got := w.board.Moves[0].Rebound; math.Abs(got-0.7) > 1e-9 {
		t.Errorf("a rebound of 300 %% was taken: %g", got)
	}
	f.manner.SetSelected(board.SlowingIn.Words())
	if got := w.board.Moves[0]; got.Manner != board.SlowingIn || math.Abs(got.Rebound-0.7) > 1e-9 {
		t.Errorf("another manner: %+v", got)
	}
}

func TestKeysAreDraggedOnThePicture(t *testing.T) {
	w := openMotion(t, "saucer slides")
	before := w.board.Moves[0]
	s := sightOf(w.motion.tables[0])
	at := motion.Seen(s, before.Keys[1])
	to := motion.Seen(s, board.Spot{X: 90, Height: 20})
	pressOn(w, at)
	pull(w, board.Point{X: at.X, Y: at.Y - 0.1})
	pull(w, to)
	letGo(w)
	got := w.board.Moves[0]
	if k := got.Keys[1]; math.Abs(k.X-90) > 1 || math.Abs(k.Height-20) > 1 || k.Y != before.Keys[1].Y {
		t.Errorf("dragged to %+v, want 90 mm right and 20 up", k)
	}
	if now := motion.Seen(sightOf(w.motion.tables[0]), got.Keys[0]); !near(now, motion.Seen(s, before.Keys[0])) {
		t.Errorf("the other key is seen at %v now", now)
	}
	w.desk.Undo()
	if got := w.board.Moves[0]; got.Keys[1] != before.Keys[1] || got.Sight != before.Sight {
		t.Errorf("a drag is not one step to undo: %+v", got)
	}
	typeKey(w, fyne.KeyRight)
	if got := w.board.Moves[0].Keys[w.motion.key].X - before.Keys[w.motion.key].X; got != 1 {
		t.Errorf("right moves the key by %g mm", got)
	}
}

func TestTheSetIsPlacedOnThePicture(t *testing.T) {
	w := openMotion(t, "saucer slides")
	run(t, w, sightName)
	a, z := rulerEnds(sightOf(w.motion.tables[0]))
	pressOn(w, a)
	pull(w, board.Point{X: -0.3, Y: 0.2})
	letGo(w)
	a, z = rulerEnds(sightOf(w.motion.tables[0]))
	if !near(a, board.Point{X: -0.3, Y: 0.2}) {
		t.Errorf("its middle is at %v", a)
	}
	steps := len(w.desk.Past().Steps)
	pressOn(w, z)
	pull(w, board.Point{X: 0.1, Y: 0.2})
	pull(w, board.Point{X: -0.1, Y: 0.2})
	letGo(w)
	s := w.board.Moves[0].Sight
	if math.Abs(s.PerMM-0.002) > 0.0001 || s.Turn != 0 {
		t.Errorf("100 mm over a fifth of the height: %+v", s)
	}
	if got := len(w.desk.Past().Steps) - steps; got != 1 {
		t.Errorf("a drag is %d steps to undo", got)
	}
}

func TestDraggedKeysAreWhereTheyAreSeen(t *testing.T) {
	for _, s := range []board.Sight{
		{PerMM: 0.003},
		{PerMM: 0.002, Turn: 30, At: board.Point{X: 0.1, Y: -0.2}},
		{PerMM: 0.005, Turn: -15, Top: true, At: board.Point{X: -0.3}},
	} {
		want := board.Spot{X: 42.5, Y: -17, Height: 33}
		was := want
		was.X = 0
		if got := draggedKey(s, was, motion.Seen(s, want)); got != want {
			t.Errorf("through %+v the key goes to %+v, want %+v", s, got, want)
		}
	}
}

func TestKeysComeAndGoWithTheirHits(t *testing.T) {
	w := openMotion(t, "saucer slides")
	f := w.motion
	f.moment.SetSelected("arrives")
	w.seek(w.starts[2])
	run(t, w, hitHereName)
	h := w.board.Moves[0].Hits
	if len(h) != 1 || h[0].Moment != 1 || !h[0].Start.Anchored() {
		t.Fatalf("hits are %+v", h)
	}
	if !strings.HasPrefix(f.hits.Text, "On the music: arrives, ") {
		t.Errorf("the face says %q", f.hits.Text)
	}
	f.pickKey(0)
	run(t, w, addKeyName)
	m := w.board.Moves[0]
	if len(m.Keys) != 3 || m.Keys[1].X != 60 || m.Hits[0].Moment != 2 || f.key != 1 {
		t.Errorf("a key more: %+v, key %d chosen", m, f.key)
	}
	run(t, w, removeKeyName)
	if m := w.board.Moves[0]; len(m.Keys) != 2 || m.Hits[0].Moment != 1 {
		t.Errorf("and taken out: %+v", m)
	}
	f.moment.SetSelected("arrives")
	run(t, w, hitFreeName)
	if h := w.board.Moves[0].Hits; len(h) != 0 {
		t.Errorf("set free: %+v", h)
	}
}

func TestAMomentGoesFromBeatToBeat(t *testing.T) {
	w := openMotion(t, "saucer slides")
	w.motion.moment.SetSelected("arrives")
	w.seek(w.starts[2])
	run(t, w, hitLaterName) // it is on none yet: on the one here
	hit := func() board.Anchor { return w.board.Moves[0].Hits[0].Start.Anchor }
	first := hit()
	for _, c := range []struct {
		command string
		beat    int
	}{{hitLaterName, 1}, {hitLaterName, 2}, {hitEarlierName, 1}, {hitEarlierName, 0}, {hitEarlierName, -1}} {
		if run(t, w, c.command); len(w.board.Moves[0].Hits) != 1 || hit().Beat != first.Beat+c.beat || w.at != w.board.Frame(w.board.Moves[0].Hits[0].Start) {
			t.Errorf("%s: hits %+v with the playhead on frame %d, want beat %d", c.command, w.board.Moves[0].Hits, w.at, first.Beat+c.beat)
		}
	}
	if w.desk.Undo(); hit().Beat != first.Beat {
		t.Errorf("undone it is on beat %d, want %d", hit().Beat, first.Beat)
	}
}

func TestTheTableOfAMove(t *testing.T) {
	w := openMotion(t, "cup is dropped")
	f := w.motion
	f.show(true)
	table, _ := f.table()
	if got := motionRow(table, 0, "0"); got[1] != "200.0" || got[2] != "" || !strings.Contains(got[3], "lets go") {
		t.Errorf("the first exposure reads %q", got)
	}
	lands := -1
	for i, r := range table.Rows {
		if r.Moment == "lands" {
			lands = i
		}
	}
	if lands < 1 {
		t.Fatal("it never lands")
	}
	if got := motionRow(table, lands, "1"); got[1] != "0.0" || !strings.Contains(got[3], "lands") {
		t.Errorf("where it lands the table reads %q", got)
	}
	f.list.Select(lands)
	if w.at != table.Rows[lands].Frame {
		t.Errorf("choosing it puts the playhead on %d, want %d", w.at, table.Rows[lands].Frame)
	}
	typeNumber(w, f.height, "2000")
	w.win.Canvas().Unfocus()
	if f.warning.Text == "" {
		t.Error("a fall of two metres in steps on twos has no warning")
	}
}

func TestMovesAreCopiedWithTheirPanels(t *testing.T) {
	w := openMotion(t, "saucer slides")
	run(t, w, "Copy panels")
	w.choose(3)
	run(t, w, "Paste panels")
	settle(t, w)
	if n := len(w.board.Moves); n != 2 {
		t.Fatalf("%d moves, want 2; the foot says %q", n, w.foot.words.Text)
	}
	if m := w.board.Moves[1]; m.First != w.board.Panels[4].ID || m.Last != w.board.Panels[5].ID {
		t.Errorf("the copy goes from panel id %d to %d", m.First, m.Last)
	}
}

func TestKeysAreInSightWhereTheMoveIsNot(t *testing.T) {
	w := openMotion(t, "cup is dropped")
	f := w.motion
	w.seek(w.starts[1])
	f.moment.SetSelected("lands")
	run(t, w, hitHereName) // it would have to fall before its panels
	table, _ := f.table()
	if len(table.Findings) == 0 {
		t.Fatal("nothing says that it begins too early")
	}
	for _, k := range table.Move.Keys {
		if p := motion.Seen(sightOf(table), k); math.Abs(p.X) > 0.5 || math.Abs(p.Y) > 0.5 {
			t.Errorf("the key %+v is seen at %v", k, p)
		}
	}
}
