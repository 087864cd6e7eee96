package onset

import (
	"math"
	"slices"
	"testing"
)

func TestHalvings(t *testing.T) {
	for rate, want := range map[int]int{8000: 0, 22050: 0, 44099: 0, 44100: 1, 48000: 1, 96000: 2, 192000: 3} {
		if got := halvings(rate); got != want {
			t.Errorf("halvings(%d) = %d, want %d", rate, got, want)
		}
	}
}

func TestHalveKeepsLowAndDropsHighTones(t *testing.T) {
	for _, tt := range []struct {
		name     string
		turns    float64 // cycles a sample before halving
		from, to float64 // RMS after it
	}{
		{"a constant stays", 0, 0.999, 1.001},
		{"a low tone stays", 0.05, 0.69, 0.72},
		{"a tone of 0.8 of the new limit stays", 0.2, 0.66, 0.72},
		{"a tone of 1.25 of the new limit goes", 0.3125, 0, 0.02},
		{"the highest tone goes", 0.5, 0, 0.001},
	} {
		t.Run(tt.name, func(t *testing.T) {
			x := make([]float32, 2000)
			for i := range x {
				x[i] = float32(math.Cos(2 * math.Pi * tt.turns * float64(i)))
			}
			if got := level(newHalver().add(nil, x)[20:980]); got < tt.from || got > tt.to {
				t.Errorf("RMS = %.4f, want %v to %v", got, tt.from, tt.to)
			}
		})
	}
}

func TestHalveMovesNothing(t *testing.T) {
	x := make([]float32, 101)
	x[50] = 1
	y := newHalver().add(nil, x)
	for i, v := range y {
		if v > y[25] {
			t.Errorf("a click at sample 50 is highest at %d after halving, want 25", i)
		}
	}
}

// level returns the root mean square of x.
func level(x []float32) float64 {
	sum := 0.0
	for _, v := range x {
		sum += float64(v) * float64(v)
	}
	return math.Sqrt(sum / float64(len(x)))
}

func TestHalvingInPiecesIsHalvingAtOnce(t *testing.T) {
	x := noise(1000, 1)
	want := newHalver().add(nil, x)
	h := newHalver()
	var got []float32
	for from, size := 0, 1; from < len(x); from, size = from+size, size*3%41 {
		got = h.add(got, x[from:min(from+size, len(x))])
	}
	if len(want) != (1000-reach+1)/2 || !slices.Equal(got, want) {
		t.Errorf("%d samples in pieces, %d at once, want the same %d", len(got), len(want), (1000-reach+1)/2)
	}
}
