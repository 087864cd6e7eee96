package board

import (
	"math"
	"testing"
)

// The largest distance in a long song, and what keeps which limit. Distances
// are those of the rounding at these rates: half a frame at the most.
func TestSyncTable(t *testing.T) {
	const (
		acceptable = iota
		detectable
		film
		r37
		is191
		half
	)
	for _, c := range []struct {
		fps   int64
		bpm   float64
		worst float64 // ms
		keeps []int
	}{
		{24, 128, 20.83, []int{acceptable, detectable, film, r37, half}},
		{24, 130, 19.23, []int{acceptable, detectable, film, r37, half}},
		{24, 110, 18.94, []int{acceptable, detectable, film, r37, half}},
		{12, 128, 41.67, []int{acceptable, detectable, film}},
		{12, 110, 37.88, []int{acceptable, detectable, film, r37}},
		{25, 128, 20.00, []int{acceptable, detectable, film, r37, half}},
		{30, 128, 16.67, []int{acceptable, detectable, film, r37, half}},
		{8, 100, 50.00, []int{acceptable}},
		{24, 120, 0, []int{acceptable, detectable, film, r37, is191, half}},
		{8, 120, 0, []int{acceptable, detectable, film, r37, is191, half}},
	} {
		b := withSong(t, frameRate24, c.bpm, 1000)
		row := SyncTable(b, []FrameRate{{c.fps, 1}})[0]
		if math.Abs(row.Worst-c.worst) > 0.006 || row.Worst != max(row.Early, row.Late) {
			t.Errorf("%d fps, %g BPM: worst %.3f ms, early %.3f, late %.3f, want %.2f", c.fps, c.bpm, row.Worst, row.Early, row.Late, c.worst)
		}
		want := make([]bool, len(SyncLimits))
		for _, k := range c.keeps {
			want[k] = true
		}
		for k, l := range SyncLimits {
			if row.Keeps[k] != want[k] {
				t.Errorf("%d fps, %g BPM: keeps %s is %v", c.fps, c.bpm, l.Name, row.Keeps[k])
			}
		}
	}
}

func TestMeanDistanceFromTheFrames(t *testing.T) {
	// At 24 fps and 128 BPM beats are 11.25 frames apart: 0, 1/4, 1/2 and 1/4
	// of a frame off, a quarter on average.
	row := SyncTable(withSong(t, frameRate24, 128, 1000), []FrameRate{{24, 1}})[0]
	if math.Abs(row.Mean-1000.0/24/4) > 0.01 {
		t.Errorf("mean %.3f ms, want %.3f", row.Mean, 1000.0/24/4)
	}
}

func TestSyncTellsEarlyFromLate(t *testing.T) {
	b := do(t, New(), SetSong(&Song{Name: "s", Seconds: 9}, NewGrid([]float64{0.01, 1.01, 2.97}, nil)))
	row := SyncTable(b, []FrameRate{{10, 1}})[0] // frames at 0 1 3: the sound is 10 ms late twice, 30 early
	if math.Abs(row.Early-30) > 1e-6 || math.Abs(row.Late-10) > 1e-6 || math.Abs(row.Mean-50.0/3) > 1e-6 {
		t.Errorf("early %.3f, late %.3f, mean %.3f", row.Early, row.Late, row.Mean)
	}
	slid := SyncTable(do(t, b, SlideSong(-1.99)), []FrameRate{{10, 1}})[0] // one beat is left, at 0.98
	if math.Abs(slid.Early-20) > 1e-6 || slid.Late != 0 || math.Abs(slid.Mean-20) > 1e-6 {
		t.Errorf("begun before the film: early %.3f, late %.3f, mean %.3f", slid.Early, slid.Late, slid.Mean)
	}
	if SyncTable(New(), Rates) != nil {
		t.Error("there is a table without beats")
	}
	if rows := SyncTable(b, Rates); len(rows) != len(Rates) || rows[3].Rate != Rates[3] {
		t.Errorf("the rows are %+v", rows)
	}
}

// The figures of the documents, in ms, as the trade press and the abstracts
// give them; at 24 frames a second two frames are 83 ms, one is 42.
func TestSyncLimits(t *testing.T) {
	for i, want := range [][2]float64{{90, 185}, {45, 125}, {42, 83}, {40, 60}, {15, 45}, {20.8, 20.8}} {
		l := SyncLimits[i]
		if math.Abs(l.Early-want[0]) > 0.5 || math.Abs(l.Late-want[1]) > 0.5 || l.Source == "" || l.Name == "" {
			t.Errorf("%+v, want %v", l, want)
		}
	}
}

// Tempi at which beats are whole frames: 60 * fps / n.
func TestWholeFrameTempi(t *testing.T) {
	for fps, row := range map[int64]map[int64]float64{
		24: {8: 180, 9: 160, 10: 144, 11: 130.909, 12: 120, 13: 110.769, 14: 102.857, 15: 96, 16: 90, 18: 80, 20: 72, 24: 60},
		12: {4: 180, 5: 144, 6: 120, 7: 102.857, 8: 90, 9: 80, 10: 72},
		25: {10: 150, 11: 136.364, 12: 125, 13: 115.385, 14: 107.143, 15: 100},
	} {
		for n, want := range row {
			for _, bpm := range []float64{want, want + 0.4, want - 0.4} {
				got, frames := FrameRate{fps, 1}.WholeFrames(bpm)
				if math.Abs(got-want) > 0.0006 || frames != n {
					t.Errorf("%d fps, near %g BPM: %.3f at %d frames, want %.3f at %d", fps, bpm, got, frames, want, n)
				}
			}
		}
	}
	for bpm, want := range map[float64]float64{128: 1440.0 / 11, 125: 120, 600: 720, 5000: 1440, 10.01: 10} {
		if got, _ := frameRate24.WholeFrames(bpm); math.Abs(got-want) > 1e-9 {
			t.Errorf("24 fps, %g BPM: %.3f, want %.3f", bpm, got, want)
		}
	}
	row := SyncTable(withSong(t, frameRate24, 128, 100), []FrameRate{{24, 1}})[0]
	if row.Beat != 11 || math.Abs(row.Tempo-130.909) > 0.001 {
		t.Errorf("the row says %.3f at %d frames", row.Tempo, row.Beat)
	}
}
