package board

import (
	"math"
	"testing"
)

func TestShape(t *testing.T) {
	ones := make([]float32, 1000) // ten seconds at 100 a second
	for i := range ones {
		ones[i] = 1
	}
	plain := Song{Seconds: 10}
	if got := plain.Shape([][]float32{ones}, 100); &got[0][0] != &ones[0] {
		t.Error("a song as recorded is copied")
	}
	s := Song{Seconds: 10, TrimIn: 1, TrimOut: 2, FadeIn: 2, FadeOut: 1, Gain: -6}
	got := s.Shape([][]float32{ones}, 100)[0]
	half := float32(math.Pow(10, -6./20)) // -6 dB is a factor of 0.5012
	for _, tt := range []struct {
		at   int
		want float32
	}{{0, 0}, {99, 0}, {100, 0}, {200, half / 2}, {300, half}, {500, half}, {699, half}, {750, half / 2}, {799, half / 100}, {800, 0}, {999, 0}} {
		if d := got[tt.at] - tt.want; d > 1e-5 || d < -1e-5 {
			t.Errorf("sample %d = %g, want %g", tt.at, got[tt.at], tt.want)
		}
	}
	if ones[500] != 1 {
		t.Error("the samples given were changed")
	}
}
