package otio

import (
	"flag"
	"math/rand/v2"
	"os"
	"testing"

	"stillbeat/board"
)

var update = flag.Bool("update", false, "rewrite golden files")

func must(t testing.TB, err error) {
	t.Helper()
	if err != nil {
		t.Fatal(err)
	}
}

// golden compares got with testdata/name.
func golden(t *testing.T, name string, got []byte) {
	t.Helper()
	path := "testdata/" + name
	if *update {
		must(t, os.WriteFile(path, got, 0o644))
	}
	want, err := os.ReadFile(path)
	must(t, err)
	if string(got) != string(want) {
		t.Errorf("%s differs (go test -update rewrites it)\ngot:\n%s", name, got)
	}
}

// teaFilm is a small film with everything in it that a timeline carries.
func teaFilm(t testing.TB) board.Board {
	rate := board.FrameRate{Num: 24000, Den: 1001}
	b := board.New()
	b.Rate, b.Title, b.Step, b.NextID = rate, "Tea for 二人", 2, 8
	b.Song = &board.Song{Name: "kettle: waltz.wav", Media: "s", Seconds: 9, Offset: 0.5, TrimIn: 0.25, FadeOut: 1, Gain: -3}
	b.Grid = board.NewGrid([]float64{0, 0.5, 1, 1.5, 2, 2.5, 3, 99}, []float64{0.5, 2})
	b.Grid.Tempo, b.Grid.Metre = 120, 3
	b.Panels = []board.Panel{
		{ID: 3, Picture: "p", Words: board.Words{Title: "cup & <saucer>", Sound: "Anyone?\nNo one.", Marks: board.Marks{Rig: true}}},
		{ID: 7, Picture: "p", Start: board.Start{Time: 2, Anchor: board.Anchor{Beat: 3, Of: 2, Part: 1, Offset: -1}}, Opens: board.OpensShot, Heading: "The spoon",
			Fixed: board.Numbers{Shot: "7"}, Step: 1, Into: board.Transition{Kind: board.Dissolve, Frames: 13}, Words: board.Words{Note: "slowly"}},
		{ID: 5, Start: board.Free(4.0001), Into: board.Transition{Kind: board.Fade, Frames: 16}},
	}
	b.End = board.Free(6)
	b.Markers = []board.Marker{{Start: board.Free(1), Name: "steam"}, {Start: board.Start{Time: 1.5, Anchor: board.Anchor{Beat: 2, Of: 1}}}}
	must(t, b.Check())
	return b
}

// randomFilm returns a film on the beats and off them, with passages of all
// kinds, at the rate.
func randomFilm(rnd *rand.Rand, rate board.FrameRate) board.Board {
	b := board.New()
	b.Rate = rate
	place := func(t float64) board.Start { return board.Free(t) }
	if rnd.IntN(3) > 0 {
		var beats []float64
		for t := rnd.Float64(); t < 40; t += 0.2 + rnd.Float64() {
			beats = append(beats, t)
		}
		b.Grid = board.NewGrid(beats, beats[:1])
		if rnd.IntN(2) == 0 {
			b.Song = &board.Song{Name: "tune.wav", Seconds: 40, Offset: 3*rnd.Float64() - 1}
		}
		place = func(t float64) board.Start {
			if rnd.IntN(2) == 0 {
				return board.Free(t)
			}
			a := b.Grid.Near(t-b.SongOffset(), 1+rnd.IntN(4))
			a.Offset = board.Frame(rnd.IntN(5) - 2)
			s := board.Start{Anchor: a}
			s.Time = b.Seconds(s)
			return s
		}
	}
	at := 0.0
	for i := range 1 + rnd.IntN(30) {
		p := board.Panel{ID: b.NextID, Words: board.Words{Title: "cup", Sound: "clink\n\"é\"", Marks: board.Marks{Plate: i%2 == 0}}}
		if i > 0 {
			p.Start = place(at)
		}
		if kind := board.Passages[rnd.IntN(4)]; kind != board.Cut {
			p.Into = board.Transition{Kind: kind, Frames: 1 + board.Frame(rnd.IntN(80))}
		}
		if rnd.IntN(4) > 0 {
			p.Picture = "p"
		}
		b.Panels = append(b.Panels, p)
		b.NextID++
		at += 0.02 + 2*rnd.Float64()*rnd.Float64()
		if rnd.IntN(3) == 0 {
			b.Markers = append(b.Markers, board.Marker{Start: place(at), Name: []string{"hit", "", "turn"}[rnd.IntN(3)]})
		}
	}
	b.End = place(at)
	return b
}
