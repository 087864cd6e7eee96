package ui

import (
	"fmt"
	"image"
	"strings"
	"testing"

	"stillbeat/board"
)

func TestTwoPicturesInARoom(t *testing.T) {
	for _, tt := range []struct {
		name          string
		shape         string
		room          image.Rectangle
		first, second image.Rectangle
	}{
		{"side by side, the width decides", "16:9", image.Rect(10, 10, 658, 410), image.Rect(10, 120, 330, 300), image.Rect(338, 120, 658, 300)},
		{"side by side, the height decides", "1:1", image.Rect(0, 0, 508, 100), image.Rect(150, 0, 250, 100), image.Rect(258, 0, 358, 100)},
		{"upright pictures side by side", "9:16", image.Rect(0, 0, 500, 160), image.Rect(156, 0, 246, 160), image.Rect(254, 0, 344, 160)},
		{"wide ones one below the other", "4:1", image.Rect(0, 0, 400, 400), image.Rect(0, 96, 400, 196), image.Rect(0, 204, 400, 304)},
	} {
		a, err := board.ParseAspect(tt.shape)
		if err != nil {
			t.Fatal(err)
		}
		if first, second := pairIn(a, tt.room, 8); first != tt.first || second != tt.second {
			t.Errorf("%s: %v and %v, want %v and %v", tt.name, first, second, tt.first, tt.second)
		}
	}
}

// At every moment each of the two shows what the film has then at its rate.
func TestTwoRatesSideBySide(t *testing.T) {
	w := openWindow(t)
	bringIn(t, w, 3)
	w.do(board.SetStart(1, board.Free(26./24)))
	w.do(board.SetMove([]int{1}, board.CameraMove{To: board.Framing{Width: 0.5}}))
	w.do(board.SetTransition([]int{2}, board.Transition{Kind: board.Dissolve, Frames: 8}))
	w.do(board.SetStep(2))
	w.toggleSecond()
	was, done := w.board, w.desk.UndoName()
	pair, next := w.keys.named["Two frame rates side by side"], w.keys.named[seeRates]
	check := func(other string) {
		t.Helper()
		rate, err := board.ParseRate(other)
		if err != nil {
			t.Fatal(err)
		}
		right := seenAs(w.desk.Pictures, w.board, rate)
		differ := 0
		for k := range 300 { // between frames too, as playing does
			at := float64(k) * 0.0099
			w.showPicture(at)
			left, other := w.film.Shot(w.board.Rate.At(at)), right.film.Shot(rate.At(at))
			for _, v := range w.viewers() {
				if v.twin == nil {
					t.Fatal("there is no second picture")
				}
				if v.shot != left {
					t.Fatalf("at %.3f s the left one is not the film at its own rate", at)
				}
				if v.twin.shot != other {
					t.Fatalf("at %.3f s the right one is not the film at %s", at, rate)
				}
			}
			if left != other {
				differ++
			}
		}
		if differ < 20 {
			t.Errorf("%s: the two differ at %d of 300 moments", other, differ)
		}
		if got := w.viewer.over.note.text; got != "24 fps on twos: 12 photographs a second" {
			t.Errorf("the left one says %q", got)
		}
		if got, want := w.viewer.twin.over.note.text, fmt.Sprintf("%s fps on twos: %.3g photographs a second", other, rate.Float()/2); got != want {
			t.Errorf("the right one says %q, want %q", got, want)
		}
	}
	pair.run()
	check("12")
	next.run()
	check("8") // 24 is the film's own
	next.run()
	check("12")
	for _, v := range w.viewers() {
		if v.image.Size() != v.twin.image.Size() || v.twin.Position().X < v.image.Position().X+v.image.Size().Width {
			t.Errorf("one is %v large at %v, the other %v at %v", v.image.Size(), v.image.Position(), v.twin.image.Size(), v.twin.Position())
		}
	}
	w.seek(40)
	settle(t, w)
	for _, v := range w.viewers() {
		if v.shown == nil || v.twin.shown == nil || v.shown.Rect != v.twin.shown.Rect {
			t.Error("a picture of the two is not drawn, or they are not as large")
		}
	}
	w.do(board.SetPanelStep([]int{0}, 1))
	w.seek(0)
	if got := w.viewer.over.note.text; !strings.HasPrefix(got, "24 fps on ones: 24 ") {
		t.Errorf("of a panel on ones it says %q", got)
	}
	w.desk.Undo()
	w.do(board.SetRate(board.FrameRate{Num: 12, Den: 1}))
	if w.seen.board.Rate == w.board.Rate {
		t.Error("a film of 12 is beside itself")
	}
	w.desk.Undo()
	pair.run()
	for _, v := range w.viewers() {
		if v.twin != nil || v.shot != w.film.Shot(w.at) || v.over.note.text != "" {
			t.Error("the same key does not end it")
		}
	}
	if w.seen != nil || w.board.Rate != was.Rate || w.desk.UndoName() != done {
		t.Errorf("the film is at %v, the last edit is %q", w.board.Rate, w.desk.UndoName())
	}
	pair.run()
	w.openFilm("")
	settle(t, w)
	if w.paired || w.viewer.twin != nil {
		t.Error("another film comes up twice")
	}
}

// On twos every picture is up for two frames, but for the last of an odd hold:
// sketches drawn for each exposure, and what a move of the camera shows.
func TestAFilmOnTwosPlaysOnTwos(t *testing.T) {
	w := openWindow(t)
	bringIn(t, w, 1)
	panels := make([]board.Panel, 6)
	for i := range panels {
		panels[i].Drawn = &board.Drawn{Sketch: board.MediaID(fmt.Sprintf("%02d", i))}
	}
	w.do(board.Insert(1, panels, 2))
	w.do(board.SetHold([]int{0}, 25)) // odd
	w.do(board.SetHold([]int{1, 2, 3, 4, 5, 6}, 2))
	w.do(board.SetMove([]int{0}, board.CameraMove{To: board.Framing{Width: 0.5}}))
	for _, tt := range []struct {
		step int
		want string
	}{
		{2, "2 2 2 2 2 2 2 2 2 2 2 2 1 2 2 2 2 2 2"},
		{1, strings.Repeat("1 ", 25) + "2 2 2 2 2 2"},
		{4, "4 4 4 4 4 4 1 2 2 2 2 2 2"},
	} {
		w.do(board.SetStep(tt.step))
		var runs []string
		n := 0
		last := w.viewer.shot
		for f := board.Frame(0); f < w.lastFrame(); f++ {
			w.showFrame(f)
			if f > 0 && w.viewer.shot != last {
				runs, n = append(runs, fmt.Sprint(n)), 0
			}
			last = w.viewer.shot
			n++
		}
		if got := strings.Join(append(runs, fmt.Sprint(n)), " "); got != tt.want {
			t.Errorf("%d frames to an exposure: pictures are up for %s frames, want %s", tt.step, got, tt.want)
		}
	}
}
