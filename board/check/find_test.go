package check

import (
	"context"
	"errors"
	"math"
	"strings"
	"testing"

	"stillbeat/board"
)

// started moves the start of panel i to a frame, off the beat.
func started(t *testing.T, b board.Board, i int, f board.Frame) board.Board {
	t.Helper()
	return do(t, b, board.SetStart(i, board.Free(b.Rate.Seconds(f))))
}

// lettered writes a title on panels.
func lettered(t *testing.T, b board.Board, text string, set ...int) board.Board {
	t.Helper()
	return do(t, b, board.AddLetter(set, board.NewLetter(board.CaptionCard, text, b.Aspect)))
}

// bare takes the pictures off panels.
func bare(t *testing.T, b board.Board, set ...int) board.Board {
	t.Helper()
	return do(t, b, board.SetPicture(set, ""))
}

// sung lays a song of so many seconds under the film.
func sung(t *testing.T, b board.Board, seconds, gain float64) board.Board {
	t.Helper()
	b = do(t, b, board.SetSong(&board.Song{Name: "tune.wav", Media: "aa", Seconds: seconds}, b.Grid))
	return do(t, b, board.SetGain(gain))
}

// Each kind of finding is found, is not found at its limit, and is gone once it is
// mended.
func TestWhatIsFoundAndMended(t *testing.T) {
	slow := board.Reading{Characters: 12} // 24 characters take 2 s
	for _, c := range []struct {
		name     string
		film     func(t *testing.T) board.Board
		options  Options
		kind     Kind
		panel    string // "": nothing is found; "film": it is about all of it
		span     board.Span
		severity Severity
		says     string
		mend     string // "" none
	}{
		{"a start half a frame after its beat is on it", func(t *testing.T) board.Board { return film(t, 12, 12) }, Options{}, OffBeat, "", board.Span{}, "", "", ""},
		{"a start two frames late is a fault", func(t *testing.T) board.Board { return started(t, film(t, 12, 24), 1, 14) }, Options{},
			OffBeat, "2", board.Span{Start: 14, End: 15}, Fault, "starts 83 ms (2.0 frames) after its beat", "put panel 2 on the beat"},
		{"one frame late is noticed by few", func(t *testing.T) board.Board { return started(t, film(t, 12, 24), 1, 13) }, Options{},
			OffBeat, "2", board.Span{Start: 13, End: 14}, Hint, "42 ms", "put panel 2 on the beat"},
		{"within a wider limit it is not found", func(t *testing.T) board.Board { return started(t, film(t, 12, 24), 1, 13) }, Options{Late: 42}, OffBeat, "", board.Span{}, "", "", ""},
		{"three frames early is what nobody notices", func(t *testing.T) board.Board { return started(t, film(t, 12, 24), 1, 9) }, Options{}, OffBeat, "", board.Span{}, "", "", ""},
		{"within a narrower limit it is found", func(t *testing.T) board.Board { return started(t, film(t, 12, 24), 1, 9) }, Options{Early: 100},
			OffBeat, "2", board.Span{Start: 9, End: 10}, Hint, "125 ms (3.0 frames) before", "put panel 2 on the beat"},
		{"far from any beat a start is meant", func(t *testing.T) board.Board { return started(t, film(t, 12, 24), 1, 18) }, Options{}, OffBeat, "2",
			board.Span{Start: 18, End: 19}, Hint, "250 ms", "put panel 2 on the beat"},
		{"the end of the film is a start too", func(t *testing.T) board.Board { return started(t, film(t, 12, 24), 2, 38) }, Options{}, OffBeat, "film",
			board.Span{Start: 38, End: 39}, Fault, "ends 83 ms", "end the film on the beat"},

		{"an eighth of a second is seen", func(t *testing.T) board.Board { return film(t, 12, 3, 12) }, Options{}, ShortHold, "", board.Span{}, "", "", ""},
		{"less is not", func(t *testing.T) board.Board { return film(t, 12, 2, 12) }, Options{}, ShortHold, "2", board.Span{Start: 12, End: 14}, Hint,
			"holds 2 frames: the least that is seen is 3 frames", "hold panel 2 longer"},
		{"the last panel may be longer without harm", func(t *testing.T) board.Board { return film(t, 12, 2) }, Options{}, ShortHold, "2",
			board.Span{Start: 12, End: 14}, Hint, "holds 2 frames", "hold panel 2 longer"},
		{"where the next has none to spare all moves along", func(t *testing.T) board.Board { return film(t, 12, 2, 3) }, Options{}, ShortHold, "2",
			board.Span{Start: 12, End: 14}, Hint, "holds 2 frames", "hold panel 2 longer"},
		{"a limit of one's own", func(t *testing.T) board.Board { return film(t, 12, 12, 24) }, Options{Shortest: 13}, ShortHold, "1",
			board.Span{Start: 0, End: 12}, Hint, "the least that is seen is 13 frames", "hold panel 1 longer"},

		{"words of two seconds can be read in two", func(t *testing.T) board.Board { return lettered(t, film(t, 48, 48), "twenty-four letters here", 0) },
			Options{Reading: slow}, Reading, "", board.Span{}, "", "", ""},
		{"in less they cannot", func(t *testing.T) board.Board { return lettered(t, film(t, 36, 60), "twenty-four letters here", 0) },
			Options{Reading: slow}, Reading, "1", board.Span{Start: 0, End: 36}, Fault, "shows its words for 36 frames: they take 48 frames to read", "hold panel 1 longer"},
		{"words that stay are read over all panels", func(t *testing.T) board.Board {
			return lettered(t, film(t, 12, 24, 12, 24), "twenty-four letters here", 0, 1, 2)
		},
			Options{Reading: slow}, Reading, "", board.Span{}, "", "", ""},
		{"and if they are short of it, the last holds longer", func(t *testing.T) board.Board {
			return lettered(t, film(t, 12, 24, 48), "twenty-four letters here", 0, 1)
		},
			Options{Reading: slow}, Reading, "1", board.Span{Start: 0, End: 36}, Fault, "36 frames", "hold panel 2 longer"},

		{"a panel with a picture has one", func(t *testing.T) board.Board { return film(t, 12, 12) }, Options{}, NoPicture, "", board.Span{}, "", "", ""},
		{"a panel with words alone is still to be drawn", func(t *testing.T) board.Board {
			b := bare(t, film(t, 12, 12, 12), 1)
			return do(t, b, board.Write([]int{1}, "words", func(w *board.Words) { w.Action = "the spoon turns" }))
		}, Options{}, NoPicture, "2", board.Span{Start: 12, End: 24}, Hint, "has no picture yet", ""},
		{"lettering is a picture", func(t *testing.T) board.Board { return lettered(t, bare(t, film(t, 48, 48), 0), "Tea", 0) }, Options{}, Gap, "", board.Span{}, "", "", ""},
		{"empty panels between others are a gap", func(t *testing.T) board.Board { return bare(t, film(t, 12, 12, 12, 12), 1, 2) }, Options{},
			Gap, "2", board.Span{Start: 12, End: 36}, Fault, "a gap of 24 frames", "delete 2 panels"},
		{"at the end the film goes on too long", func(t *testing.T) board.Board { return bare(t, film(t, 12, 12, 12), 2) }, Options{},
			Gap, "3", board.Span{Start: 24, End: 36}, Fault, "goes on for 12 frames after its last picture", "delete panel 3"},
		{"at the start there is nothing", func(t *testing.T) board.Board { return bare(t, film(t, 12, 12), 0) }, Options{},
			Gap, "1", board.Span{Start: 0, End: 12}, Fault, "begins with 12 frames of nothing", "delete panel 1"},
		{"an empty film is worth a look", func(t *testing.T) board.Board { return bare(t, film(t, 12, 12), 0, 1) }, Options{},
			Gap, "1", board.Span{Start: 0, End: 24}, Hint, "so is all of the film", ""},

		{"a shot of as many exposures as a session has fits", func(t *testing.T) board.Board { return film(t, 12, 12) }, Options{Session: 24}, Session, "", board.Span{}, "", "", ""},
		{"one more does not", func(t *testing.T) board.Board { return film(t, 12, 13) }, Options{Session: 24}, Session, "1", board.Span{Start: 0, End: 25}, Hint,
			"a shot of 25 exposures: a session has 24", ""},
		{"on twos it does, each panel rounded up", func(t *testing.T) board.Board { return do(t, film(t, 12, 13), board.SetStep(2)) },
			Options{Session: 13}, Session, "", board.Span{}, "", "", ""},

		{"a song at full scale is not cut off", func(t *testing.T) board.Board { return sung(t, film(t, 24, 24), 9, 0) }, Options{Peak: &Peak{1, 1}}, Loud, "", board.Span{}, "", "", ""},
		{"a little over is worth a look", func(t *testing.T) board.Board { return sung(t, film(t, 24, 24), 9, 0.5) }, Options{Peak: &Peak{1, 1.5}},
			Loud, "film", board.Span{Start: 36, End: 37}, Hint, "0.5 dB louder than full scale", "make the song softer"},
		{"twice full scale is a fault", func(t *testing.T) board.Board { return sung(t, film(t, 24, 24), 9, 0) }, Options{Peak: &Peak{2, 0}},
			Loud, "film", board.Span{Start: 0, End: 1}, Fault, "6.0 dB louder", "make the song softer"},
		{"a gain that makes it soft is enough", func(t *testing.T) board.Board { return sung(t, film(t, 24, 24), 9, -6.1) }, Options{Peak: &Peak{2, 0}}, Loud, "", board.Span{}, "", "", ""},

		{"half a second after the song is a tail", func(t *testing.T) board.Board { return sung(t, film(t, 24, 24), 1.5, 0) }, Options{}, SongEnds, "", board.Span{}, "", "", ""},
		{"more is silence", func(t *testing.T) board.Board { return sung(t, film(t, 24, 24), 1.25, 0) }, Options{}, SongEnds, "film",
			board.Span{Start: 30, End: 48}, Hint, "goes on for 0.8 s after its song", "end the film with its song"},
		{"where a panel starts after it the end cannot be there", func(t *testing.T) board.Board { return sung(t, film(t, 24, 24), 0.5, 0) }, Options{}, SongEnds, "film",
			board.Span{Start: 12, End: 48}, Hint, "1.5 s", ""},

		{"numbers that are counted are all different", func(t *testing.T) board.Board { return film(t, 12, 12) }, Options{}, TwoNumbers, "", board.Span{}, "", "", ""},
		{"two panels with one number", func(t *testing.T) board.Board {
			b := film(t, 12, 12, 12)
			b.Panels[0].Fixed.Panel, b.Panels[2].Fixed.Panel = "B", "B"
			return b
		}, Options{}, TwoNumbers, "1B", board.Span{Start: 24, End: 36}, Fault, "the same number as the panel at frame 0", "count the number of panel 3"},
		{"two shots with one number", func(t *testing.T) board.Board {
			b := do(t, film(t, 12, 12, 12), board.Open([]int{1, 2}, board.OpensShot))
			b.Panels[1].Fixed.Shot, b.Panels[2].Fixed.Shot = "7", "7"
			return b
		}, Options{}, TwoNumbers, "7", board.Span{Start: 24, End: 36}, Fault, "frame 12", "count the number of panel 3"},
	} {
		t.Run(c.name, func(t *testing.T) {
			b := c.film(t)
			found := of(c.kind, checked(t, b, c.options))
			if c.panel == "" {
				if len(found) > 0 {
					t.Errorf("found %+v", found)
				}
				return
			}
			if len(found) == 0 {
				t.Fatal("nothing is found")
			}
			f := found[0]
			if number := strings.TrimPrefix(c.panel, "film"); f.Number != number || f.Span != c.span || f.Severity != c.severity || !strings.Contains(f.What, c.says) {
				t.Errorf("found %s at %q, %v: %q", f.Severity, f.Number, f.Span, f.What)
			}
			if f.Why == "" || f.Source == "" || f.ID == "" {
				t.Errorf("it does not say why or by what source: %+v", f)
			}
			if c.mend == "" {
				if f.Mend != nil {
					t.Errorf("it is mended by %q", f.Mend.Name)
				}
				return
			}
			if f.Mend == nil || f.Mend.Name != c.mend {
				t.Fatalf("it is mended by %+v, want %q", f.Mend, c.mend)
			}
			for _, left := range of(c.kind, checked(t, do(t, b, *f.Mend), c.options)) {
				if left.ID == f.ID {
					t.Errorf("once mended there is still %q", left.What)
				}
			}
		})
	}
}

