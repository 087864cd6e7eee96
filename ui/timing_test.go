package ui

import (
	"slices"
	"strings"
	"testing"

	"stillbeat/board"
)

func TestLengthsAsTyped(t *testing.T) {
	for _, c := range []struct {
		typed string
		want  length
	}{
		{"12", length{12, "f"}}, {" 12 f ", length{12, "f"}}, {"1.5s", length{1.5, "s"}}, {"1,5 s", length{1.5, "s"}},
		{"2 beats", length{2, "b"}}, {"0.25 b", length{0.25, "b"}}, {"1 Bar", length{1, "bar"}},
		{"", length{}}, {"soon", length{}}, {"-3", length{}}, {"0", length{}}, {"1.5", length{}}, {"0.3 b", length{}},
		{"0.5 bar", length{}}, {"4 ells", length{}}, {"1e9", length{}}, {"NaN s", length{}},
	} {
		got, err := parseLength(c.typed)
		if got != c.want || (err == nil) != (c.want.unit != "") {
			t.Errorf("%q reads as %v (%v), want %v", c.typed, got, err, c.want)
		}
	}
}

func TestTimingOfChosenPanels(t *testing.T) {
	w := openWindow(t)
	bringIn(t, w, 4) // 120 BPM: a beat is 12 frames, starts every 24
	choose := func(from, to int) {
		w.choose(from)
		w.chooseTo(to)
	}
	for _, c := range []struct {
		name string
		do   func()
		want []board.Frame
	}{
		{"a beat each", func() { choose(0, 3); run(t, w, "A beat each") }, []board.Frame{0, 12, 24, 36, 48}},
		{"a bar each", func() { choose(0, 2); run(t, w, "A bar each") }, []board.Frame{0, 48, 96, 144, 168}},
		{"even holds", func() { w.do(board.SetHold([]int{1}, 6)); choose(1, 3); run(t, w, "Even holds") }, []board.Frame{0, 24, 42, 60, 78}},
		{"nudged by a frame", func() { choose(1, 2); run(t, w, "Start a frame later") }, []board.Frame{0, 25, 49, 72, 96}},
		{"nudged by a beat", func() { choose(1, 2); run(t, w, "Start a beat earlier") }, []board.Frame{0, 12, 36, 72, 96}},
		{"joined with the next", func() { w.choose(1); run(t, w, "Join") }, []board.Frame{0, 24, 72, 96}},
		{"deleted", func() { choose(1, 2); run(t, w, "Delete: the panel before holds on") }, []board.Frame{0, 72, 96}},
		{"cut out", func() { choose(1, 2); run(t, w, "Cut out: what comes after moves up") }, []board.Frame{0, 24, 48}},
		{"duplicated", func() { choose(0, 1); run(t, w, "Duplicate") }, []board.Frame{0, 24, 48, 72, 96, 120, 144}},
		{"a blank panel before", func() { w.choose(2); run(t, w, "Add a blank panel before") }, []board.Frame{0, 24, 48, 72, 96, 120}},
	} {
		t.Run(c.name, func(t *testing.T) {
			n := w.desk.Past().At
			c.do()
			if !slices.Equal(w.starts, c.want) {
				t.Errorf("starts %v, want %v", w.starts, c.want)
			}
			for w.desk.Past().At > n {
				w.desk.Undo()
			}
			if back := []board.Frame{0, 24, 48, 72, 96}; !slices.Equal(w.starts, back) {
				t.Fatalf("undone the starts are %v", w.starts)
			}
		})
	}
	l, _ := parseLength("2 bars")
	if got, err := w.framesFrom(0, l); err != nil || got != 96 {
		t.Errorf("two bars from the start are %d frames (%v), want 96", got, err)
	}
	l, _ = parseLength("3 b")
	if got, err := w.framesFrom(24, l); err != nil || got != 36 {
		t.Errorf("three beats from frame 24 are %d frames (%v), want 36", got, err)
	}
}

func TestSnappingSomeWithALead(t *testing.T) {
	w := openWindow(t)
	bringIn(t, w, 4)
	for i := 1; i < 4; i++ {
		w.do(board.SetStart(i, board.Free(w.board.Rate.Seconds(w.starts[i]+3))))
	}
	w.lead = 2
	w.choose(1)
	w.chooseTo(2)
	run(t, w, "Snap to beats")
	if want := []board.Frame{0, 22, 46, 75, 96}; !slices.Equal(w.starts, want) {
		t.Errorf("starts %v, want %v", w.starts, want)
	}
	if !strings.Contains(w.foot.words.Text, "2 frames ahead") {
		t.Errorf("the foot says %q", w.foot.words.Text)
	}
}

func TestCutsThatFightTheMusic(t *testing.T) {
	w := openWindow(t)
	bringIn(t, w, 4)
	if got := worstCuts(w.board, w.starts); len(got) > 0 {
		t.Fatalf("on the beat %v fight", got)
	}
	w.do(board.SetStart(1, board.Free(26./24))) // 83 ms late
	w.do(board.SetStart(2, board.Free(46./24))) // 83 ms early: not noticed
	w.do(board.SetStart(3, board.Free(68./24))) // 167 ms early
	cuts := worstCuts(w.board, w.starts)
	if len(cuts) != 2 || cuts[0].start != 3 || cuts[1].start != 1 {
		t.Fatalf("the worst are %v, want panels 4 and 2", cuts)
	}
	if got, want := cuts[0].words(w.board, w.numbers), "Panel 4 starts 167 ms (4.0 frames) early"; got != want {
		t.Errorf("it says %q, want %q", got, want)
	}
	w.worstDialog()
	for _, c := range cuts {
		w.mendCut(c.start)
	}
	if got := worstCuts(w.board, w.starts); len(got) > 0 {
		t.Errorf("mended, %v fight", got)
	}
	if want := []board.Frame{0, 24, 46, 72, 96}; !slices.Equal(w.starts, want) {
		t.Errorf("starts %v, want %v", w.starts, want)
	}
}
