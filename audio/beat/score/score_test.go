package score

import (
	"math"
	"testing"
)

// steady returns n beats, step seconds apart.
func steady(from, step float64, n int) []float64 {
	beats := make([]float64, n)
	for i := range beats {
		beats[i] = from + step*float64(i)
	}
	return beats
}

func without(beats []float64, i int) []float64 {
	return append(append([]float64(nil), beats[:i]...), beats[i+1:]...)
}

// Values computed with mir_eval (first row also in madmom's tests), of two
// lists from 0 s on, nothing dropped.
func TestMeasuresAgreeWithMirEval(t *testing.T) {
	ref := steady(0, 0.5, 20)
	tests := []struct {
		name         string
		truth, found []float64
		f, cemgil, p float64
		c            Continuity
	}{
		{"irregular", steady(1, 1, 10), []float64{1.01, 2, 2.95, 4, 6, 7, 8, 9.1, 10, 11},
			0.8, 0.747100353, 0.9, Continuity{0.4, 0.8, 0.4, 0.8}},
		{"identical", ref, ref, 1, 1, 1, Continuity{1, 1, 1, 1}},
		{"40 ms late", ref, steady(0.04, 0.5, 20), 1, 0.60653066, 1, Continuity{1, 1, 1, 1}},
		{"69 ms late", ref, steady(0.069, 0.5, 20), 1, 0.22586620, 1, Continuity{1, 1, 1, 1}},
		{"71 ms late", ref, steady(0.071, 0.5, 20), 0, 0.20694287, 1, Continuity{1, 1, 1, 1}},
		{"87 ms late", ref, steady(0.087, 0.5, 20), 0, 0.09391995, 1, Continuity{1, 1, 1, 1}},
		{"88 ms late", ref, steady(0.088, 0.5, 20), 0, 0.08892162, 1, Continuity{}},
		{"double tempo", ref, steady(0, 0.25, 39), 0.67796610, 0.67796610, 0.51282051, Continuity{0, 0, 1, 1}},
		{"half tempo", ref, steady(0, 1, 10), 0.66666667, 0.66666667, 0.5, Continuity{0, 0, 1, 1}},
		{"between the beats", ref, steady(0.25, 0.5, 19), 0, 3.4e-9, 0, Continuity{0, 0, 1, 1}},
		{"one missing", ref, without(ref, 5), 0.97435897, 0.97435897, 0.95, Continuity{0.65, 0.9, 0.65, 0.9}},
		{"nothing found", ref, nil, 0, 0, 0, Continuity{}},
		{"nothing to find", nil, nil, 0, 0, 0, Continuity{}},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			check(t, "F", Events(tt.truth, tt.found, BeatWindow).F, tt.f)
			check(t, "Cemgil", Cemgil(tt.truth, tt.found), tt.cemgil)
			check(t, "PScore", PScore(tt.truth, tt.found), tt.p)
			c := Continuous(tt.truth, tt.found)
			check(t, "CMLc", c.CMLc, tt.c.CMLc)
			check(t, "CMLt", c.CMLt, tt.c.CMLt)
			check(t, "AMLc", c.AMLc, tt.c.AMLc)
			check(t, "AMLt", c.AMLt, tt.c.AMLt)
		})
	}
}

func check(t *testing.T, what string, got, want float64) {
	t.Helper()
	if math.Abs(got-want) > 1e-8 {
		t.Errorf("%s = %.9f, want %.9f", what, got, want)
	}
}

// The lists and figures of mir_eval's onset tests.
func TestOnsetsAgreeWithMirEval(t *testing.T) {
	truth := []float64{1, 1.02, 1.5, 2.0, 2.03, 2.05, 2.5, 3}
	found := []float64{0.99999999, 1.02999999, 1.45, 2.01, 2.02, 2.5, 3.025000001}
	for _, tt := range []struct {
		name   string
		window float64
		want   Hits
	}{
		{"50 ms", OnsetWindow, Hits{1, 0.875, 14.0 / 15}},
		{"25 ms", 0.025, Hits{5.0 / 7, 0.625, 2.0 / 3}},
	} {
		t.Run(tt.name, func(t *testing.T) {
			got := Events(truth, found, tt.window)
			check(t, "Precision", got.Precision, tt.want.Precision)
			check(t, "Recall", got.Recall, tt.want.Recall)
			check(t, "F", got.F, tt.want.F)
		})
	}
}

func TestMatch(t *testing.T) {
	for _, tt := range []struct {
		name         string
		truth, found []float64
		window       float64
		want         [][2]int
	}{
		// mir_eval's matching example, the found events put in order
		{"far events stay alone", []float64{1, 2, 3}, []float64{1.1, 1.9, 5, 6, 10}, 0.5, [][2]int{{0, 0}, {1, 1}}},
		{"each event once", []float64{1, 1.02}, []float64{1.01}, 0.05, [][2]int{{0, 0}}},
		{"the greedy nearest would lose one", []float64{1, 1.04}, []float64{0.97, 1.01}, 0.04, [][2]int{{0, 0}, {1, 1}}},
		{"limits count", []float64{1}, []float64{1.0625}, 0.0625, [][2]int{{0, 0}}},
		{"empty", nil, []float64{1}, 1, nil},
	} {
		t.Run(tt.name, func(t *testing.T) {
			got := Match(tt.truth, tt.found, tt.window)
			if len(got) != len(tt.want) {
				t.Fatalf("Match = %v, want %v", got, tt.want)
			}
			for i := range got {
				if got[i] != tt.want[i] {
					t.Fatalf("Match = %v, want %v", got, tt.want)
				}
			}
		})
	}
}

func TestOffsetIsSigned(t *testing.T) {
	distance, bias := Offset([]float64{1, 2, 3, 4}, []float64{1.01, 1.99, 3.02, 9}, BeatWindow)
	check(t, "distance", distance, 0.04/3)
	check(t, "bias", bias, 0.02/3)
}

func TestFromKeepsTheLimit(t *testing.T) {
	if got := From([]float64{4.9, 5, 5.1}, Settling); len(got) != 2 || got[0] != 5 {
		t.Errorf("From = %v, want 5 and 5.1", got)
	}
}
