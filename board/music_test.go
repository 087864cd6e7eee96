package board

import (
	"slices"
	"testing"
)

func TestPicturesAreLaidOnTheBeats(t *testing.T) {
	b := withSong(t, frameRate24, 128, 32)
	// Frames of beats 0 2 4 6 8 at 24 fps and 128 BPM.
	laid := do(t, b, Insert(0, make([]Panel, 4), 2))
	wantStarts(t, laid, 0, 23, 45, 68, 90)
	if anchors(laid) != "aaaa" {
		t.Errorf("starts are %s, want all anchored", anchors(laid))
	}
	undoes(t, b, Insert(0, make([]Panel, 4), 2))

	late := do(t, b, SlideSong(1)) // the first panel is up before the first beat
	wantStarts(t, do(t, late, Insert(0, make([]Panel, 3), 1)), 0, 35, 47, 58)

	early := do(t, b, SlideSong(-1)) // beat 2 is nearest to frame 0; then 9.75, 21 and 32.25 frames
	wantStarts(t, do(t, early, Insert(0, make([]Panel, 3), 1)), 0, 10, 21, 32)
}

func TestAppendingAfterAFreeEnd(t *testing.T) {
	b := do(t, withSong(t, frameRate24, 120, 32), Insert(0, make([]Panel, 2), 2)) // 0 24 48, beats each 12
	for end, want := range map[Frame][]Frame{
		50: {0, 24, 50, 60, 72}, // near beat 4: on to beats 5 and 6
		58: {0, 24, 58, 72, 84}, // near beat 5: on to beats 6 and 7
		48: {0, 24, 48, 60, 72},
	} {
		moved := do(t, b, SetStart(2, Free(b.Rate.Seconds(end))))
		out := do(t, moved, Insert(2, make([]Panel, 2), 1))
		wantStarts(t, out, want...)
		if got, want := anchors(out), map[bool]string{true: "aaaa", false: "a-aa"}[end == 48]; got != want {
			t.Errorf("after an end on %d the starts are %s, want %s", end, got, want)
		}
	}
}

func TestInsertingInTheMiddleAnchorsWhatLandsOnBeats(t *testing.T) {
	b := do(t, withSong(t, frameRate24, 120, 32), Insert(0, make([]Panel, 5), 1)) // 0 12 24 36 48 60
	b = do(t, b, SetStart(3, Free(38.0/24)))
	b = do(t, b, SetStart(4, Start{Anchor: Anchor{Beat: 4, Of: 1, Offset: -2}})) // 46: leads by two
	out := do(t, b, Insert(1, make([]Panel, 1), 2))
	wantStarts(t, out, 0, 12, 36, 48, 62, 70, 84)
	if got := anchors(out); got != "aaa-aa" {
		t.Errorf("starts are %s, want aaa-aa", got)
	}
	if got, want := out.Panels[5].Start.Anchor, (Anchor{Beat: 6, Of: 1, Offset: -2}); got != want {
		t.Errorf("the panel that leads by two frames is at %+v, want %+v", got, want)
	}
	// At 128 BPM beats are 11 or 12 frames apart: what was anchored and comes a
	// frame beside its beat takes the beat.
	uneven := do(t, withSong(t, frameRate24, 128, 32), Insert(0, make([]Panel, 4), 1)) // 0 11 23 34 45
	out = do(t, uneven, Insert(1, make([]Panel, 1), 1))
	wantStarts(t, out, 0, 11, 23, 34, 45, 56)
	if got := anchors(out); got != "aaaaa" {
		t.Errorf("starts are %s, want aaaaa", got)
	}
	// A hold that was typed stays to the frame; what comes after the next start is
	// on its beats again.
	out = do(t, uneven, SetHold(one(0), 22))
	wantStarts(t, out, 0, 22, 34, 45, 56)
	if got := anchors(out); got != "-aaa" {
		t.Errorf("starts are %s, want -aaa", got)
	}
	halves := do(t, b, SetStart(1, Start{Anchor: Anchor{Beat: 1, Part: 1, Of: 2}})) // 18
	out = do(t, halves, SetHold(one(0), 30))
	if got, want := out.Panels[1].Start.Anchor, (Anchor{Beat: 2, Part: 1, Of: 2}); got != want {
		t.Errorf("the panel on a half beat is at %+v, want %+v", got, want)
	}
}

func TestAnchoredStartsFollowTheMusic(t *testing.T) {
	b := do(t, withSong(t, frameRate24, 120, 32), Insert(0, make([]Panel, 4), 2)) // 0 24 48 72 96
	b = do(t, b, SetStart(2, Free(50.0/24)))                                      // free
	b = do(t, b, SetStart(3, Start{Anchor: Anchor{Beat: 6, Of: 1, Offset: -2}}))  // leads by two
	wantStarts(t, b, 0, 24, 50, 70, 96)

	slid := do(t, b, SlideSong(0.25)) // six frames
	wantStarts(t, slid, 0, 30, 50, 76, 102)
	wantStarts(t, do(t, slid, SlideSong(0)), 0, 24, 50, 70, 96)
	undoes(t, b, SlideSong(0.25))

	shifted := do(t, b, SetSong(b.Song, NewGrid(metronome(120, 32, 0.125), nil)))
	wantStarts(t, shifted, 0, 27, 50, 73, 99)
	undoes(t, b, SetSong(b.Song, NewGrid(metronome(120, 32, 0.125), nil)))

	faster := do(t, b, SetSong(b.Song, NewGrid(metronome(125, 32, 0), nil))) // a beat is 11.52 frames
	wantStarts(t, faster, 0, 23, 50, 67, 92)                                 // beats 2, 6 (69.12 less two), 8

	// At 12 fps: 12, 25, 36 less two, 48. At 25 fps: 25, 52.08, 75 less two, 100.
	wantStarts(t, do(t, b, SetRate(FrameRate{12, 1})), 0, 12, 25, 34, 48)
	wantStarts(t, do(t, b, SetRate(FrameRate{25, 1})), 0, 25, 52, 73, 100)

	gone := do(t, b, SetSong(nil, Grid{}))
	wantStarts(t, gone, 0, 24, 50, 70, 96)
	if anchors(gone) != "----" {
		t.Errorf("without a song the starts are %s", anchors(gone))
	}
	if gone.Song != nil || gone.OnGrid() {
		t.Error("the song is still there")
	}
}

