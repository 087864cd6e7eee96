package board

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"
)

func TestSlideGrid(t *testing.T) {
	b := onBeats(withSong(t, frameRate24, 120, 8), Anchor{Beat: 2, Of: 1}, Anchor{Beat: 4, Of: 1, Offset: -2})
	b = do(t, b, LockBeats(1, 2))
	b = do(t, b, Insert(1, make([]Panel, 1), 1))
	b = do(t, b, SetStart(1, Free(0.5)))
	out := do(t, b, SlideGrid(0.125)) // three frames
	wantTimes(t, out.Grid, metronome(120, 8, 0.125)...)
	if out.Song.Offset != 0 || out.Grid.Locks[0] != (Stretch{1.125, 2.125}) || !out.Grid.Beats[0].Hand {
		t.Errorf("the song is at %g, the lock %v", out.Song.Offset, out.Grid.Locks)
	}
	for i, f := range b.Starts() {
		want := f
		if i > 0 && b.startOf(i).Anchored() {
			want += 3
		}
		if got := out.Starts()[i]; got != want {
			t.Errorf("start %d is on %d, want %d", i, got, want)
		}
	}
	undoes(t, b, SlideGrid(0.125))
	wantTimes(t, do(t, out, SlideGrid(-0.125)).Grid, beatTimes(b.Grid)...)
	refused(t, b, SlideGrid(math.NaN()), "ascending")
	refused(t, b, SlideGrid(2*MaxSeconds), "ascending")
	h := NewHistory(b)
	mustDo(t, h, SlideGrid(0.01), SlideGrid(0.01))
	if !h.Undo() || h.Undo() {
		t.Error("a drag of the beats is not one step")
	}
}

func TestMoveBeat(t *testing.T) {
	b := onBeats(withSong(t, frameRate24, 120, 8), Anchor{Beat: 2, Part: 1, Of: 2}, Anchor{Beat: 3, Of: 1}, Anchor{Beat: 5, Of: 1})
	wantStarts(t, b, 0, 30, 36, 60)
	out := do(t, b, MoveBeat(3, 1.75)) // 42; halfway from beat 2 to it: 33
	wantStarts(t, out, 0, 33, 42, 60)
	if !out.Grid.Beats[3].Hand || out.Grid.Beats[2].Hand || out.Grid.Beats[4].Hand {
		t.Errorf("set by hand: %+v", out.Grid.Beats)
	}
	undoes(t, b, MoveBeat(3, 1.75))
	do(t, b, MoveBeat(0, -3))
	do(t, b, MoveBeat(7, 300))
	for _, at := range []float64{1, 1.01, 1.99, 2, 5, math.NaN()} {
		refused(t, b, MoveBeat(3, at), "beat 4 can be moved from 1.020 to 1.980")
	}
	refused(t, b, MoveBeat(8, 5), "no such beat")
	if room, err := b.Grid.BeatRoom(3); err != nil || math.Abs(room.From-1.02) > 1e-6 || math.Abs(room.To-1.98) > 1e-6 {
		t.Errorf("beat 4 has the room %v, %v", room, err)
	}
}

func TestAddBeatShiftsTheCount(t *testing.T) {
	b := onBeats(withSong(t, frameRate24, 120, 8), // beats 0 0.5 ... 3.5
		Anchor{Beat: 1, Of: 1}, Anchor{Beat: 2, Part: 1, Of: 4}, Anchor{Beat: 2, Part: 1, Of: 2}, Anchor{Beat: 2, Part: 3, Of: 4},
		Anchor{Beat: 3, Of: 1, Offset: -1}, Anchor{Beat: 6, Part: 1, Of: 3})
	out := do(t, b, AddBeat(1.25))
	wantStarts(t, out, b.Starts()...)
	wantAnchors(t, out, Anchor{Beat: 1, Of: 1}, Anchor{Beat: 2, Part: 1, Of: 2}, Anchor{Beat: 3, Of: 1}, Anchor{Beat: 3, Part: 1, Of: 2},
		Anchor{Beat: 4, Of: 1, Offset: -1}, Anchor{Beat: 7, Part: 1, Of: 3})
	if !out.Grid.Beats[3].Hand || len(out.Grid.Beats) != 9 {
		t.Errorf("beats %+v", out.Grid.Beats)
	}
	undoes(t, b, AddBeat(1.25))

	off := do(t, b, AddBeat(1.21)) // the quarters and the half are on no part of what is left
	wantStarts(t, off, b.Starts()...)
	if got := anchors(off); got != "a---aa" {
		t.Errorf("starts are %s, want a---aa", got)
	}
	for _, at := range []float64{1, 1.019, 0.981} {
		refused(t, b, AddBeat(at), "there is a beat at 1.000 seconds already")
	}
}

