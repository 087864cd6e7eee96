package printed

import (
	"bytes"
	"io"
	"math"
	"slices"
	"testing"

	"stillbeat/board"
	"stillbeat/board/internal/paper"
	"stillbeat/board/picture"
)

func TestBeatWords(t *testing.T) {
	b := teaTable(t) // beats at 0, 0.5, ... of 12 frames, bars of four
	anchored := func(beat, part, of int, offset board.Frame) board.Start {
		return board.Start{Anchor: board.Anchor{Beat: beat, Part: part, Of: of, Offset: offset}}
	}
	for _, c := range []struct {
		name string
		s    board.Start
		f    board.Frame
		want string
	}{
		{"on a beat", anchored(4, 0, 1, 0), 48, "bar 2, beat 1"},
		{"on a part", anchored(6, 1, 2, 0), 78, "bar 2, beat 3 + 1/2"},
		{"before its beat", anchored(4, 0, 1, -2), 46, "bar 2, beat 1, 2 frames early"},
		{"after its beat", anchored(4, 0, 1, 1), 49, "bar 2, beat 1, 1 frame late"},
		{"free", board.Free(2.2), 53, "bar 2, beat 1"},
	} {
		if got := beatWords(b, c.s, c.f); got != c.want {
			t.Errorf("%s: %q, want %q", c.name, got, c.want)
		}
	}
	if got := beatWords(board.New(), board.Free(1), 24); got != "" {
		t.Errorf("without beats: %q", got)
	}
}

func TestBeatsHeld(t *testing.T) {
	b := teaTable(t)
	for i, want := range []string{"2 beats", "1.5 beats", "2.5 beats", "2.08 beats"} { // 24, 18, 30 and 25 frames of 12 to a beat
		if got := beatsHeld(b, b.Starts(), i); got != want {
			t.Errorf("panel %d holds %q, want %q", i, got, want)
		}
	}
	late := do(t, b, board.SlideSong(0.25), board.SetHold([]int{0}, 6), board.SetHold([]int{1}, 12))
	if got := beatsHeld(late, late.Starts(), 0); got != "0.5 beats" {
		t.Errorf("before the song a panel holds %q, want 0.5 beats", got)
	}
	if got := beatsHeld(late, late.Starts(), 1); got != "1 beat" {
		t.Errorf("a panel of a beat holds %q", got)
	}
}

func TestSharesOfLines(t *testing.T) {
	f := func(priors ...int) (out []field) {
		for _, p := range priors {
			out = append(out, field{prior: p})
		}
		return out
	}
	for _, c := range []struct {
		name  string
		of    []field
		wants []int
		room  int
		want  []int
	}{
		{"room for all", f(2, 0, 1), []int{1, 3, 2}, 9, []int{1, 3, 2}},
		{"each its first, then in turn", f(2, 0, 1), []int{1, 9, 9}, 6, []int{1, 3, 2}},
		{"too few for all", f(2, 0, 1), []int{1, 3, 2}, 2, []int{0, 1, 1}},
		{"none", f(0), []int{3}, 0, []int{0}},
	} {
		if got := shares(c.of, c.wants, c.room); !slices.Equal(got, c.want) {
			t.Errorf("%s: %v, want %v", c.name, got, c.want)
		}
	}
}

// A move is drawn on a picture that shows all of it.
func TestFramings(t *testing.T) {
	at := paper.Box{X: 10, Y: 20, Wide: 160, High: 90}
	half := board.Framing{Width: 0.5, At: board.Point{X: 0.25, Y: -0.1}}
	for _, c := range []struct {
		name     string
		m        board.CameraMove
		whole    float64 // width of the overview
		from, to paper.Box
	}{
		{"a push in", board.CameraMove{To: half}, 1, at, paper.Box{X: 10 + 80 + 22.5 - 40, Y: 20 + 45 - 9 - 22.5, Wide: 80, High: 45}},
		{"a pull out", board.CameraMove{To: board.Framing{Width: 2}}, 2, paper.Box{X: 50, Y: 42.5, Wide: 80, High: 45}, at},
		{"a pan off the frame", board.CameraMove{To: board.Framing{At: board.Point{X: 16.0 / 9}}}, 2,
			paper.Box{X: 10, Y: 42.5, Wide: 80, High: 45}, paper.Box{X: 90, Y: 42.5, Wide: 80, High: 45}},
	} {
		whole := overview(c.m, 16.0/9)
		if math.Abs(whole.Part()-c.whole) > 1e-9 {
			t.Errorf("%s is shown %g wide, want %g", c.name, whole.Part(), c.whole)
		}
		for k, f := range []board.Framing{c.m.From, c.m.To} {
			got, want := framed(f, whole, 16.0/9, at), []paper.Box{c.from, c.to}[k]
			if !within(got, want) || !within(want, got) || !within(got, at) {
				t.Errorf("%s: end %d lies at %+v, want %+v", c.name, k, got, want)
			}
		}
	}
}

func FuzzWords(f *testing.F) {
	for _, s := range []string{"", "The cup turns", "الكوب يدور ببطء 12", "ティーポットが回る", "चायदानी\nधीरे", "a\x00b\r\n\r\n\u2028c", "☕\U0001F375",
		"teapotteapotteapotteapotteapotteapotteapotteapotteapotteapotteapot", "e\u0301\u0301\u0301", "((((\\"} {
		f.Add(s)
	}
	b := many(f, 2)
	f.Fuzz(func(t *testing.T, text string) {
		film, err := board.Write([]int{0}, "words", func(w *board.Words) {
			w.Title, w.Action, w.Sound, w.Note, w.Camera, w.Size = text, text, text, text, text, text
		}).Apply(b)
		if err != nil {
			return
		}
		o := Options{PerPage: 12, Made: made}
		p, err := newPrinter(film, picture.NewCache(rings{}, 0), o)
		if err != nil {
			t.Fatal(err)
		}
		at := p.grid.at(0)
		s := paper.Style{Points: at.points}
		for _, f := range p.fields(0) {
			for _, l := range p.Wrap(f.text, at.words.Wide-p.labelRoom(f.label, s), s) {
				if wide := p.Width(p.ended(l, at.words.Wide-p.labelRoom(f.label, s), s), s); wide > at.words.Wide-p.labelRoom(f.label, s)+1e-6 {
					t.Errorf("%q is %.2f mm wide, and there are %.2f", l, wide, at.words.Wide)
				}
			}
		}
		var one, two bytes.Buffer
		for _, w := range []io.Writer{&one, &two} {
			if err := Board(t.Context(), w, film, picture.NewCache(rings{}, 0), o); err != nil {
				t.Fatal(err)
			}
		}
		if !bytes.Equal(one.Bytes(), two.Bytes()) {
			t.Error("two boards of one film differ")
		}
	})
}