func TestTheRateCanChangeThereAndBack(t *testing.T) {
	for _, bpm := range []float64{72, 110, 128, 180} {
		b := do(t, withSong(t, frameRate24, bpm, 64), Insert(0, make([]Panel, 30), 1))
		b = do(t, b, SetStart(3, Free(b.Seconds(b.Panels[3].Start)+0.04)))
		want := b.Starts()
		for _, r := range append([]FrameRate{{1, 1}, {60000, 1001}}, Rates...) {
			if got := do(t, do(t, b, SetRate(r)), SetRate(frameRate24)).Starts(); !slices.Equal(got, want) {
				t.Errorf("%g BPM: over %v fps and back: %v, want %v", bpm, r, got, want)
			}
		}
	}
}

func TestEditsAtACoarseRateKeepWhatGaveWay(t *testing.T) {
	// Quarters at 180 BPM are two frames at 24 fps, two thirds of one at 8.
	b := withSong(t, frameRate24, 180, 32)
	b = do(t, b, Insert(0, make([]Panel, 6), 1))
	for i := range 4 {
		b = do(t, b, SetStart(i+1, Start{Anchor: reduced((i+1)/4, (i+1)%4, 4)}))
	}
	wantStarts(t, b, 0, 2, 4, 6, 8, 40, 48)
	coarse := do(t, b, SetRate(FrameRate{8, 1}))
	wantStarts(t, coarse, 0, 1, 2, 3, 4, 13, 16)
	back := do(t, do(t, coarse, Insert(6, make([]Panel, 1), 1)), SetRate(frameRate24))
	wantStarts(t, back, 0, 2, 4, 6, 8, 40, 48, 56)
	if got := anchors(back); got != "aaaaaaa" {
		t.Errorf("starts are %s, want all anchored", got)
	}
}

func TestPanelsLaidAtACoarseRateHoldAFrame(t *testing.T) {
	b := do(t, withSong(t, FrameRate{1, 1}, 180, 32), Insert(0, make([]Panel, 4), 1)) // a beat is a third of a frame
	wantStarts(t, b, 0, 1, 2, 3, 4)
	wantStarts(t, do(t, b, SetRate(frameRate24)), 0, 24, 48, 72, 96)
}

func TestUnevenBeatsKeepTheirPanels(t *testing.T) {
	// 0.6 s lies 0.4 s before a beat, more than half of what follows that beat.
	b := do(t, withSong(t, frameRate24, 100, 32), Insert(0, make([]Panel, 2), 1))
	b = do(t, b, SetStart(2, Start{Anchor: Anchor{Beat: 4, Of: 1}}))
	out := do(t, b, SetSong(b.Song, NewGrid([]float64{0, 1, 1.5, 2, 2.5}, nil)))
	wantStarts(t, out, 0, 24, 60)
	if anchors(out) != "aa" {
		t.Errorf("starts are %s, want both anchored", anchors(out))
	}
}

func TestSlowerBeatsDoNotPileUpPanels(t *testing.T) {
	b := do(t, withSong(t, frameRate24, 120, 64), Insert(0, make([]Panel, 8), 1)) // 0 12 24 ... 96
	g := NewGrid(metronome(60, 32, 0), nil)
	out := do(t, b, SetSong(b.Song, g))
	wantStarts(t, out, 0, 12, 24, 36, 48, 60, 72, 84, 96)
	if got := anchors(out); got != "-a-a-a-a" {
		t.Errorf("starts are %s, want every second anchored", got)
	}
	// Beats 1.25 s apart, 30 frames: 12 is nearest to 0, 24 and 36 to 30,
	// 48 60 72 to 60, 84 and 96 to 90.
	out = do(t, b, SetSong(b.Song, NewGrid(metronome(48, 32, 0), nil)))
	wantStarts(t, out, 0, 12, 30, 36, 48, 60, 72, 90, 96)
	if got := anchors(out); got != "-a--a-a-" {
		t.Errorf("starts are %s, want -a--a-a-", got)
	}
}

func TestASongNameMayBeAnyBytes(t *testing.T) {
	s := &Song{Name: "caf\xe9.mp3", Seconds: 3}
	b := do(t, New(), SetSong(s, Grid{}))
	if b.Song.Name != "caf\uFFFD.mp3" || s.Name != "caf\xe9.mp3" {
		t.Errorf("the song is called %q, the caller's %q", b.Song.Name, s.Name)
	}
	s.Offset = 99
	if b.SongOffset() != 0 {
		t.Error("the board shares the caller's song")
	}
}
