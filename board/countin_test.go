package board

import (
	"math"
	"testing"
)

func TestCountIn(t *testing.T) {
	var times, fours, threes []float64
	for i := range 24 {
		times = append(times, 1+float64(i)*0.5)
		if i%4 == 0 {
			fours = append(fours, times[i])
		}
		if i%3 == 2 {
			threes = append(threes, times[i])
		}
	}
	in4, in3, none := NewGrid(times, fours), NewGrid(times, threes), NewGrid(times, nil)
	hole := NewGrid([]float64{0, 0.5, 1, 1.5, 9}, []float64{0})
	hole.Tempo = 120
	for _, tt := range []struct {
		name  string
		g     Grid
		t     float64
		bars  int
		n     int
		first float64 // time of the first, the last comes n-1 beats later
		pace  float64
		bar   int // index of the first that starts a bar
	}{
		{"a bar before a bar", in4, 5, 1, 4, 3, 0.5, 0},
		{"two of them", in4, 5, 2, 8, 1, 0.5, 0},
		{"from the start of the song", in4, 1, 1, 4, -1, 0.5, 0},
		{"before the first beat", in4, 0.5, 1, 4, -1.5, 0.5, 1},
		{"from the third beat of a bar", in4, 6, 1, 4, 4, 0.5, 2},
		{"between two beats", in4, 5.2, 1, 4, 3.5, 0.5, 3},
		{"a hair before a beat is on it", in4, 5 - 1e-8, 1, 4, 3, 0.5, 0},
		{"in threes", in3, 5, 1, 3, 3.5, 0.5, 0},
		{"after the last beat", in4, 13.5, 1, 4, 11.5, 0.5, 3},
		{"without bars", none, 5.2, 1, 4, 3.5, 0.5, 0},
		{"in a hole in the beats", hole, 5.2, 1, 4, 3.5, 0.5, 1},
	} {
		t.Run(tt.name, func(t *testing.T) {
			got := tt.g.CountIn(tt.t, tt.bars)
			if len(got) != tt.n {
				t.Fatalf("%d beats, want %d", len(got), tt.n)
			}
			metre := tt.n / tt.bars
			for i, b := range got {
				if want := tt.first + float64(i)*tt.pace; math.Abs(b.Time-want) > 1e-6 || b.Time >= tt.t {
					t.Errorf("beat %d at %g, want %g, before %g", i, b.Time, want, tt.t)
				}
				if want := (i-tt.bar+metre)%metre == 0; b.Bar != want {
					t.Errorf("beat %d starts a bar: %v, want %v", i, b.Bar, want)
				}
			}
		})
	}
	if got := (Grid{}).CountIn(1, 1); got != nil {
		t.Errorf("without beats: %v", got)
	}
	if got := in4.CountIn(1, 0); got != nil {
		t.Errorf("no bars: %v", got)
	}
}