func TestABeatAddedWhereTheGridGoesOnIsThatBeat(t *testing.T) {
	b := withSong(t, frameRate24, 120, 8)                                                                // beat 7 at 3.5
	after := onBeats(b, Anchor{Beat: 7, Of: 1}, Anchor{Beat: 7, Part: 1, Of: 2}, Anchor{Beat: 8, Of: 1}) // 3.5 3.75 4
	wantStarts(t, do(t, after, AddBeat(4.125)), 0, 84, 92, 99)                                           // halfway 3.8125, 91.5
	wantAnchors(t, do(t, after, AddBeat(4.125)), Anchor{Beat: 7, Of: 1}, Anchor{Beat: 7, Part: 1, Of: 2}, Anchor{Beat: 8, Of: 1})
	far := do(t, after, AddBeat(5.5)) // three beats on: what hung between keeps its time
	wantStarts(t, far, after.Starts()...)
	wantAnchors(t, far, Anchor{Beat: 7, Of: 1}, Anchor{Beat: 7, Part: 1, Of: 8}, Anchor{Beat: 7, Part: 1, Of: 4})

	late := onBeats(do(t, b, SlideSong(2)), Anchor{Beat: -2, Of: 1}, Anchor{Beat: -1, Of: 1}, Anchor{Beat: 1, Of: 1}) // 1 1.5 2.5
	wantStarts(t, late, 0, 24, 36, 60)
	out := do(t, late, AddBeat(-0.4375)) // 1.5625 and as far again before it, 1.125
	wantStarts(t, out, 0, 27, 38, 60)
	wantAnchors(t, out, Anchor{Beat: -1, Of: 1}, Anchor{Beat: 0, Of: 1}, Anchor{Beat: 2, Of: 1})
	wantStarts(t, do(t, late, AddBeat(-1.5)), late.Starts()...)
}

func TestBeatsFromNothing(t *testing.T) {
	b := atFrames(0, 12, 24)
	for _, at := range []float64{1, 0.5, 1.5} {
		b = do(t, b, AddBeat(at))
	}
	wantTimes(t, b.Grid, 0.5, 1, 1.5)
	if !b.OnGrid() || anchors(b) != "--" {
		t.Errorf("starts are %s", anchors(b))
	}
	b = do(t, b, SetStart(2, Start{Anchor: Anchor{Beat: 2, Of: 1}}))
	for range 3 {
		b = do(t, b, RemoveBeat(0))
	}
	wantStarts(t, b, 0, 12, 36)
	if b.OnGrid() || anchors(b) != "--" {
		t.Errorf("without beats the starts are %s", anchors(b))
	}
}

func TestRemoveBeat(t *testing.T) {
	b := onBeats(withSong(t, frameRate24, 120, 9), // beats 0 0.5 ... 4, bars on 0 4 8
		Anchor{Beat: 1, Of: 1}, Anchor{Beat: 2, Part: 1, Of: 2}, Anchor{Beat: 3, Of: 1, Offset: 2},
		Anchor{Beat: 3, Part: 2, Of: 3}, Anchor{Beat: 4, Of: 1}, Anchor{Beat: 7, Part: 1, Of: 2})
	out := do(t, b, RemoveBeat(3))
	wantStarts(t, out, b.Starts()...)
	wantAnchors(t, out, Anchor{Beat: 1, Of: 1}, Anchor{Beat: 2, Part: 1, Of: 4}, Anchor{Beat: 2, Part: 1, Of: 2, Offset: 2},
		Anchor{Beat: 2, Part: 5, Of: 6}, Anchor{Beat: 3, Of: 1}, Anchor{Beat: 6, Part: 1, Of: 2})
	undoes(t, b, RemoveBeat(3))
	if got := bars(do(t, b, RemoveBeat(4)).Grid); !slices.Equal(got, []int{0, 4, 7}) {
		t.Errorf("with a downbeat gone bars start on %v, want the beat after it to", got)
	}
	if got := bars(do(t, b, RemoveBeat(8)).Grid); !slices.Equal(got, []int{0, 4}) {
		t.Errorf("with the last beat gone bars start on %v", got)
	}
	counted := do(t, do(t, b, SetBars(1, 3)), RemoveBeat(1))
	if got := bars(counted.Grid); !slices.Equal(got, []int{0, 1, 4, 7}) || counted.Grid.Beats[1].Metre != 3 || !counted.Grid.Beats[1].Hand {
		t.Errorf("bars counted by hand start on %v", got)
	}
	refused(t, b, RemoveBeat(9), "no such beat")

	uneven := do(t, b, MoveBeat(3, 1.55)) // no part of 1 to 2, and no half within 10 ms
	free := do(t, onBeats(uneven, Anchor{Beat: 3, Of: 1}, Anchor{Beat: 4, Of: 1}), RemoveBeat(3))
	wantAnchors(t, free, Anchor{}, Anchor{Beat: 3, Of: 1})
	wantStarts(t, free, 0, 37, 48)
	almost := do(t, b, MoveBeat(3, 1.504)) // the same frame as the half
	wantAnchors(t, do(t, onBeats(almost, Anchor{Beat: 3, Of: 1}, Anchor{Beat: 4, Of: 1}), RemoveBeat(3)),
		Anchor{Beat: 2, Part: 1, Of: 2}, Anchor{Beat: 3, Of: 1})
}

