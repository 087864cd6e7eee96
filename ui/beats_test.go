package ui

import (
	"math"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"stillbeat/board"
)

func TestTempoAsTyped(t *testing.T) {
	b := board.New()
	for _, tt := range []struct {
		typed string
		bpm   float64 // 0: refused
	}{
		{"108", 108}, {" 97,5 ", 97.5},
		// A film click is frames and eighths for a beat at 24 fps:
		// 12-0 is 120 BPM, 12-2 117.55, 24-0 60 (trade notes 2.1).
		{"12-0", 120}, {"12-2", 1440 / 12.25}, {"24-0", 60},
		{"", 0}, {"fast", 0}, {"12-9", 0}, {"-5", 0}, {"1e9", 0},
	} {
		edit, err := tempoEdit(tt.typed, 0)
		var got board.Board
		if err == nil {
			got, err = edit.Apply(b)
		}
		switch {
		case tt.bpm == 0 && err == nil:
			t.Errorf("%q was taken for a tempo", tt.typed)
		case tt.bpm > 0 && err != nil:
			t.Errorf("%q: %v", tt.typed, err)
		case tt.bpm > 0:
			beats := got.Grid.Beats
			if bpm := 60 / (beats[11].Time - beats[10].Time); math.Abs(bpm-tt.bpm) > 0.005 {
				t.Errorf("%q laid %.3f BPM, want %.3f", tt.typed, bpm, tt.bpm)
			}
		}
	}
}

func TestBeatsAreDraggedOnTheirRuler(t *testing.T) {
	w := openWindow(t)
	bringIn(t, w, 4)
	w.timeline.zoom(4, 0)
	v := &w.timeline.view
	y := timeRulerH + 8
	// Beat 4 (2 s) starts panel 3: dragged 100 ms later, the panel goes with it.
	press(w, v.x(2), y)
	dragTo(w, v.x(2.1), y)
	w.timeline.MouseUp(nil)
	beat := w.board.Grid.Beats[4]
	if math.Abs(beat.Time-2.1) > 0.02 || !beat.Hand {
		t.Fatalf("beat 4 = %+v, want about 2.1 s, set by hand", beat)
	}
	if got, want := w.starts[2], w.board.Rate.Nearest(beat.Time); got != want {
		t.Errorf("the panel on it starts at frame %d, want %d", got, want)
	}
	if w.desk.Undo(); w.board.Grid.Beats[4].Time != 2 {
		t.Error("undo does not bring the beat back")
	}
	// Beyond its neighbour it cannot go.
	press(w, v.x(2), y)
	dragTo(w, v.x(9), y)
	w.timeline.MouseUp(nil)
	if got := w.board.Grid.Beats[4].Time; got >= 2.5 {
		t.Errorf("beat 4 was dragged to %.3f s, past beat 5", got)
	}
}

func TestBeatCommands(t *testing.T) {
	w := openWindow(t)
	bringIn(t, w, 2)
	command := func(name string) {
		t.Helper()
		for _, c := range w.commands {
			if c.name == name {
				c.run()
				return
			}
		}
		t.Fatalf("no command %q", name)
	}
	n := len(w.board.Grid.Beats)
	command("Twice as many beats")
	if got := len(w.board.Grid.Beats); got < 2*n-1 {
		t.Errorf("doubled: %d beats of %d", got, n)
	}
	if w.starts[1] != 24 {
		t.Errorf("panel 2 moved to frame %d, want 24", w.starts[1])
	}
	command("Half as many beats")
	w.seek(6) // 0.25 s
	command("Add a beat at the playhead")
	if got := len(w.board.Grid.Beats); got != n+1 {
		t.Errorf("one beat added: %d of %d", got, n)
	}
	command("Take the nearest beat out")
	if got := len(w.board.Grid.Beats); got != n {
		t.Errorf("and taken out: %d of %d", got, n)
	}
	command("All beats 10 ms later")
	if got := w.board.Grid.Beats[0].Time; math.Abs(got-0.01) > 1e-9 {
		t.Errorf("slid by 10 ms the first beat is at %g s", got)
	}
	w.choose(0)
	command("Lock the beats under this panel")
	if len(w.board.Grid.Locks) != 1 {
		t.Errorf("locks %v", w.board.Grid.Locks)
	}
	command("Listen to the song again")
	settle(t, w)
	for i, beat := range w.board.Grid.Beats {
		if got, want := beat.Time, 0.5*float64(i)+0.01; math.Abs(got-want) > 1e-9 {
			t.Errorf("listening again put slid beat %d at %g s, want %g", i, got, want)
		}
	}
	command("Listen again, forget all set by hand")
	settle(t, w)
	if g := w.board.Grid; g.Beats[0].Time != 0 || g.Beats[0].Hand || len(g.Locks) > 0 {
		t.Errorf("all forgotten, the first beat is %+v and the locks %v", g.Beats[0], g.Locks)
	}
}

