package ui

import (
	"bytes"
	"image"
	"slices"
	"testing"

	"stillbeat/board"
	"stillbeat/board/picture"
)

// filmOf returns a board at 24 fps with a song of 120 BPM and panels that
// hold the given beats.
func filmOf(t *testing.T, beats ...int) board.Board {
	t.Helper()
	var times, downs []float64
	for i := range 41 {
		times = append(times, float64(i)*0.5)
		if i%4 == 0 {
			downs = append(downs, float64(i)*0.5)
		}
	}
	b := board.New()
	edits := []board.Edit{board.SetSong(&board.Song{Name: "song.wav", Media: "s", Seconds: 21}, board.NewGrid(times, downs))}
	for _, n := range beats {
		edits = append(edits, func() board.Edit {
			return board.Edit{Apply: func(b board.Board) (board.Board, error) {
				return board.Insert(len(b.Panels), make([]board.Panel, 1), n).Apply(b)
			}}
		}())
	}
	for _, e := range edits {
		var err error
		if b, err = e.Apply(b); err != nil {
			t.Fatal(err)
		}
	}
	return b
}

func viewOf(b board.Board) *timelineView {
	v := &timelineView{timescale: timescale{perSec: 100, width: 1000}, height: 240,
		chosen: -1, hover: -1, caret: -1,
		thumbs: newThumbs(func(picture.Shot, int, int) *image.RGBA { return nil })}
	v.setBoard(b, b.Starts(), picture.NewFilm(nil, b))
	return v
}

func TestTimelineFindsWhatIsUnderThePointer(t *testing.T) {
	// Panels of 2, 2 and 4 beats: starts at 0, 1, 2 s, end at 4 s.
	v := viewOf(filmOf(t, 2, 2, 4))
	line, panel := v.lineY(), v.panelTop()+20
	tests := []struct {
		name         string
		x, y         float64
		start, panel int
	}{
		{"on a clip", 100, line, 1, -1},
		{"a little beside a clip", 105, line, 1, -1},
		{"between clips", 150, line, -1, -1},
		{"the pin of the film's start cannot be grabbed", 0, line, -1, -1},
		{"the end of the film", 399, line, 3, -1},
		{"a panel's edge", 201, panel, 2, 2},
		{"inside a panel", 250, panel, -1, 2},
		{"the last frame of a panel", 98.9, panel, 1, 0},
		{"behind the film", 600, panel, -1, -1},
		{"the waveform has no starts", 100, v.waveTop() + 5, -1, -1},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if got := v.startAt(tt.x, tt.y); got != tt.start {
				t.Errorf("startAt(%g, %g) = %d, want %d", tt.x, tt.y, got, tt.start)
			}
			if got := v.panelAt(tt.x, tt.y); got != tt.panel {
				t.Errorf("panelAt(%g, %g) = %d, want %d", tt.x, tt.y, got, tt.panel)
			}
		})
	}
}

func TestClipKinds(t *testing.T) {
	b := filmOf(t, 2, 2, 2, 2)
	for i, s := range []board.Start{{}, board.Free(0.9), {Anchor: board.Anchor{Beat: 4, Part: 1, Of: 3}}} {
		if i == 0 {
			continue
		}
		var err error
		if b, err = board.SetStart(i, s).Apply(b); err != nil {
			t.Fatal(err)
		}
	}
	v := viewOf(b)
	for i, want := range []clipKind{clipFixed, clipFree, clipPart, clipBeat, clipBeat} {
		if got := v.clip(i); got != want {
			t.Errorf("clip(%d) = %d, want %d", i, got, want)
		}
	}
}

func TestClipsDifferInShape(t *testing.T) {
	// On the beat, off the beat and free are told apart without colour: the
	// outlines, in ink only, must differ.
	shapes := map[string]clipKind{}
	b := filmOf(t, 2, 2, 2)
	for kind, s := range map[clipKind]board.Start{
		clipBeat: {Anchor: board.Anchor{Beat: 2, Of: 1}},
		clipPart: {Anchor: board.Anchor{Beat: 2, Part: 1, Of: 2}},
		clipFree: board.Free(1),
	} {
		moved, err := board.SetStart(1, s).Apply(b)
		if err != nil {
			t.Fatal(err)
		}
		v := viewOf(moved)
		img := image.NewRGBA(image.Rect(0, 0, 40, 40))
		v.paintClip(pen{img, 1}, 1, 20, 20)
		var mask []byte
		for i := 3; i < len(img.Pix); i += 4 {
			mask = append(mask, map[bool]byte{true: '#', false: '.'}[img.Pix[i] > 127 && img.Pix[i-1] < 160])
		}
		if other, same := shapes[string(mask)]; same {
			t.Errorf("clips %d and %d have one shape", kind, other)
		}
		shapes[string(mask)] = kind
	}
}

func TestTimelinePaintsAtAnyZoom(t *testing.T) {
	b := filmOf(t, 2, 1, 1, 4, 8)
	for _, perSec := range []float64{minPerSec, 1, 40, 400, maxPerSec} {
		for _, from := range []float64{-100, 0, 3.3, 1e5} {
			v := viewOf(b)
			v.perSec, v.from = perSec, from
			img := image.NewRGBA(image.Rect(0, 0, 1000, 240))
			v.paint(img, 1)
			for i := 3; i < len(img.Pix); i += 4 {
				if img.Pix[i] != 255 {
					t.Fatalf("at %g units a second from %g s pixel %d is not painted", perSec, from, i/4)
				}
			}
		}
	}
}

