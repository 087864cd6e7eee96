package board

import "testing"

func TestBurnIn(t *testing.T) {
	b := New()
	b.Grid = NewGrid([]float64{0.5, 1, 1.5, 2, 2.5, 3}, []float64{1, 2})
	b.Panels = []Panel{{ID: 1, Words: Words{Title: "Tea"}}, {ID: 2, Start: Free(1), Step: 2, Words: Words{Title: "чай\nи чашка"}}, {ID: 3, Start: Free(2)}}
	b.End, b.NextID = Free(3), 4
	all := BurnIn{true, true, true, true, true, true}
	starts, numbers := b.Starts(), b.Numbers()
	for _, tt := range []struct {
		name         string
		words        BurnIn
		f            Frame
		panel, place string
	}{
		{"nothing chosen", BurnIn{}, 30, "", ""},
		{"before the first beat", all, 0, "panel 1 · Tea", "00:00:00:00 · frame 0 · exposure 1 of 24"},
		{"before the first bar", all, 12, "panel 1 · Tea", "00:00:00:12 · frame 12 · exposure 13 of 24 · beat 1"},
		{"on twos, a title on two lines", all, 25, "panel 2 · чай и чашка", "00:00:01:01 · frame 25 · exposure 1 of 12 · bar 1, beat 1"},
		{"the next exposure", BurnIn{Exposure: true}, 26, "", "exposure 2 of 12"},
		{"a frame before a beat", BurnIn{Beat: true}, 35, "", "bar 1, beat 1"},
		{"without a title", all, 71, "panel 3", "00:00:02:23 · frame 71 · exposure 24 of 24 · bar 2, beat 2"},
		{"the end of the film", all, 72, "panel 3", "00:00:03:00 · frame 72 · exposure 24 of 24 · bar 2, beat 3"},
		{"only the number", BurnIn{Number: true}, 30, "panel 2", ""},
	} {
		t.Run(tt.name, func(t *testing.T) {
			panel, place := b.BurnIn(tt.words, starts, numbers, tt.f)
			if panel != tt.panel || place != tt.place {
				t.Errorf("frame %d: %q and %q, want %q and %q", tt.f, panel, place, tt.panel, tt.place)
			}
		})
	}
	empty := New()
	if panel, place := empty.BurnIn(all, empty.Starts(), nil, 0); panel != "" || place != "00:00:00:00 · frame 0" {
		t.Errorf("an empty film: %q and %q", panel, place)
	}
}

func TestBeatAtFrames(t *testing.T) {
	b := New()
	b.Song = &Song{Seconds: 9, Offset: 1}
	b.Grid = NewGrid([]float64{0.5, 1.02, 1.5}, nil)
	for f, want := range map[Frame]int{0: -1, 35: -1, 36: 0, 47: 0, 48: 1, 59: 1, 60: 2, 900: 2} {
		if got := b.BeatAt(f); got != want {
			t.Errorf("BeatAt(%d) = %d, want %d", f, got, want)
		}
	}
	for i, want := range []Frame{36, 48, 60} {
		if got := b.BeatFrame(i); got != want {
			t.Errorf("beat %d is nearest to frame %d, want %d", i, got, want)
		}
	}
}

func TestGridPlace(t *testing.T) {
	// Two beats before the first bar, then bars of three.
	g := NewGrid([]float64{0, 1, 2, 3, 4, 5, 6, 7}, []float64{2, 5})
	g.Metre = 3
	for _, tt := range []struct{ beat, bar, place int }{
		{0, 0, 1}, {1, 0, 2}, {2, 1, 1}, {4, 1, 3}, {5, 2, 1}, {7, 2, 3}, {8, 3, 1}, {9, 3, 2}, {11, 4, 1},
	} {
		if bar, place := g.Place(tt.beat); bar != tt.bar || place != tt.place {
			t.Errorf("Place(%d) = %d, %d, want %d, %d", tt.beat, bar, place, tt.bar, tt.place)
		}
	}
}

func TestGridAt(t *testing.T) {
	g := NewGrid([]float64{0.5, 1, 1.5}, nil)
	for _, tt := range []struct {
		t    float64
		want int
	}{{0, -1}, {0.5, 0}, {0.99, 0}, {1, 1}, {9, 2}} {
		if got := g.At(tt.t); got != tt.want {
			t.Errorf("At(%g) = %d, want %d", tt.t, got, tt.want)
		}
	}
}
