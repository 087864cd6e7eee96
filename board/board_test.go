package board

import (
	"bytes"
	"encoding/json"
	"os"
	"path/filepath"
	"reflect"
	"testing"
)

func TestStartsGiveWayAtACoarseRate(t *testing.T) {
	b := atFrames(0, 2, 4, 5, 7, 24) // at 24 fps
	wantStarts(t, b, 0, 2, 4, 5, 7, 24)
	// At 4 fps they ask for 0, 0.33, 0.67, 0.83, 1.17 and 4.
	coarse := do(t, b, SetRate(FrameRate{4, 1}))
	wantStarts(t, coarse, 0, 1, 2, 3, 4, 5)
	wantStarts(t, do(t, coarse, SetRate(frameRate24)), 0, 2, 4, 5, 7, 24)
}

func TestAFilmStartsAtZeroWhateverThePanelSays(t *testing.T) {
	b := atFrames(5, 9, 12)
	wantStarts(t, b, 0, 9, 12)
	b.Panels[1].Start = Free(-3)
	wantStarts(t, b, 0, 1, 12)
	b.End = Free(-3)
	wantStarts(t, b, 0, 1, 2)
	wantStarts(t, New(), 0)
	b = New()
	b.End = Free(9)
	if b.Frames() != 0 {
		t.Errorf("a board without panels lasts %d frames", b.Frames())
	}
}

func TestPanelAtEveryFrame(t *testing.T) {
	b := atFrames(0, 1, 4, 9, 10, 30)
	starts := b.Starts()
	for f := Frame(-2); f < 33; f++ {
		want := -1
		for i := range b.Panels { // the one panel whose span holds f
			if b.Span(i).Contains(f) {
				want = i
			}
		}
		if (want < 0) != (f < 0 || f >= 30) {
			t.Fatalf("frame %d lies in panel %d", f, want)
		}
		if got := PanelAt(starts, f); got != want {
			t.Errorf("PanelAt(%d) = %d, want %d", f, got, want)
		}
	}
	if PanelAt(New().Starts(), 0) != -1 || PanelAt(nil, 0) != -1 {
		t.Error("an empty film shows a panel")
	}
}

// A span of n frames at step k takes ceil(n/k) photographs: 25 frames on twos
// are 13, the last held one frame.
func TestExposures(t *testing.T) {
	for _, c := range []struct {
		name   string
		starts []Frame
		film   int
		panels map[int]int // steps of their own
		want   int64
	}{
		{"a second on ones", []Frame{0, 24}, 1, nil, 24},
		{"a second on twos", []Frame{0, 24}, 2, nil, 12},
		{"a second on threes", []Frame{0, 24}, 3, nil, 8},
		{"a second on fours", []Frame{0, 24}, 4, nil, 6},
		{"25 frames on twos", []Frame{0, 25}, 2, nil, 13},
		{"two panels of 25 on twos", []Frame{0, 25, 50}, 2, nil, 26},
		{"hold shorter than the step", []Frame{0, 1, 3}, 4, nil, 2},
		{"a panel on ones in a film on twos", []Frame{0, 24, 48}, 2, map[int]int{1: 1}, 36},
		{"a panel on fours in a film on ones", []Frame{0, 24, 49}, 1, map[int]int{1: 4}, 31},
		{"no panels", []Frame{0}, 2, nil, 0},
	} {
		b := do(t, atFrames(c.starts...), SetStep(c.film))
		for i, s := range c.panels {
			b = do(t, b, SetPanelStep(one(i), s))
		}
		if got := b.Exposures(); got != c.want {
			t.Errorf("%s: %d exposures, want %d", c.name, got, c.want)
		}
	}
}

func TestPanelsAreFoundByID(t *testing.T) {
	b := do(t, do(t, atFrames(0, 5, 10, 20), moveTo(0, 2)), Delete(upTo(0, 1)))
	for i, id := range []PanelID{3, 1} {
		if got := b.Index(id); got != i {
			t.Errorf("panel with id %d is at %d, want %d", id, got, i)
		}
		if got, want := b.Number(i), []string{"1", "2"}[i]; got != want {
			t.Errorf("panel %d is called %q", i, got)
		}
	}
	if b.Index(2) != -1 {
		t.Error("a deleted panel is found")
	}
}