func TestRemovingTheFirstAndTheLastBeat(t *testing.T) {
	b := do(t, do(t, withSong(t, frameRate24, 120, 8), SlideSong(2)), MoveBeat(7, 3.625))
	b = onBeats(b, Anchor{Beat: -1, Of: 1}, Anchor{Beat: 0, Of: 1}, Anchor{Beat: 1, Of: 1}, Anchor{Beat: 7, Of: 1}, Anchor{Beat: 9, Of: 1})
	first := do(t, b, RemoveBeat(0))
	wantStarts(t, first, b.Starts()...)
	wantAnchors(t, first, Anchor{Beat: -2, Of: 1}, Anchor{Beat: -1, Of: 1}, Anchor{Beat: 0, Of: 1}, Anchor{Beat: 6, Of: 1}, Anchor{Beat: 8, Of: 1})
	// Without beat 7 the grid goes on at the half second before it: a quarter
	// after 3.5 lies at 3.625. Beat 9 is counted on, to 4.5.
	last := do(t, b, RemoveBeat(7))
	wantAnchors(t, last, Anchor{Beat: -1, Of: 1}, Anchor{Beat: 0, Of: 1}, Anchor{Beat: 1, Of: 1}, Anchor{Beat: 7, Part: 1, Of: 4}, Anchor{Beat: 9, Of: 1})
	wantStarts(t, last, 0, 36, 48, 60, 135, 156)
}

// On beats as uneven as played ones, what is anchored to a beat stays on it
// and nothing leaves its frame when beats come and go.
func TestBeatsComeAndGoUnderThePanels(t *testing.T) {
	rnd := rand.New(rand.NewPCG(11, 4))
	for range 300 {
		beats := []float64{rnd.Float64()}
		for range 12 {
			beats = append(beats, beats[len(beats)-1]+0.4+0.2*rnd.Float64())
		}
		b := do(t, New(), SetSong(&Song{Name: "s", Seconds: 9}, NewGrid(beats, beats[:1])))
		var at []Anchor
		for beat := 1; beat < 11; beat++ {
			of := 1 + rnd.IntN(4)
			at = append(at, reduced(beat, rnd.IntN(of), of))
		}
		b = onBeats(b, at...)
		i := 1 + rnd.IntN(11)
		e := RemoveBeat(i)
		if rnd.IntN(2) == 0 {
			e = AddBeat(beats[i-1] + (0.1+0.8*rnd.Float64())*(beats[i]-beats[i-1]))
		}
		out := do(t, b, e)
		if !slices.Equal(out.Starts(), b.Starts()) {
			t.Fatalf("%s %d on %v: starts went from %v to %v", e.Name, i, beats, b.Starts(), out.Starts())
		}
		for k := 1; k <= len(at); k++ {
			was, is := b.startOf(k).Anchor, out.startOf(k).Anchor
			stood := b.Grid.Beats[was.Beat]
			if was.Part == 0 && slices.Contains(out.Grid.Beats, stood) && (is.Of != 1 || out.Grid.Beats[is.Beat] != stood) {
				t.Fatalf("%s %d: the panel on the beat at %g is at %+v", e.Name, i, stood.Time, is)
			}
		}
	}
}
