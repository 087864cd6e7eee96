package ui

import (
	"math/rand/v2"
	"testing"

	"stillbeat/board"
	"stillbeat/board/picture"
)

// thousandPanels lays a thousand panels of uneven holds over ten minutes, with
// four pictures in turn.
func thousandPanels(t *testing.T) *window {
	t.Helper()
	w := fourPanels(t)
	pictures := w.board.Panels
	w.do(board.Insert(4, make([]board.Panel, 996), 1))
	w.do(board.Edit{Name: "lay out", Apply: func(b board.Board) (board.Board, error) {
		panels := append([]board.Panel(nil), b.Panels...)
		uneven := rand.New(rand.NewPCG(1, 1))
		for i := range panels {
			panels[i].Picture = pictures[i%4].Picture
			panels[i].Start = board.Free((float64(i) + 0.9*uneven.Float64()) * 0.6)
		}
		panels[0].Start = board.Free(0)
		b.Panels, b.End = panels, board.Free(600)
		return b, nil
	}})
	settle(t, w)
	if len(w.board.Panels) != 1000 || w.lastFrame() != 600*24 {
		t.Fatalf("%d panels, %d frames", len(w.board.Panels), w.lastFrame())
	}
	return w
}

// refreshAt has the sound be in the middle of a frame at the next refresh of
// the screen.
func refreshAt(w *window, f board.Frame) {
	for {
		w.paint = paintLag{}
		lead := w.paint.lead()
		w.player.Play(w.board.Rate.Seconds(f) + 0.5/24 - lead)
		w.tick(w.playing)
		if w.playing == nil || w.board.Rate.At(w.player.PositionIn(lead)) == f {
			return // else the test was held up meanwhile, and asks again
		}
	}
}

// TestTenMinutesOfAThousandPanels plays the last frame before each cut and the
// first after it: each shows its own panel, drawn ahead, and the film ends on
// its last picture.
func TestTenMinutesOfAThousandPanels(t *testing.T) {
	w := thousandPanels(t)
	starts := w.board.Starts()
	w.togglePlay()
	for i := 1; i < 1000; i++ {
		for f, want := range map[board.Frame]int{starts[i] - 1: i - 1, starts[i]: i} {
			refreshAt(w, f)
			v := w.viewers()[0]
			if w.at != f || v.panel == nil || v.panel.ID != w.board.Panels[want].ID {
				t.Fatalf("with the sound in frame %d the playhead is at %d, want panel %d", f, w.at, want)
			}
		}
	}
	w.player.Play(600.1)
	w.tick(w.playing)
	if w.playing != nil || w.player.Playing() || w.at != starts[1000] {
		t.Errorf("at the end: playing %v, at frame %d, want %d", w.playing != nil, w.at, starts[1000])
	}
	settle(t, w)
	if v := w.viewers()[0]; v.panel == nil || v.panel.ID != w.board.Panels[999].ID || v.shown == nil {
		t.Error("the last picture does not stay")
	}
}

// TestPicturesAreDrawnAhead: at each cut what comes within two seconds was
// asked for, and no more than forty pictures.
func TestPicturesAreDrawnAhead(t *testing.T) {
	w := thousandPanels(t)
	b, starts := w.board, w.board.Starts()
	film := picture.NewFilm(w.desk.Pictures, b)
	for i := range b.Panels {
		due := dueShots(&seen{b, starts, film}, i, starts[i])
		if len(due) > 40 {
			t.Fatalf("panel %d asks for %d pictures", i, len(due))
		}
		for k := i + 1; k < len(b.Panels) && starts[k] < starts[i]+48; k++ {
			if due[k-i-1] != film.Shot(starts[k]) {
				t.Fatalf("while panel %d is up, panel %d is not asked for in its turn", i, k)
			}
		}
	}
}