// small is a board that uses every field of the model.
func small(t *testing.T) Board {
	t.Helper()
	b := New()
	g := NewGrid([]float64{0.25, 0.75, 1.25, 1.75}, []float64{0.25})
	g.Tempo, g.Confidence, g.Metre = 120, 0.9, 4
	g.Onsets = []Onset{{Time: 0.25, Strength: 1}, {Time: 0.5, Strength: 0.25}}
	g.Unsure = []Stretch{{1.5, 2}}
	for _, e := range []Edit{
		SetTitle("The cup"), SetRate(FrameRate{24000, 1001}), SetStep(2),
		SetSong(&Song{Name: "tune.wav", Media: "5050", Seconds: 2, Offset: 0.5}, g),
		Insert(0, []Panel{{Picture: "abcd", Words: Words{Title: "wide"}}, {Step: 1}}, 2),
		setWords(1, Words{Title: "close", Action: "it tips over", Sound: "“clink” & hiss", Note: "glue the handle", Size: "MCU", Camera: "push in", Marks: Marks{Rig: true, Effect: true, Plate: true}}),
		Open(one(1), OpensShot), SetHeading(1, "The tip"), FixNumbers(one(1)), SetTransition(one(1), Transition{Dissolve, 12}),
		SetAspect(Aspect{239, 100}), SetSketch(one(0), "5ce7c4"),
		Place(one(0), Placement{Fit: ByHand, At: Point{0.125, -0.25}, Scale: 1.5, Turn: -7.5, Flip: true}),
		SetMove(one(0), CameraMove{From: Framing{Point{0.25, 0}, 0.5}, Spacing: SlowInOut}),
		AddLetter(one(1), Letter{Kind: Speech, Text: "“Tea?”", At: Point{-0.25, -0.25}, To: Point{0.125, 0.25}, Width: 0.5, Size: 0.0625, Bold: true, Ink: "c0392b", Back: Bare}),
		AddLetter(one(1), Letter{Kind: Arrow, At: Point{0.25, 0}, To: Point{-0.5, 0}, Bend: 0.125}),
		AddMarker(Marker{Start{Anchor: Anchor{Beat: 2, Of: 1}}, "clink"}),
		SetStart(1, Start{Anchor: Anchor{Beat: 1, Part: 1, Of: 2, Offset: -2}}),
		SetStart(2, Free(3)),
		SetBars(0, 3), MoveBeat(3, 1.8125), LockBeats(0, 0.5),
		TrimSong(0.25, 0.125), FadeSong(0.5, 0.25), SetGain(-3),
	} {
		b = do(t, b, e)
	}
	return b
}

func TestBoardJSONGolden(t *testing.T) {
	got, err := json.MarshalIndent(small(t), "", "  ")
	if err != nil {
		t.Fatal(err)
	}
	got = append(got, '\n')
	golden := filepath.Join("testdata", "board.json")
	if *update {
		if err := os.MkdirAll("testdata", 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(golden, got, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(golden)
	if err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(got, want) {
		t.Errorf("the board is written as\n%s\nwant\n%s\n(go test -run Golden -update rewrites it)", got, want)
	}
}

func TestBoardJSONReadsBack(t *testing.T) {
	golden, err := os.ReadFile(filepath.Join("testdata", "board.json"))
	if err != nil {
		t.Fatal(err)
	}
	var old Board
	if err := json.Unmarshal(golden, &old); err != nil {
		t.Fatal(err)
	}
	if !reflect.DeepEqual(old, small(t)) {
		t.Errorf("the golden file reads as %+v", old)
	}
	for name, b := range map[string]Board{"empty": New(), "small": small(t), "free": atFrames(0, 3, 8)} {
		data, err := json.Marshal(b)
		if err != nil {
			t.Fatal(err)
		}
		var back Board
		if err := json.Unmarshal(data, &back); err != nil {
			t.Fatal(err)
		}
		if !reflect.DeepEqual(back, b) {
			t.Errorf("%s reads back as\n%+v, was\n%+v", name, back, b)
		}
	}
}
