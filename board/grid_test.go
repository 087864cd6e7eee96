package board

import (
	"math"
	"math/rand/v2"
	"slices"
	"strconv"
	"testing"
)

// Frame of beat k = k * 60 * fps / BPM, rounded to nearest, halves away from
// zero. "worst" is the largest distance of a beat from its frame in a long song.
func TestBeatsFallOnTheirFrames(t *testing.T) {
	for _, c := range []struct {
		fps    int64
		bpm    float64
		frames []Frame
		worst  float64 // ms
	}{
		{24, 128, []Frame{0, 11, 23, 34, 45, 56, 68, 79, 90}, 20.83},
		{24, 130, []Frame{0, 11, 22, 33, 44, 55, 66, 78, 89}, 19.23},
		{24, 110, []Frame{0, 13, 26, 39, 52, 65, 79, 92, 105}, 18.94},
		{12, 128, []Frame{0, 6, 11, 17, 23, 28, 34, 39, 45}, 41.67},
		{12, 110, []Frame{0, 7, 13, 20, 26, 33, 39, 46, 52}, 37.88},
		{25, 128, []Frame{0, 12, 23, 35, 47, 59, 70, 82, 94}, 20.00},
		{30, 128, []Frame{0, 14, 28, 42, 56, 70, 84, 98, 113}, 16.67},
		{8, 100, []Frame{0, 5, 10, 14, 19, 24, 29, 34, 38}, 50.00},
	} {
		t.Run(strconv.FormatInt(c.fps, 10)+" fps "+strconv.FormatFloat(c.bpm, 'f', -1, 64)+" BPM", func(t *testing.T) {
			b := withSong(t, FrameRate{c.fps, 1}, c.bpm, 64)
			for k, want := range c.frames {
				if f := b.Frame(Start{Anchor: Anchor{Beat: k, Of: 1}}); f != want {
					t.Errorf("beat %d is on frame %d, want %d", k, f, want)
				}
			}
			worst := 0.0
			for k := range 64 {
				f := b.Frame(Start{Anchor: Anchor{Beat: k, Of: 1}})
				worst = max(worst, 1000*math.Abs(b.Rate.Seconds(f)-float64(k)*60/c.bpm))
			}
			if math.Abs(worst-c.worst) > 0.006 {
				t.Errorf("worst error %.3f ms, want %.2f", worst, c.worst)
			}
			laid := do(t, b, Insert(0, make([]Panel, 8), 1))
			wantStarts(t, laid, c.frames...)
			wantStarts(t, do(t, b, Insert(0, make([]Panel, 4), 2)),
				c.frames[0], c.frames[2], c.frames[4], c.frames[6], c.frames[8])
		})
	}
}

// The drifts, seconds by which the picture is late after 64 beats, are what
// holding each panel for the rounded length of the first beat would give.
func TestHoldsOnBeatsDoNotDrift(t *testing.T) {
	rates := []int64{8, 12, 15, 24, 25, 30}
	for _, c := range []struct {
		bpm   float64
		drift [6]float64
	}{
		{60, [6]float64{0, 0, 0, 0, 0, 0}},
		{72, [6]float64{2.67, 0, 2.13, 0, 0.43, 0}},
		{75, [6]float64{-3.20, 2.13, 0, -0.53, 0, 0}},
		{80, [6]float64{0, 0, -1.07, 0, 0.64, 1.07}},
		{90, [6]float64{-2.67, 0, 0, 0, 0.85, 0}},
		{96, [6]float64{0, 2.67, -1.60, 0, 0.96, 0.53}},
		{100, [6]float64{1.60, -1.07, 0, -1.07, 0, 0}},
		{110, [6]float64{-2.91, 2.42, -0.78, -0.24, 0.93, -0.78}},
		{120, [6]float64{0, 0, 2.13, 0, 1.28, 0}},
		{125, [6]float64{1.28, 1.28, -0.85, 1.28, 0, -0.85}},
		{128, [6]float64{2.00, 2.00, -0.13, -0.67, 0.72, -0.13}},
		{130, [6]float64{2.46, 2.46, 0.33, -0.21, 1.18, 0.33}},
		{140, [6]float64{-3.43, -0.76, -1.83, -0.76, 0.73, 0.30}},
		{144, [6]float64{-2.67, 0, -1.07, 0, -1.07, 1.07}},
		{150, [6]float64{-1.60, 1.07, 0, 1.07, 0, 0}},
		{160, [6]float64{0, 2.67, 1.60, 0, -0.96, -0.53}},
		{180, [6]float64{2.67, 0, 0, 0, -0.85, 0}},
	} {
		for i, fps := range rates {
			b := do(t, withSong(t, FrameRate{fps, 1}, c.bpm, 65), Insert(0, make([]Panel, 64), 1))
			end := 64 * 60 / c.bpm
			naive := b.Rate.Seconds(64*b.Holds()[0]) - end
			if math.Abs(naive-c.drift[i]) > 0.006 {
				t.Errorf("%d fps, %g BPM: equal holds drift %.3f s, want %.2f", fps, c.bpm, naive, c.drift[i])
			}
			for k, f := range b.Starts() {
				if off := b.Rate.Seconds(f) - float64(k)*60/c.bpm; math.Abs(off) > 0.5/float64(fps)+1e-9 {
					t.Errorf("%d fps, %g BPM: beat %d is %.1f ms off", fps, c.bpm, k, 1000*off)
				}
			}
		}
	}
}

