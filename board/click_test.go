package board

import (
	"math"
	"testing"
)

// clickTable holds the tempo of each click, frames by eighths, rounded to
// hundredths: BPM = 1440 / (frames + eighths/8). Published are 24-0 = 60 and
// 12-2 = 117.55 (film-scoring FAQ); the rest is computed from that formula.
var clickTable = map[int][8]float64{
	6:  {240.00, 235.10, 230.40, 225.88, 221.54, 217.36, 213.33, 209.45},
	8:  {180.00, 177.23, 174.55, 171.94, 169.41, 166.96, 164.57, 162.25},
	9:  {160.00, 157.81, 155.68, 153.60, 151.58, 149.61, 147.69, 145.82},
	10: {144.00, 142.22, 140.49, 138.80, 137.14, 135.53, 133.95, 132.41},
	11: {130.91, 129.44, 128.00, 126.59, 125.22, 123.87, 122.55, 121.26},
	12: {120.00, 118.76, 117.55, 116.36, 115.20, 114.06, 112.94, 111.84},
	13: {110.77, 109.71, 108.68, 107.66, 106.67, 105.69, 104.73, 103.78},
	14: {102.86, 101.95, 101.05, 100.17, 99.31, 98.46, 97.63, 96.81},
	16: {90.00, 89.30, 88.62, 87.94, 87.27, 86.62, 85.97, 85.33},
	18: {80.00, 79.45, 78.90, 78.37, 77.84, 77.32, 76.80, 76.29},
	20: {72.00, 71.55, 71.11, 70.67, 70.24, 69.82, 69.40, 68.98},
	24: {60.00, 59.69, 59.38, 59.08, 58.78, 58.48, 58.18, 57.89},
}

func TestClickTempi(t *testing.T) {
	for frames, row := range clickTable {
		for eighths, want := range row {
			c, err := ParseClick(Click{frames, eighths}.String())
			if err != nil || c != (Click{frames, eighths}) {
				t.Fatalf("%d-%d reads as %v, %v", frames, eighths, c, err)
			}
			if got := c.BPM(); math.Abs(got-want) > 0.00501 {
				t.Errorf("%v is %.4f BPM, want %.2f", c, got, want)
			}
			if got := NearestClick(c.BPM()); got != c {
				t.Errorf("the click nearest to %v's own tempo is %v", c, got)
			}
		}
	}
}

func TestNearestClick(t *testing.T) {
	for bpm, want := range map[float64]Click{128: {11, 2}, 130: {11, 1}, 60: {24, 0}, 120: {12, 0}, 90: {16, 0}} {
		if got := NearestClick(bpm); got != want {
			t.Errorf("nearest to %g BPM is %v, want %v", bpm, got, want)
		}
	}
}

func TestParseClick(t *testing.T) {
	for in, want := range map[string]Click{"12-4": {12, 4}, " 12-0 ": {12, 0}, "16": {16, 0}, "2-4": {2, 4}, "144-0": {144, 0}} {
		if got, err := ParseClick(in); err != nil || got != want {
			t.Errorf("ParseClick(%q) = %v, %v, want %v", in, got, err, want)
		}
	}
	for _, in := range []string{"", "-", "12-", "-4", "12-8", "12-4-1", "12.5", "0-0", "2-3", "144-1", "+12-4", "99999999-0", "twelve"} {
		if got, err := ParseClick(in); err == nil {
			t.Errorf("ParseClick(%q) = %v, want an error", in, got)
		}
	}
}

func TestAClickServesAFilmWithoutASong(t *testing.T) {
	b := do(t, New(), SetClick(Click{12, 4}, 0.25))
	if !b.OnGrid() || b.Song != nil {
		t.Fatal("there are no beats to lay panels on")
	}
	beats := b.Grid.Beats
	beat := 12.5 / 24
	if math.Abs(beats[0].Time-0.25) > 1e-9 || beats[len(beats)-1].Time < ClickSeconds-beat {
		t.Errorf("the click runs from %g to %g", beats[0].Time, beats[len(beats)-1].Time)
	}
	b = do(t, b, Insert(0, make([]Panel, 4), 1)) // beats 0.25 + k * 12.5/24 s: frames 18.5, 31, 43.5, 56
	wantStarts(t, b, 0, 19, 31, 44, 56)
	slower := do(t, b, SetClick(Click{24, 0}, 0.25)) // 6 + 24 k
	wantStarts(t, slower, 0, 30, 54, 78, 102)
	if anchors(slower) != "aaaa" {
		t.Errorf("starts are %s, want all anchored", anchors(slower))
	}
	undoes(t, b, SetClick(Click{24, 0}, 0.25))
	far := do(t, b, SetStart(4, Free(1500)))
	if last := do(t, far, SetTempo(60, 0)).Grid.Beats; last[len(last)-1].Time != 1500 {
		t.Errorf("the click ends at %g, want the end of the film", last[len(last)-1].Time)
	}
}
