package onset

import (
	"math"
	"math/rand/v2"
)

// strike adds to x, sampled at rate Hz, a decaying burst of partials that
// begins at second t: the same sound at any rate, but for what a rate cannot
// hold.
func strike(x []float32, rate int, t, loud float64) {
	begin := int(math.Ceil(t * float64(rate)))
	for i := begin; i < min(len(x), begin+rate/8); i++ {
		at := float64(i)/float64(rate) - t
		v := 0.0
		for k, hz := range [...]float64{170, 440, 710, 1270, 2030, 3100} {
			v += math.Sin(2*math.Pi*hz*at + float64(k))
		}
		x[i] += float32(loud * 0.15 * v * math.Exp(-at/0.025))
	}
}

// strikes returns a sound of the given length with a strike at each time.
func strikes(rate int, seconds float64, times []float64) []float32 {
	x := make([]float32, int(seconds*float64(rate)))
	for _, t := range times {
		strike(x, rate, t, 1)
	}
	return x
}

// noise returns white noise.
func noise(n int, loud float64) []float32 {
	rng := rand.New(rand.NewPCG(7, 11))
	x := make([]float32, n)
	for i := range x {
		x[i] = float32(loud * rng.NormFloat64())
	}
	return x
}