func TestPlayheadFrameIsWhereItsTickIs(t *testing.T) {
	v := viewOf(filmOf(t, 4, 4))
	for _, f := range []board.Frame{0, 1, 23, 24, 95} {
		if got := v.board.Rate.At(v.sec(v.frameX(f)) + 1e-9); got != f {
			t.Errorf("frame %d is drawn where frame %d is read", f, got)
		}
	}
}

func BenchmarkTimelineThousandPanels(b *testing.B) {
	beats := make([]float64, 1500)
	for i := range beats {
		beats[i] = float64(i) * 0.4
	}
	film := board.New()
	film, _ = board.SetSong(&board.Song{Name: "s", Media: "s", Seconds: 600}, board.NewGrid(beats, nil)).Apply(film)
	film, err := board.Insert(0, make([]board.Panel, 1000), 1).Apply(film)
	if err != nil {
		b.Fatal(err)
	}
	for name, perSec := range map[string]float64{"whole film": 2.6, "ten seconds": 160} {
		b.Run(name, func(b *testing.B) {
			v := viewOf(film)
			v.width, v.perSec = 2560, perSec
			img := image.NewRGBA(image.Rect(0, 0, 2560, 240))
			b.ReportAllocs()
			for b.Loop() {
				v.paint(img, 1)
			}
		})
	}
}

func TestMarkersLeaveTheRulersFree(t *testing.T) {
	b := filmOf(t, 2, 2, 4)
	for i := range 40 {
		b.Markers = append(b.Markers, board.Marker{Start: board.Free(0.1 * float64(i)), Name: "a name"})
	}
	with, without := viewOf(b), viewOf(filmOf(t, 2, 2, 4))
	paint := func(v *timelineView) *image.RGBA {
		img := image.NewRGBA(image.Rect(0, 0, 1000, 240))
		v.paint(img, 1)
		return img
	}
	a, z := paint(with), paint(without)
	rulers := a.PixOffset(0, int(with.waveTop())-1)
	if !bytes.Equal(a.Pix[:rulers], z.Pix[:rulers]) {
		t.Error("markers are painted over the figures of the rulers")
	}
	if bytes.Equal(a.Pix, z.Pix) {
		t.Error("no marker is painted")
	}
}

func BenchmarkMarkers(b *testing.B) {
	film := board.New()
	film.Panels = make([]board.Panel, 1)
	film.End = board.Free(600)
	for i := range 2000 {
		film.Markers = append(film.Markers, board.Marker{Start: board.Free(0.3 * float64(i)), Name: "a name"})
	}
	v := viewOf(film)
	img := image.NewRGBA(image.Rect(0, 0, 1000, 240))
	for b.Loop() {
		v.paintMarkers(pen{img, 1})
	}
}

func TestBarsGoOnAfterTheMusic(t *testing.T) {
	g := filmOf(t, 2).Grid // 41 beats, a bar on every fourth from the first
	for _, tt := range []struct{ beat, bar, place int }{{0, 1, 1}, {7, 2, 4}, {40, 11, 1}, {41, 11, 2}, {44, 12, 1}, {47, 12, 4}, {399, 100, 4}} {
		if bar, place := g.Place(tt.beat); bar != tt.bar || place != tt.place {
			t.Errorf("beat %d is bar %d, beat %d; want %d, %d", tt.beat, bar, place, tt.bar, tt.place)
		}
	}
	g.Metre = 3
	if bar, place := g.Place(44); bar != 12 || place != 2 {
		t.Errorf("in threes beat 44 is bar %d, beat %d; want 12, 2", bar, place)
	}
}

// Names in scripts that the painted font lacks are written by the toolkit, in
// the place that is left for them.
func TestNamesInAnyScriptOnTheTimeline(t *testing.T) {
	b := filmOf(t, 4, 4)
	for _, e := range []board.Edit{board.Open([]int{1}, board.OpensScene), board.SetHeading(1, "杯と匙"), board.SetHeading(0, "the cup")} {
		var err error
		if b, err = e.Apply(b); err != nil {
			t.Fatal(err)
		}
	}
	b.Markers = []board.Marker{{Start: board.Free(0.5), Name: "雨"}, {Start: board.Free(1.5), Name: "rain"}, {Start: board.Free(3), Name: "дождь"},
		{Start: board.Free(3.5), Name: "شاي"}, {Start: board.Free(3.6), Name: "a marker close by"}}
	v := viewOf(b)
	p := pen{image.NewRGBA(image.Rect(0, 0, 1000, 240)), 1}
	var got []string
	for _, w := range v.words(p, nil) {
		got = append(got, w.s)
		if w.x < 0 || w.x+w.w > v.width || w.y < v.waveTop() || w.y > v.panelTop() {
			t.Errorf("%q stands at %g, %g, %g wide", w.s, w.x, w.y, w.w)
		}
	}
	if want := []string{"杯と匙", "雨"}; !slices.Equal(got, want) { // the Arabic one has no room
		t.Errorf("left to the toolkit: %q, want %q", got, want)
	}
	v.width = 150 // the scene begins beyond
	if got := v.words(p, nil); len(got) != 1 {
		t.Errorf("in a narrow window %d lines are left to the toolkit, want that of the marker", len(got))
	}
}