// A mend that makes a panel longer keeps the next start on a beat.
func TestAHoldIsMadeLongerUpToTheBeat(t *testing.T) {
	b := lettered(t, film(t, 24, 48), "twenty-four letters here", 0)
	found := of(Reading, checked(t, b, Options{Reading: board.Reading{Characters: 16}})) // 36 frames
	if len(found) != 1 {
		t.Fatalf("found %+v", found)
	}
	out := do(t, b, *found[0].Mend)
	if starts := out.Starts(); starts[1] != 36 || starts[2] != 72 || !out.Panels[1].Start.Anchored() {
		t.Errorf("the starts are %v, anchored %v", starts, out.Panels[1].Start.Anchored())
	}
}

func TestPeakOf(t *testing.T) {
	b := sung(t, film(t, 24, 24), 60, 12) // two seconds of a song of a minute
	for _, c := range []struct {
		name   string
		change func(*board.Song)
		at     int
		want   Peak
	}{
		{"the loudest sample of any channel, its gain left out", func(*board.Song) {}, 1500, Peak{1.5, 1.5}},
		{"what lies after the film is not heard", func(*board.Song) {}, 2000, Peak{}},
		{"what lies before it is not", func(s *board.Song) { s.Offset = -1 }, 999, Peak{}},
		{"what comes first is", func(s *board.Song) { s.Offset = -1 }, 1000, Peak{1.5, 1}},
		{"a trim takes it away", func(s *board.Song) { s.TrimIn = 1.6 }, 1500, Peak{}},
		{"a fade makes it softer", func(s *board.Song) { s.FadeIn = 3 }, 1500, Peak{0.75, 1.5}},
	} {
		b, song := b, *b.Song
		c.change(&song)
		b.Song = &song
		got, err := PeakOf(context.Background(), b, silence{c.at, 1.5})
		if err != nil || math.Abs(got.Level-c.want.Level) > 1e-6 || math.Abs(got.Second-c.want.Second) > 1e-9 {
			t.Errorf("%s: %+v, %v, want %+v", c.name, got, err, c.want)
		}
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := PeakOf(ctx, b, silence{}); !errors.Is(err, context.Canceled) {
		t.Errorf("cancelled, it says %v", err)
	}
}
