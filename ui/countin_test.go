package ui

import (
	"math"
	"sync/atomic"
	"testing"

	"stillbeat/board"
)

// flat is a sound that is 0.1 everywhere.
type flat struct{ board.Silence }

func (flat) Read(dst [][]float32, _ int) {
	for _, ch := range dst {
		for i := range ch {
			ch[i] = 0.1
		}
	}
}

func TestACountInIsHeardBeforeTheSound(t *testing.T) {
	var c atomic.Pointer[cue]
	sound := newCued(flat{}, &loudness{}, &c)
	read := func(from, to float64) (least, most float64) {
		at, n := int(from*board.SilenceRate), int((to-from)*board.SilenceRate)
		dst := [][]float32{make([]float32, n), make([]float32, n)}
		for i := 0; i < n; i += 500 { // as the device asks
			part := [][]float32{dst[0][i:min(n, i+500)], dst[1][i:min(n, i+500)]}
			sound.Read(part, at+i)
		}
		least, most = math.Inf(1), math.Inf(-1)
		for i, v := range dst[0] {
			if v != dst[1][i] {
				t.Fatal("the channels differ")
			}
			least, most = min(least, float64(v)), max(most, float64(v))
		}
		return least, most
	}
	if lo, hi := read(-1, 2); lo != hi || math.Abs(lo-0.1) > 1e-6 {
		t.Errorf("without a cue the sound is %g to %g", lo, hi)
	}
	c.Store(&cue{1, []board.Beat{{Time: -0.5, Bar: true}, {Time: 0}, {Time: 0.5}}})
	for _, tt := range []struct {
		name     string
		from, to float64
		least    float64 // peak
		most     float64
	}{
		{"before the first", -1, -0.501, 0, 0},
		{"the bar", -0.5, -0.4, 0.4, 0.6},
		{"a beat", 0, 0.1, 0.25, 0.35},
		{"between", 0.2, 0.49, 0, 0},
		{"the sound", 1.001, 1.5, 0.0999, 0.1001},
	} {
		if _, peak := read(tt.from, tt.to); peak < tt.least || peak > tt.most {
			t.Errorf("%s: peak %.3f, want %g to %g", tt.name, peak, tt.least, tt.most)
		}
	}
	dst := [][]float32{make([]float32, 2048)}
	if allocs := testing.AllocsPerRun(10, func() { sound.Read(dst, 0) }); allocs != 0 {
		t.Errorf("Read allocates %v times", allocs)
	}
}

func TestClickLevel(t *testing.T) {
	var level loudness
	sound := newClicked(board.Silence{}, []board.Beat{{Time: 0}}, &level)
	peak := func() (p float64) {
		dst := [][]float32{make([]float32, 600)}
		sound.Read(dst, 0)
		for _, v := range dst[0] {
			p = max(p, math.Abs(float64(v)))
		}
		return p
	}
	usual := peak()
	level.Set(-6)
	if got := peak() / usual; math.Abs(got-math.Pow(10, -6./20)) > 1e-4 {
		t.Errorf("at -6 dB the click is %.4f of the usual", got)
	}
	level.Set(loudestClick)
	for _, bar := range []bool{false, true} {
		sound.beats = []board.Beat{{Time: 0, Bar: bar}}
		if peak() >= 1 {
			t.Fatal("at its loudest the click leaves full scale")
		}
	}
}

func TestThePictureStandsWhileItIsCountedIn(t *testing.T) {
	w := openWindow(t)
	bringIn(t, w, 3)
	w.keys.named["Count-in: one bar"].run()
	w.keys.named["Dot on the beats"].run()
	w.seek(24)
	w.togglePlay()
	// A bar of 120 BPM is 2 s; frame 24 is second 1, the third beat of its bar.
	if at := w.player.Position(); at < -1.2 || at > -0.7 {
		t.Errorf("the count-in begins at second %g, want -1.2", at)
	}
	w.tick(w.playing)
	if w.at != 24 || w.playing == nil {
		t.Errorf("while it is counted in the playhead is at %d", w.at)
	}
	for _, tt := range []struct {
		t    float64
		note string
		sign beatSign
		is   bool
	}{
		{-1, "count-in: 1 of 4", onBeat, true}, {-0.7, "count-in: 1 of 4", noBeat, true}, {0.01, "count-in: 3 of 4", onBar, true},
		{0.6, "count-in: 4 of 4", onBeat, true}, {0.99, "count-in: 4 of 4", noBeat, true}, {1, "", onBeat, false},
	} {
		is := w.counting(tt.t)
		if o := w.viewer.over.now; is != tt.is || is && (o.note != tt.note || o.sign != tt.sign && tt.t != -1) {
			t.Errorf("at second %g: counting %v, it says %q, sign %d", tt.t, is, o.note, o.sign)
		}
	}
	if w.cue.Load() != nil || w.viewer.over.now.note != "" {
		t.Errorf("when it is over the picture says %q", w.viewer.over.now.note)
	}
	w.togglePlay()
	w.seek(24)
	w.togglePlay()
	w.seek(10) // goes on from there at the next refresh of the screen
	w.tick(w.playing)
	if w.cue.Load() != nil || w.player.Position() < 0.4 {
		t.Errorf("after the playhead was moved the sound is at %g", w.player.Position())
	}
	w.togglePlay()
	if w.viewer.over.now.note != "" {
		t.Errorf("after stopping the picture says %q", w.viewer.over.now.note)
	}
	w.seek(24)
	w.togglePlay()
	w.togglePlay()
	if w.at != 24 || w.cue.Load() != nil {
		t.Errorf("stopped while it was counted in: at %d", w.at)
	}
	w.tap() // one who taps the beats is not counted in by them
	if at := w.player.Position(); at < 1 {
		t.Errorf("tapping begins at second %g", at)
	}
	w.stop()
	w.seek(24)
	for _, offset := range []float64{0.015, -0.015} { // frame 24 is the nearest to its beat, a little early or late
		w.do(board.SetSongSound(offset, 0, 0, 0, 0, 0))
		w.countIn(24, 1)
		if c := w.cue.Load(); len(c.beats) != 4 || math.Abs(c.beats[3].Time-0.5) > 1e-6 || math.Abs(c.until-(1-offset)) > 1e-6 {
			t.Errorf("a song at %g s: counted in by %+v", offset, c)
		}
	}
	w.cue.Store(nil)
}