func TestGridGoesOnPastItsEnds(t *testing.T) {
	g := NewGrid([]float64{1, 1.5, 2.5}, nil) // intervals 0.5 and 1
	for _, c := range []struct {
		beat, part, of int
		want           float64
	}{
		{0, 0, 1, 1}, {1, 0, 1, 1.5}, {2, 0, 1, 2.5},
		{0, 1, 2, 1.25}, {1, 1, 4, 1.75}, {1, 2, 3, 1.5 + 2.0/3},
		{-1, 0, 1, 0.5}, {-4, 0, 1, -1}, {-1, 1, 2, 0.75},
		{3, 0, 1, 3.5}, {7, 0, 1, 7.5}, {2, 1, 2, 3}, {5, 3, 4, 6.25},
	} {
		if got := g.Time(c.beat, c.part, c.of); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("Time(%d, %d, %d) = %g, want %g", c.beat, c.part, c.of, got, c.want)
		}
	}
	for _, c := range []struct {
		at   float64
		of   int
		want Anchor
	}{
		{1, 1, Anchor{Beat: 0, Of: 1}},
		{1.24, 1, Anchor{Beat: 0, Of: 1}},
		{1.25, 1, Anchor{Beat: 0, Of: 1}}, // halfway: the earlier
		{1.26, 1, Anchor{Beat: 1, Of: 1}},
		{1.26, 2, Anchor{Beat: 0, Part: 1, Of: 2}},
		{2.1, 4, Anchor{Beat: 1, Part: 1, Of: 2}}, // 2/4 in its simplest form
		{2.3, 4, Anchor{Beat: 1, Part: 3, Of: 4}},
		{2.4, 4, Anchor{Beat: 2, Of: 1}},
		{0.5, 1, Anchor{Beat: -1, Of: 1}},
		{-1.01, 1, Anchor{Beat: -4, Of: 1}},
		{0.76, 2, Anchor{Beat: -1, Part: 1, Of: 2}},
		{3.49, 1, Anchor{Beat: 3, Of: 1}},
		{9.0, 2, Anchor{Beat: 8, Part: 1, Of: 2}},
	} {
		if got := g.Near(c.at, c.of); got != c.want {
			t.Errorf("Near(%g, %d) = %+v, want %+v", c.at, c.of, got, c.want)
		}
	}
}

func TestNearIsTheNearestOfAll(t *testing.T) {
	rnd := rand.New(rand.NewPCG(2, 2))
	for range 300 {
		beats := []float64{rnd.Float64() * 3}
		for range 1 + rnd.IntN(9) {
			beats = append(beats, beats[len(beats)-1]+0.2+0.8*rnd.Float64())
		}
		g := NewGrid(beats, nil)
		for _, of := range []int{1, 2, 3, 4, 6, 48} {
			at := beats[0] - 4 + rnd.Float64()*(beats[len(beats)-1]-beats[0]+8)
			got := g.Near(at, of)
			best := math.Inf(1)
			for beat := -25; beat < len(beats)+25; beat++ {
				for part := range of {
					best = min(best, math.Abs(g.Time(beat, part, of)-at))
				}
			}
			if d := math.Abs(g.Time(got.Beat, got.Part, got.Of) - at); d > best+1e-12 {
				t.Fatalf("Near(%v, %d) = %+v is %v away, another place %v; beats %v", at, of, got, d, best, beats)
			}
			if of%got.Of != 0 || got.Part >= got.Of || got.Part < 0 || got.Offset != 0 {
				t.Fatalf("Near(%v, %d) = %+v is no part of a beat cut in %d", at, of, got, of)
			}
			for d := 2; d <= got.Of; d++ {
				if got.Part%d == 0 && got.Of%d == 0 {
					t.Fatalf("Near(%v, %d) = %+v is not in its simplest form", at, of, got)
				}
			}
		}
	}
}

func TestNewGridMarksBars(t *testing.T) {
	g := NewGrid([]float64{0.1, 0.6, 1.1, 1.6, 2.1}, []float64{0.05, 0.6004, 1.3, 2.0995})
	var bars []int
	for i, b := range g.Beats {
		if b.Bar {
			bars = append(bars, i)
		}
	}
	if !slices.Equal(bars, []int{1, 4}) {
		t.Errorf("bars start on beats %v, want 1 and 4", bars)
	}
	for n, want := range map[int]bool{0: true, 1: true, 2: false} {
		if got := NewGrid(metronome(120, n, 0), nil).Empty(); got != want {
			t.Errorf("a grid of %d beats: Empty() = %v", n, got)
		}
	}
}
