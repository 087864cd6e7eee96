package onset

import (
	"math"
	"slices"
)

// Onset is one hit.
type Onset struct {
	Time     float64 // seconds
	Strength float64 // 0..1, 1 the strongest of the sound
}

// Onsets returns the onsets of the sound, in order.
func (e *Envelope) Onsets() []Onset {
	maxBefore, maxAfter := int(P.MaxB), int(P.MaxA)
	meanBefore, meanAfter := int(P.MeanB), int(P.MeanA)
	apart := P.Apart
	top := float32(0)
	for _, v := range e.Sum {
		top = max(top, v)
	}
	delta := P.Delta
	peak2 := localQuantile(e.Sum, int(P.RelW))
	var out []Onset
	for n, v := range e.Sum {
		sum, count := float32(0), 0
		peak := true
		for k := max(0, n-meanBefore); k <= min(len(e.Sum)-1, n+meanAfter); k++ {
			sum += e.Sum[k]
			count++
			if k >= n-maxBefore && k <= n+maxAfter && (e.Sum[k] > v || e.Sum[k] == v && k < n) {
				peak = false
			}
		}
		if !peak || float64(v)-P.Mul*float64(sum)/float64(count) < delta+P.Rel*float64(peak2[n]) {
			continue
		}
		t, _ := e.Refine(float64(n)/FrameRate, P.Reach)
		t = max(0, t)
		o := Onset{Time: t, Strength: math.Min(1, float64(v/top))}
		if last := len(out) - 1; last >= 0 && t-out[last].Time < apart {
			if o.Strength > out[last].Strength {
				out[last].Strength = o.Strength
			}
			continue
		}
		out = append(out, o)
	}
	return out
}

// P holds parameters under trial.
var P = struct{ MaxB, MaxA, MeanB, MeanA, Apart, Delta, Mul, Reach, Loud, Rel, RelW, Q float64 }{3, 2, 15, 5, 0.03, 1.1, 0.33, 0.02, 100, 1.6, 200, 0.5}

func localQuantile(x []float32, w int) []float32 {
	out := make([]float32, len(x))
	for i := 0; i < len(x); i += 10 {
		y := slices.Clone(x[max(0, i-w):min(len(x), i+w)])
		slices.Sort(y)
		for k := i; k < min(len(x), i+10); k++ {
			out[k] = y[int(P.Q*float64(len(y)-1))]
		}
	}
	return out
}
