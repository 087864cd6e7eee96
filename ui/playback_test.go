package ui

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"stillbeat/audio/play"
	"stillbeat/board"
)

// fourPanels opens a film of four panels of 24 frames at 24 a second; its
// bars start at 0, 48, 96 and on.
func fourPanels(t *testing.T) *window {
	t.Helper()
	w := openWindow(t)
	bringIn(t, w, 4)
	w.seek(0)
	return w
}

func TestPassages(t *testing.T) {
	w := fourPanels(t)
	for _, c := range []struct {
		name string
		at   board.Frame
		do   func()
		want span
	}{
		{"nothing", 0, func() { run(t, w, "Loop nothing") }, span{}},
		{"the film", 30, func() { run(t, w, "Loop the film") }, span{0, 96}},
		{"the bar", 30, func() { run(t, w, "Loop the bar") }, span{0, 48}},
		{"the bar, on its first frame", 48, func() {}, span{48, 96}},
		{"one chosen panel", 0, func() { w.choose(1); run(t, w, "Loop the chosen panels") }, span{24, 48}},
		{"from the first chosen to the last", 0, func() { w.selectSet([]int{1, 3}, 3) }, span{24, 96}},
		{"one mark", 12, func() { run(t, w, "In mark at the playhead"); run(t, w, "Loop the marked range") }, span{12, 96}},
		{"two marks", 36, func() { run(t, w, "Out mark at the playhead") }, span{12, 36}},
		{"an In mark behind the Out mark", 60, func() { run(t, w, "In mark at the playhead") }, span{60, 96}},
		{"an Out mark before the In mark", 20, func() { run(t, w, "Out mark at the playhead") }, span{0, 20}},
		{"no marks", 20, func() { run(t, w, "Take the marks away") }, span{}},
	} {
		w.seek(c.at)
		c.do()
		if got := w.passage(); got != c.want {
			t.Errorf("%s: frames %v, want %v", c.name, got, c.want)
		}
	}
}

func TestBarAroundTheEdges(t *testing.T) {
	b := board.New()
	b.Grid = board.NewGrid([]float64{1, 1.5, 2, 2.5, 3, 3.5}, []float64{1, 3})
	for f, want := range map[board.Frame]span{0: {0, 24}, 23: {0, 24}, 24: {24, 72}, 71: {24, 72}, 72: {72, 100}, 99: {72, 100}} {
		if got := barAround(b, f, 100); got != want {
			t.Errorf("the bar around frame %d is %v, want %v", f, got, want)
		}
	}
}

// TestLoopPlaysRoundAndRound: the player is told the exact seconds of the
// frames, and the playhead stays within them.
func TestLoopPlaysRoundAndRound(t *testing.T) {
	w := fourPanels(t)
	w.choose(1)
	run(t, w, "Loop the chosen panels")
	w.seek(90)
	w.selectSet([]int{1}, 1)
	w.togglePlay()
	if w.at != 24 {
		t.Errorf("begun outside the loop, it plays from frame %d, want 24", w.at)
	}
	if got, want := w.playing.manner, (play.Manner{Speed: 1, From: 1, To: 2}); got != want {
		t.Errorf("the player is told %+v, want %+v", got, want)
	}
	w.selectSet([]int{1, 2}, 1)
	w.tick(w.playing)
	if got := w.playing.loop; got != (span{24, 72}) {
		t.Errorf("with one more panel chosen the loop is %v, want 24 to 72", got)
	}
	run(t, w, "Loop on or off")
	w.tick(w.playing)
	if got := w.playing.manner; got != (play.Manner{Speed: 1}) {
		t.Errorf("switched off, the player is told %+v", got)
	}
	w.stop()
}

func TestSpeedWhilePlaying(t *testing.T) {
	w := fourPanels(t)
	w.togglePlay()
	for _, s := range speeds {
		run(t, w, speedName(s))
		w.tick(w.playing)
		if got := w.playing.manner.Speed; got != s {
			t.Errorf("at %g the player is told %g", s, got)
		}
		if got := w.deck.speed.Text; got != speedWords(s) {
			t.Errorf("at %g the deck says %q", s, got)
		}
	}
	run(t, w, "Slower")
	run(t, w, "The pitch goes with the speed")
	w.tick(w.playing)
	if got := w.playing.manner; got != (play.Manner{Speed: 1.5, Bends: true}) {
		t.Errorf("the player is told %+v", got)
	}
	w.stop()
}

func TestStopGoesBack(t *testing.T) {
	w := fourPanels(t)
	w.seek(30)
	w.togglePlay()
	w.goTo(50, true)
	run(t, w, "Stop: back to where it began")
	if w.playing != nil || w.at != 30 || w.chosen != 1 {
		t.Errorf("stopped: playing %v, at %d with panel %d chosen, want frame 30, panel 1", w.playing != nil, w.at, w.chosen)
	}
	w.togglePlay()
	w.goTo(50, true)
	w.togglePlay()
	if w.at != 50 {
		t.Errorf("paused, it is at %d, want 50", w.at)
	}
}

