package beat

import (
	"math"
	"testing"
)

func TestSmooth(t *testing.T) {
	heavy, light := 1e6, 1e-6
	for _, tt := range []struct {
		name               string
		seen, weight, want []float64
	}{
		{"an even row stays", []float64{0, 1, 2, 3, 4}, []float64{1, 5, 1, 2, 1}, []float64{0, 1, 2, 3, 4}},
		{"a beat of no weight is set between its neighbours", []float64{0, 1, 2.3, 3, 4},
			[]float64{heavy, heavy, light, heavy, heavy}, []float64{0, 1, 2, 3, 4}},
		{"beats of great weight stay", []float64{0, 1.2, 2, 3.3, 4},
			[]float64{heavy, heavy, heavy, heavy, heavy}, []float64{0, 1.2, 2, 3.3, 4}},
		{"two beats stay", []float64{0, 1}, []float64{1, 1}, []float64{0, 1}},
		{"none", nil, nil, nil},
	} {
		t.Run(tt.name, func(t *testing.T) {
			got := smooth(tt.seen, tt.weight)
			if len(got) != len(tt.want) {
				t.Fatalf("smooth = %v, want %v", got, tt.want)
			}
			for i := range got {
				if math.Abs(got[i]-tt.want[i]) > 1e-3 {
					t.Errorf("smooth = %.4f, want %.4f", got, tt.want)
					break
				}
			}
		})
	}
}

// At the minimum the derivative by every time is 0.
func TestSmoothFindsTheMinimum(t *testing.T) {
	seen, weight := []float64{0, 1.1, 1.9, 3.2, 3.9, 5}, []float64{1, 0.3, 2, 1, 0.5, 1}
	cost := func(x []float64) float64 {
		sum := 0.0
		for i := range x {
			sum += weight[i] * (x[i] - seen[i]) * (x[i] - seen[i])
			if i > 0 && i+1 < len(x) {
				bend := x[i-1] - 2*x[i] + x[i+1]
				sum += evenness * bend * bend
			}
		}
		return sum
	}
	x := smooth(seen, weight)
	best := cost(x)
	for i := range x {
		for _, d := range []float64{-0.01, 0.01} {
			x[i] += d
			if cost(x) <= best {
				t.Errorf("moving beat %d by %v lowers the cost", i, d)
			}
			x[i] -= d
		}
	}
}
