package board

import (
	"math"
	"testing"
)

func TestLevelOfTheSong(t *testing.T) {
	s := Song{Seconds: 10, TrimIn: 1, TrimOut: 2, FadeIn: 2, FadeOut: 4}
	for at, want := range map[float64]float64{
		-1: 0, 0: 0, 0.999: 0, 1: 0, 1.5: 0.25, 2: 0.5, 3: 1, 4: 1, 5: 0.75, 6: 0.5, 7.5: 0.125, 8: 0, 9: 0, 11: 0,
	} {
		if got := s.Level(at); math.Abs(got-want) > 1e-12 {
			t.Errorf("Level(%g) = %g, want %g", at, got, want)
		}
	}
	if (Song{Seconds: 3}).Level(0) != 1 || (Song{Seconds: 3}).Level(math.NaN()) != 0 {
		t.Error("a plain song is not heard as it is")
	}
	// Decibels of amplitude: a factor of 10^(dB/20).
	for db, want := range map[float64]float64{0: 1, -20: 0.1, -60: 0.001, 6: 1.995262, 12: 3.981072} {
		if got := (Song{Seconds: 3, Gain: db}).Level(1); math.Abs(got-want) > 1e-6 {
			t.Errorf("%g dB is a factor of %g, want %g", db, got, want)
		}
	}
}

func TestTrimsFadesAndGain(t *testing.T) {
	b := do(t, withSong(t, frameRate24, 120, 32), Insert(0, make([]Panel, 4), 2)) // 16.5 s of song
	out := do(t, b, TrimSong(4, 2.5))
	out = do(t, out, FadeSong(6, 4)) // as long as what is heard
	out = do(t, out, SetGain(-6.5))
	if from, to := out.Song.Sounding(); from != 4 || to != 14 {
		t.Errorf("heard from %g to %g", from, to)
	}
	wantStarts(t, out, b.Starts()...)
	if anchors(out) != "aaaa" || out.Song.Offset != 0 {
		t.Error("trimming the song moved the panels")
	}
	short := do(t, out, TrimSong(4, 7.5)).Song // five of the ten seconds
	if math.Abs(short.FadeIn-3) > 1e-9 || math.Abs(short.FadeOut-2) > 1e-9 {
		t.Errorf("fades of 6 and 4 seconds over half the length became %g and %g", short.FadeIn, short.FadeOut)
	}
	for _, e := range []Edit{TrimSong(1, 1), FadeSong(1, 1), SetGain(3)} {
		undoes(t, b, e)
		h := NewHistory(b)
		mustDo(t, h, e, e)
		if !h.Undo() || h.Undo() {
			t.Errorf("a drag of the %s is not one step", e.Name)
		}
	}
	all := do(t, b, SetSongSound(1.5, 1, 2, 3, 4, -5))
	want := Song{Name: "tune.wav", Media: "a1", Seconds: 16.5, Offset: 1.5, TrimIn: 1, TrimOut: 2, FadeIn: 3, FadeOut: 4, Gain: -5}
	if *all.Song != want {
		t.Errorf("set at once the song is %+v", *all.Song)
	}
	undoes(t, b, SetSongSound(1.5, 1, 2, 3, 4, -5))
	refused(t, b, SetSongSound(0, 9, 9, 0, 0, 0), "leave nothing")
	refused(t, b, TrimSong(10, 6.5), "leave nothing of a song of 16.5")
	refused(t, b, TrimSong(-1, 0), "trim")
	refused(t, b, FadeSong(10, 7), "do not fit in the 16.5")
	refused(t, b, FadeSong(math.NaN(), 0), "fade")
	refused(t, b, SetGain(12.1), "outside -60 to 12")
	refused(t, b, SetGain(math.NaN()), "outside -60 to 12")
}
