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