func TestPlayAroundTheCut(t *testing.T) {
	w := fourPanels(t)
	run(t, w, "Loop the film") // it is played once all the same
	w.choose(2)
	run(t, w, "Play around the cut")
	if w.playing == nil || w.at != 12 || w.playing.once != (span{12, 84}) || w.playing.manner != (play.Manner{Speed: 1}) {
		t.Fatalf("it plays from %d: %+v", w.at, w.playing)
	}
	w.player.Play(84.5 / 24)
	w.tick(w.playing)
	if w.playing != nil || w.at != 48 {
		t.Errorf("after it: playing %v at %d, want the cut at 48", w.playing != nil, w.at)
	}
}

// TestPlayAroundTheSameCut asks for it again and again, while the panel before
// the cut is up too: it is one cut.
func TestPlayAroundTheSameCut(t *testing.T) {
	w := fourPanels(t)
	w.choose(2)
	for range 4 {
		run(t, w, "Play around the cut")
		w.goTo(w.at+1, true)
		if w.playing == nil || w.playing.once != (span{12, 84}) || w.transport.began != 48 {
			t.Fatalf("it plays %+v about frame %d, want frames 12 to 84 about 48", w.playing, w.transport.began)
		}
	}
	run(t, w, "Stop: back to where it began")
	if w.at != 48 || w.chosen != 2 {
		t.Errorf("after it: frame %d, panel %d chosen, want 48 and 2", w.at, w.chosen)
	}
}

// TestHammeredSteps steps 200 times while it plays: each lands on its frame,
// and the sound goes on from the last.
func TestHammeredSteps(t *testing.T) {
	w := fourPanels(t)
	w.togglePlay()
	at := w.at
	for i := range 200 {
		by, name := board.Frame(1), "A frame on"
		if i%3 == 2 {
			by, name = -1, "A frame back"
		}
		if at += by; at > 90 {
			w.seek(2)
			at = 2
			continue
		}
		run(t, w, name)
		if w.at != at {
			t.Fatalf("step %d: at %d, want %d", i, w.at, at)
		}
	}
	w.tick(w.playing)
	if got, want := w.player.Position(), w.board.Rate.Seconds(w.at); math.Abs(got-want) > 0.2 {
		t.Errorf("the sound is at %.3f s, the picture at %.3f", got, want)
	}
	if w.playing.moved {
		t.Error("a refresh later the sound has not followed")
	}
	w.stop()
}

func TestSteps(t *testing.T) {
	w := fourPanels(t)
	w.do(board.SetRate(board.FrameRate{Num: 30000, Den: 1001}))
	end := w.lastFrame()
	for _, c := range []struct {
		from board.Frame
		name string
		want board.Frame
	}{
		{0, "A second on", 30}, {31, "A second back", 1}, {5, "A second back", 0}, {end, "A second on", end},
		{0, "A bar on", 60}, {60, "A bar on", min(120, end)}, {61, "A bar back", 60}, {60, "A bar back", 0}, {0, "A bar back", 0},
		{0, "A beat on", 15}, {15, "A beat back", 0}, {0, "A beat back", 0},
		{w.board.BeatFrame(len(w.board.Grid.Beats) - 1), "A beat on", end}, {end, "A beat on", end},
	} {
		w.seek(c.from)
		run(t, w, c.name)
		if w.at != c.want {
			t.Errorf("%s from frame %d lands on %d, want %d", c.name, c.from, w.at, c.want)
		}
	}
}

// TestBarsThatAreNotKnown: whatever goes by bars stays where it is and says so.
func TestBarsThatAreNotKnown(t *testing.T) {
	w := fourPanels(t)
	w.do(board.Edit{Name: "forget bars", Apply: func(b board.Board) (board.Board, error) {
		b.Grid.Beats = slices.Clone(b.Grid.Beats)
		for i := range b.Grid.Beats {
			b.Grid.Beats[i].Bar = false
		}
		return b, nil
	}})
	w.seek(30)
	for _, name := range []string{"A bar on", "A bar back", "Loop the bar"} {
		w.foot.Say("")
		run(t, w, name)
		if got := w.foot.words.Text; w.at != 30 || !w.passage().empty() || !strings.HasPrefix(got, "It is not known where bars start.") {
			t.Errorf("%s: at frame %d, it loops %v; the foot says %q", name, w.at, w.passage(), got)
		}
	}
}

// TestMarkAtTheStart: the range begins there in any case, with or without an end.
func TestMarkAtTheStart(t *testing.T) {
	w := fourPanels(t)
	w.seek(0)
	for want, do := range []func(){
		func() {}, func() { w.seek(36); run(t, w, "Out mark at the playhead"); w.seek(0) },
	} {
		do()
		run(t, w, "In mark at the playhead")
		said := []string{"The range begins where the film does: the Out mark says where it ends.", "Marked: frames 0 to 35, 00:00:01:12."}[want]
		if got := w.foot.words.Text; got != said {
			t.Errorf("the foot says %q, want %q", got, said)
		}
	}
}

