package board

import (
	"encoding/json"
	"os"
	"path/filepath"
	"reflect"
	"testing"
)

// A board read from any bytes that passes Check can be asked and edited
// without a panic, and no edit changes it.
func FuzzBoard(f *testing.F) {
	golden, err := os.ReadFile(filepath.Join("testdata", "board.json"))
	if err != nil {
		f.Fatal(err)
	}
	f.Add(golden, 1, 2, int64(30), 0.5)
	f.Add([]byte(`{"rate":{"num":1,"den":1},"step":1,"next_id":1}`), 0, 0, int64(0), 0.0)
	f.Add([]byte(`{"rate":{"num":120,"den":1},"step":12,"next_id":9,"song":{"offset":-10800},
		"grid":{"beats":[{"time":-10800},{"time":-10799.98}],"onsets":[{"time":-1},{"time":10800}]},
		"panels":[{"id":8,"start":{"time":-1}},{"id":1,"start":{"time":0,"anchor":{"beat":-1000000,"of":48,"part":47,"offset":1000000}}}],
		"end":{"time":500}}`), 1, 1, int64(-1), -10800.0)
	f.Add([]byte(`{"rate":{"num":24,"den":1},"step":1,"next_id":3,"song":{"offset":10800},
		"grid":{"beats":[{"time":0},{"time":10800}]},
		"panels":[{"id":1,"start":{"time":0}},{"id":2,"start":{"time":0,"anchor":{"beat":1000000,"of":1}}}],
		"end":{"time":0,"anchor":{"beat":-1000000,"of":1}}}`), 0, 1, int64(1)<<62, 1e300)
	f.Add([]byte(`{"rate":{"num":24,"den":1},"step":2,"next_id":4,"panels":[{"id":1,"start":{"time":0}},{"id":2,"start":{"time":1}},
		{"id":3,"start":{"time":2}}],"end":{"time":3},"moves":[{"id":1,"first":1,"last":2,"keys":[{"height":200},{"x":40}],"manner":"fall",
		"scale":6,"hits":[{"moment":1,"start":{"time":1.5}}]},{"id":7,"first":3,"last":3,"keys":[{},{"x":9}]}]}`), 1, 2, int64(30), 0.5)
	f.Add([]byte(`{"rate":{"num":24,"den":1},"step":1,"next_id":4,"panels":[{"id":1,"start":{"time":0}},{"id":2,"start":{"time":1}}],"end":{"time":3},
		"remarks":[{"id":"a","author":"Aunt","written":5,"panel":2,"after":1.5,"text":"slower"},{"id":"b","author":"Aunt","written":6,"panel":3,"was":2,"text":"x","state":"done"},
		{"id":"c","author":"Aunt","written":7,"state":"gone"}]}`), 0, 1, int64(30), 0.5)
	f.Fuzz(func(t *testing.T, data []byte, i, k int, n int64, at float64) {
		var b Board
		if len(data) > 1<<12 || json.Unmarshal(data, &b) != nil || b.Check() != nil {
			return
		}
		keepsRules(t, "read", b)
		starts := b.Starts()
		if b.Exposures() > int64(b.Frames()) || b.Exposures() < int64(len(b.Panels)) {
			t.Fatalf("%d exposures for %d panels over %d frames", b.Exposures(), len(b.Panels), b.Frames())
		}
		PanelAt(starts, Frame(n))
		if b.Song != nil {
			if l := b.Song.Level(at); !(l >= 0 && l <= 4) { // 12 dB is a factor of 3.98
				t.Fatalf("the song's level at %g seconds is %g", at, l)
			}
		}
		for _, row := range SyncTable(b, Rates) {
			if half := 500 / row.Rate.Float(); !(row.Worst <= half+1e-6 && row.Mean <= row.Worst+1e-9 && row.Beat > 0) {
				t.Fatalf("at %v fps beats are up to %g ms off, %g on average", row.Rate, row.Worst, row.Mean)
			}
		}
		b.Rate.Timecode(b.Frames())
		checkPassings(t, b)
		b.TooShortToRead(Reading{})
		for _, r := range b.PlacedRemarks() {
			if (r.At < 0) != (r.Frame < 0) || r.At >= 0 && !b.Span(r.At).Contains(r.Frame) {
				t.Fatalf("note %s of panel %d stands on frame %d", r.ID, r.At, r.Frame)
			}
		}
		if b.Frames() > 1<<16 {
			return // long films are only slower
		}
		for _, target := range Targets {
			ls := b.Landings(target)
			for j := 1; j < len(ls); j++ {
				if ls[j].Frame <= ls[j-1].Frame {
					t.Fatalf("landings on %ss run back: %d after %d", target, ls[j].Frame, ls[j-1].Frame)
				}
			}
			NearestLanding(ls, Frame(n), Frame(k))
		}
		anchor := Anchor{Beat: i, Of: k, Part: i, Offset: Frame(n)}
		beats := NewGrid([]float64{at, at + 0.5, at + 1.25}, []float64{at})
		before := deepCopy(b)
		for _, e := range []Edit{
			SetTitle(string(data)), SetRate(FrameRate{n, int64(k)}), SetRate(FrameRate{1, 1}), SetStep(k),
			setWords(i, Words{Title: "wide"}), SetPicture(one(i), "aa"), SetPanelStep(one(i), k),
			SetStart(i, Free(at)), SetStart(k, Start{Time: at, Anchor: anchor}), SetHold(one(i), Frame(n)),
			Insert(i, make([]Panel, 3), k), Insert(len(b.Panels), make([]Panel, 2), 1),
			Delete(upTo(i, k)), moveTo(i, k), Duplicate(one(i)), Split(i, Frame(n)),
			SetSong(&Song{Name: string(data), Offset: at}, beats), SetSong(nil, Grid{}), SlideSong(at),
			SetTempo(float64(k), at), SetTempo(33, at), SetClick(Click{i, k}, at),
			ScaleTempo(2, 1), ScaleTempo(1, 2), ScaleTempo(3, 2), ScaleTempo(2, 3),
			SlideGrid(at), MoveBeat(i, at), AddBeat(at), RemoveBeat(i), RemoveBeat(k), SetBars(i, k), SetBars(0, 3),
			LockBeats(at, at+1), UnlockBeats(at-1, at+1), MergeGrid(beats), MergeGrid(Grid{}),
			LayTaps(TapFit{Beats: []float64{at, at + 0.4, at + 0.9}, Tempo: 100, Follow: k%2 == 0}),
			SetAspect(Aspect{i, k}), Place(one(i), Placement{Fit: ByHand, At: Point{at, 1}, Scale: at, Turn: at}), SetSketch(one(i), "cc"),
			SetMove(one(i), CameraMove{To: Framing{Point{1, at}, at}}), AddLetter(one(i), Letter{Kind: Label, Text: string(data), Size: at, Bend: at}),
			SetLetter(i, k, NewLetter(Speech, "tea", b.Aspect)), RemoveLetter(i, k),
			TrimSong(at, 0), FadeSong(0, at), SetGain(at),
			AddObjectMove(ObjectMove{First: 1, Last: PanelID(k), Keys: []Spot{{X: at}, {Height: 1}}, Scale: at, Hits: []Hit{{i, Start{Time: at, Anchor: anchor}}}}),
			RemoveObjectMove(MoveID(i)), Paste(i, b.Panels, b.Holds(), b.MovesOf(upTo(0, len(b.Panels)))...), CloseUp(upTo(i, k)), Move(upTo(i, k), 0), Join(upTo(i, k)),
			Snap(SnapOptions{To: ToBeat, Shortest: Frame(n)}), Snap(SnapOptions{To: ToQuarter}), Snap(SnapOptions{To: ToOnset, Shortest: 1}),
		} {
			out, err := e.Apply(b)
			if !reflect.DeepEqual(b, before) {
				t.Fatalf("%s changed the board it was given", e.Name)
			}
			if err != nil {
				if !reflect.DeepEqual(out, before) {
					t.Fatalf("%s failed but returned another board", e.Name)
				}
				continue
			}
			keepsRules(t, e.Name, out)
		}
	})
}
