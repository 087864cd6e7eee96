package onset

import (
	"math"
	"testing"
)

// The worked example of the SuperFlux definition: the greatest of three
// neighbours of 1 2 3 0 is 2 3 3 3, and 2 1 5 4 rises above it by 2 + 1.
func TestSuperFluxWorkedExample(t *testing.T) {
	bank := make([]filter, 4)
	bank[3].band = 2
	got := superFlux(bank, []float32{1, 2, 3, 0}, []float32{2, 1, 5, 4})
	if got[0]+got[2] != 3 || got[0] != 2 || got[2] != 1 {
		t.Errorf("superFlux = %v, want 2 in band 0 and 1 in band 2", got)
	}
}

func TestFilterbankCoversTheBandsInOrder(t *testing.T) {
	for _, tt := range []struct {
		name   string
		n      int
		rate   float64
		bands  int
		reach  float64 // Hz, centre of the last filter, within 6 %
		fewest int
	}{
		{"22.05 kHz", 1024, 22050, 6, 10700, 90},
		{"8 kHz", 512, 8000, 5, 3900, 60},
	} {
		t.Run(tt.name, func(t *testing.T) {
			bank := filterbank(tt.n, tt.rate)
			if len(bank) < tt.fewest {
				t.Fatalf("%d filters, want at least %d", len(bank), tt.fewest)
			}
			for i, f := range bank {
				sum := 0.0
				for _, w := range f.weights {
					if w <= 0 {
						t.Fatalf("filter %d has weight %v", i, w)
					}
					sum += float64(w)
				}
				if math.Abs(sum-1) > 1e-5 {
					t.Errorf("weights of filter %d sum to %v", i, sum)
				}
				if i > 0 && (f.band < bank[i-1].band || f.first <= bank[i-1].first) {
					t.Errorf("filter %d is out of order", i)
				}
			}
			last := bank[len(bank)-1]
			if last.band != tt.bands-1 {
				t.Errorf("last band = %d, want %d", last.band, tt.bands-1)
			}
			centre := (float64(last.first) + float64(len(last.weights)-1)/2) * tt.rate / float64(tt.n)
			if math.Abs(centre/tt.reach-1) > 0.06 {
				t.Errorf("last filter at %.0f Hz, want about %.0f", centre, tt.reach)
			}
		})
	}
}

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
			if got := rms(halve(nil, x)[20:980]); got < tt.from || got > tt.to {
				t.Errorf("RMS = %.4f, want %v to %v", got, tt.from, tt.to)
			}
		})
	}
}

func TestHalveMovesNothing(t *testing.T) {
	x := make([]float32, 101)
	x[50] = 1
	y := halve(nil, x)
	for i, v := range y {
		if v > y[25] {
			t.Errorf("a click at sample 50 is highest at %d after halving, want 25", i)
		}
	}
}