func TestTapsAreOffered(t *testing.T) {
	w := openWindow(t)
	bringIn(t, w, 1)
	w.tapping = &tapping{}
	for i := range 12 {
		w.tapping.taps = append(w.tapping.taps, 1+0.6*float64(i)+0.01*math.Sin(float64(i)))
	}
	w.endTapping()
	if w.win.Canvas().Overlays().Top() == nil {
		t.Fatal("taps are not offered")
	}
	w.tapping = &tapping{taps: []float64{1, 2}}
	w.endTapping()
	if w.tapping != nil {
		t.Error("too few taps are kept")
	}
}

func TestSongDialogAndPeak(t *testing.T) {
	w := openWindow(t)
	bringIn(t, w, 1)
	w.do(board.SetSongSound(1, 0, 2, 0.5, 0.5, -3))
	if s := w.board.Song; s.Offset != 1 || s.TrimOut != 2 || s.Gain != -3 {
		t.Fatalf("the song is %+v", s)
	}
	if w.starts[1] < 24 {
		t.Errorf("the panel did not follow the song: it ends at frame %d", w.starts[1])
	}
	if got := peakWords(peakLevel(w.timeline.view.wave, *w.board.Song)); got != "silence" {
		t.Errorf("the peak of silence reads %q", got)
	}
	for db, want := range map[float64]string{-3: "3.0 dB below full scale", 2.5: "+2.5 dB: too loud by as much, it would be cut off"} {
		if got := peakWords(db, true); got != want {
			t.Errorf("a peak of %g dB reads %q, want %q", db, got, want)
		}
	}
	m := newPeakMeter()
	m.root.Resize(fyne.NewSize(460, 12)) // 10 units to the dB
	for _, tt := range []struct {
		db         float64
		fill, over float32
	}{{-20, 200, 0}, {0, 400, 0}, {3, 400, 30}, {99, 400, 60}, {math.Inf(-1), 0, 0}} {
		m.Set(tt.db)
		fill, over := m.fill.Size().Width, m.over.Size().Width
		if math.Abs(float64(fill-tt.fill)) > 0.01 || math.Abs(float64(over-tt.over)) > 0.01 || m.over.Hidden != (tt.over == 0) {
			t.Errorf("at %g dB the bar is %g and %g long, want %g and %g", tt.db, fill, over, tt.fill, tt.over)
		}
	}
	w.songDialog()
	if w.win.Canvas().Overlays().Top() == nil {
		t.Error("no dialog")
	}
}

func TestRatesDialogNamesTheFilmsRate(t *testing.T) {
	w := openWindow(t)
	bringIn(t, w, 1)
	w.ratesDialog()
	top := w.win.Canvas().Overlays().Top()
	if top == nil {
		t.Fatal("no dialog")
	}
	if size := top.MinSize(); size.Width > 1090 || size.Height > 650 {
		t.Errorf("the table needs %v of a window of 1100 x 700", size)
	}
	if !strings.Contains(beatName(w.board, board.Anchor{Beat: 5, Of: 1}), "bar 2, beat 2") {
		t.Errorf("beat 5 of fours is called %q", beatName(w.board, board.Anchor{Beat: 5, Of: 1}))
	}
}