func TestMarksAreKeptWithTheFilm(t *testing.T) {
	for kept, want := range map[string]keptMarks{
		`{"in":0.5,"out":1.5}`:  {0.5, 1.5},
		`{"in":0,"out":1}`:      {0, 1},
		`{"in":2,"out":1}`:      {},
		`{"in":-3,"out":1}`:     {},
		`{"in":1e99,"out":0}`:   {},
		`{"in":"soon","out":0}`: {},
		``:                      {},
	} {
		w := openWindow(t)
		w.desk.SetSetting(marksSetting, kept)
		w.takeMarks()
		if got := (keptMarks{w.transport.in, w.transport.out}); got != want {
			t.Errorf("kept as %s they are %v, want %v", kept, got, want)
		}
	}
	w := fourPanels(t)
	w.seek(12)
	run(t, w, "In mark at the playhead")
	if got := w.desk.Setting(marksSetting); got != `{"in":0.5,"out":0}` {
		t.Errorf("the film keeps %s", got)
	}
}

func TestTransportIsKept(t *testing.T) {
	w := openWindow(t)
	run(t, w, "The pitch goes with the speed")
	run(t, w, "Sound while scrubbing and stepping")
	run(t, w, followNames[followSmooth])
	w.transport = transport{}
	w.takeTransport()
	if want := (keptTransport{true, true, followSmooth}); w.transport.kept != want || w.timeline.follow != followSmooth {
		t.Errorf("it comes back as %+v, want %+v", w.transport.kept, want)
	}
	for _, kept := range []string{"{", `{"follow":9}`, `{"follow":-1}`, `7`} {
		w.app.Preferences().SetString(transportKey, kept)
		w.takeTransport()
		if w.transport.kept != (keptTransport{}) || w.transport.speed != 1 {
			t.Errorf("kept as %s it is %+v", kept, w.transport)
		}
	}
}

func TestFollowing(t *testing.T) {
	w := fourPanels(t)
	for _, c := range []struct {
		mode   followMode
		at     board.Frame
		middle bool
		moves  bool
	}{
		{followPage, 10, false, false}, {followPage, 84, false, true},
		{followSmooth, 60, true, true}, {followSmooth, 63, true, true},
		{followNot, 90, false, false},
	} {
		w.timeline.follow = c.mode
		w.timeline.ShowFrom(0, 400)
		v := &w.timeline.view
		from := v.from
		w.timeline.SetPlayhead(c.at, true)
		if moved := v.from != from; moved != c.moves {
			t.Errorf("%s, to frame %d: scrolled %v, want %v", followNames[c.mode], c.at, moved, c.moves)
		}
		if x := v.frameX(c.at); c.middle && math.Abs(x-v.width/2) > 0.5 {
			t.Errorf("%s, frame %d is at %.1f of %.1f", followNames[c.mode], c.at, x, v.width)
		}
	}
	w.timeline.FitAll()
	from := w.timeline.view.from
	w.timeline.follow = followSmooth
	if w.timeline.SetPlayhead(50, true); w.timeline.view.from != from {
		t.Error("with the whole film in sight it glides")
	}
}

// TestStepsStayInSight: close up, the timeline follows each step; while the
// playhead is dragged it stays under the pointer, and scrolls on at an edge.
func TestStepsStayInSight(t *testing.T) {
	w := fourPanels(t)
	w.timeline.ZoomBy(8)
	v := &w.timeline.view
	inSight := func() bool { x := v.frameX(w.at); return x >= 0 && x <= v.width }
	if v.frameX(w.lastFrame()) <= v.width {
		t.Fatal("the whole film is in sight")
	}
	for _, c := range []struct {
		name  string
		times int
	}{{"To the end", 1}, {"A frame back", 90}, {"A beat on", 9}, {"To the start", 1}, {"A frame on", 90}, {"A bar back", 3}} {
		for range c.times {
			if run(t, w, c.name); !inSight() {
				t.Fatalf("%s: frame %d is at %.0f of %.0f", c.name, w.at, v.frameX(w.at), v.width)
			}
		}
	}
	press(w, 300, 60)
	from := v.from
	dragTo(w, v.width/2, 60)
	if v.from != from {
		t.Error("in the middle the timeline goes away under the pointer")
	}
	for range 200 {
		dragTo(w, v.width-2, 60)
	}
	if w.at != w.lastFrame() || !inSight() {
		t.Errorf("dragged into the right edge, it shows %.2f to %.2f s with the playhead on frame %d", v.from, v.sec(v.width), w.at)
	}
	w.timeline.release()
}

func TestPlaceOnTheDeckFitsItsRoom(t *testing.T) {
	w := fourPanels(t)
	w.seek(30)
	d := w.deck
	for _, c := range []struct {
		room float32
		want string
	}{{1000, "panel 2 · bar 1, beat 3 · frame 30"}, {170, "bar 1, beat 3 · frame 30"}, {10, "frame 30"}} {
		d.room = textUnits(c.room)
		d.fitPlace()
		if d.place.Text != c.want {
			t.Errorf("in %g units the place is %q, want %q", c.room, d.place.Text, c.want)
		}
	}
}

func Example_speedWords() {
	for _, s := range speeds {
		fmt.Print(speedWords(s), " ")
	}
	// Output: 0.25× 0.5× 0.75× 1× 1.25× 1.5× 2×
}
