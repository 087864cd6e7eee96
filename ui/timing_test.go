package ui

import (
	"slices"
	"strings"
	"testing"
	"time"

	"stillbeat/board"
	"stillbeat/board/check"
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

func TestTheCutThatFightsTheMusicMost(t *testing.T) {
	w := openWindow(t)
	w.check.run.wait = time.Millisecond
	bringIn(t, w, 4)
	run(t, w, worstCutName)
	if w.check.up() || !strings.HasPrefix(w.foot.words.Text, "Every cut sits on the music") {
		t.Fatalf("on the beat, the foot says %q", w.foot.words.Text)
	}
	w.do(board.SetStart(1, board.Free(26./24))) // 83 ms late
	w.do(board.SetStart(2, board.Free(46./24))) // 83 ms early: not noticed
	w.do(board.SetStart(3, board.Free(68./24))) // 167 ms early
	for _, want := range []int{3, 1} {
		run(t, w, worstCutName)
		settle(t, w)
		f, ok := w.check.chosen()
		if !w.check.up() || !ok || f.Kind != check.OffBeat || f.Panel != w.board.Panels[want].ID || w.chosen != want || w.at != w.starts[want] {
			t.Fatalf("it shows %+v, panel %d at frame %d; want panel %d off the beat", f, w.chosen, w.at, want)
		}
		w.check.mendOne()
		settle(t, w)
	}
	if want := []board.Frame{0, 24, 46, 72, 96}; !slices.Equal(w.starts, want) {
		t.Errorf("mended, starts are %v, want %v", w.starts, want)
	}
	w.do(board.SetStart(3, board.Free(68./24)))
	w.do(board.Dismiss([]string{offBeatID(w.board, 3)}))
	if got := furthestOff(w.board, w.starts); got >= 0 {
		t.Errorf("dismissed, panel %d still fights", got)
	}
}
