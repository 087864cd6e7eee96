package otio

import (
	"math/rand/v2"
	"reflect"
	"slices"
	"strings"
	"testing"

	"stillbeat/board"
	"stillbeat/board/share/lists"
)

func TestWriteGolden(t *testing.T) {
	text, err := Write(teaFilm(t), Options{})
	must(t, err)
	golden(t, "tea.otio", text)
	silent, err := Write(teaFilm(t), Options{Silent: true, Pictures: "stills"})
	must(t, err)
	if s := string(silent); strings.Contains(s, `"Audio"`) || !strings.Contains(s, `"stills/001.png"`) && !strings.Contains(s, `"stills/001_`) {
		t.Errorf("a silent list with stills is\n%s", s)
	}
	if _, err := Write(board.New(), Options{}); err != lists.ErrEmpty {
		t.Errorf("an empty film: %v", err)
	}
}

// A timeline of a film is laid on it without a change, and makes a new film
// that has the same starts, holds, words, passages and markers, at every rate.
func TestFilmComesBack(t *testing.T) {
	rnd := rand.New(rand.NewPCG(9, 3))
	films := []board.Board{teaFilm(t)}
	for _, r := range append([]board.FrameRate{{Num: 25, Den: 2}, {Num: 60000, Den: 1001}, {Num: 120, Den: 1}, {Num: 1, Den: 1}, {Num: 1234567, Den: 54321}}, board.Rates...) {
		for range 25 {
			films = append(films, randomFilm(rnd, r))
		}
	}
	for _, b := range films {
		must(t, b.Check())
		text, err := Write(b, Options{})
		must(t, err)
		timing, notes, err := Read(text)
		must(t, err)
		if notes != nil {
			t.Fatalf("notes %q", notes)
		}
		same, notes, err := b.Take(timing)
		must(t, err)
		if !reflect.DeepEqual(same, b) || notes != nil {
			t.Fatalf("at %s the film changed, notes %q:\n%+v\n%+v", b.Rate, notes, same, b)
		}
		fresh, err := board.NewFromTiming(timing)
		must(t, err)
		comesBack(t, fresh, b)
	}
}

// comesBack fails unless a new film has what the old one had but for pictures
// and the song.
func comesBack(t *testing.T, fresh, b board.Board) {
	t.Helper()
	if fresh.Title != b.Title || fresh.Rate != b.Rate || fresh.Step != b.Step || len(fresh.Grid.Beats) != len(b.Grid.Beats) {
		t.Fatalf("%q at %v on %ds with %d beats came back as %q at %v on %ds with %d", b.Title, b.Rate, b.Step, len(b.Grid.Beats),
			fresh.Title, fresh.Rate, fresh.Step, len(fresh.Grid.Beats))
	}
	if !slices.Equal(fresh.Starts(), b.Starts()) || !slices.Equal(fresh.Numbers(), b.Numbers()) {
		t.Fatalf("at %s starts %v and numbers %v came back as %v and %v", b.Rate, b.Starts(), b.Numbers(), fresh.Starts(), fresh.Numbers())
	}
	for i, p := range fresh.Panels {
		q := b.Panels[i]
		if p.Words != q.Words || p.Into != q.Into || p.Opens != q.Opens || p.Heading != q.Heading || p.Fixed != q.Fixed || p.Step != q.Step {
			t.Fatalf("panel %d came back as %+v, want %+v", i+1, p, q)
		}
		if p.Start.Anchor != q.Start.Anchor {
			t.Fatalf("panel %d was anchored as %+v and is as %+v", i+1, q.Start, p.Start)
		}
	}
	if len(fresh.Markers) != len(b.Markers) {
		t.Fatalf("%d markers came back as %d", len(b.Markers), len(fresh.Markers))
	}
	for i, m := range fresh.Markers {
		if m.Name != b.Markers[i].Name || fresh.Frame(m.Start) != b.Frame(b.Markers[i].Start) {
			t.Fatalf("marker %d came back as %+v, want %+v", i+1, m, b.Markers[i])
		}
	}
}

// A film brought to another rate and back through lists keeps its seconds to
// half a frame of the coarser one.
func TestOtherRate(t *testing.T) {
	rnd := rand.New(rand.NewPCG(1, 7))
	for range 100 {
		b := randomFilm(rnd, board.FrameRate{Num: 24, Den: 1})
		text, err := Write(b, Options{})
		must(t, err)
		timing, _, err := Read(text)
		must(t, err)
		b.Rate = board.FrameRate{Num: 30000, Den: 1001}
		got, _, err := b.Take(timing)
		must(t, err)
		for i, f := range got.Starts()[:len(b.Panels)] {
			if off := b.Rate.Seconds(f) - timing.Cues[i].At; off < -0.0168 || off > 0.0168 {
				t.Fatalf("panel %d starts %.4f s off", i+1, off)
			}
		}
	}
}
