package onset

import "math"

// Borders are the limits, Hz, of the bands an Envelope keeps apart: bass drum,
// bass, chords, voices, snare and brightness.
var Borders = [...]float64{27, 120, 300, 800, 2000, 5000, 11000}

// perOctave is the number of filters to the octave.
const perOctave = 24

// filter is a triangle over the bins of a spectrum, its weights summing to 1.
type filter struct {
	first   int // first bin with a weight
	weights []float32
	band    int // of Borders
}

// filterbank returns triangles spaced perOctave to the octave over the range
// of Borders, for transforms of n samples at the given rate. Filters that
// would fall on the same bin are one; those that reach half the rate are left
// out.
func filterbank(n int, rate float64) []filter {
	lo, hi := Borders[0], Borders[len(Borders)-1]
	var centres []int // bins
	for k := 0; ; k++ {
		f := lo * math.Exp2(float64(k)/perOctave)
		bin := int(math.Round(f * float64(n) / rate))
		if f > hi*math.Exp2(1.0/perOctave) || bin >= n/2 {
			break
		}
		if bin > 0 && (len(centres) == 0 || bin > centres[len(centres)-1]) {
			centres = append(centres, bin)
		}
	}
	var bank []filter
	for i := 1; i+1 < len(centres); i++ {
		f := triangle(centres[i-1], centres[i], centres[i+1])
		hz := float64(centres[i]) * rate / float64(n)
		for f.band+2 < len(Borders) && hz >= Borders[f.band+1] {
			f.band++
		}
		bank = append(bank, f)
	}
	return bank
}

// triangle returns the filter that rises from bin left to centre and falls to
// right.
func triangle(left, centre, right int) filter {
	f := filter{first: left + 1, weights: make([]float32, right-left-1)}
	height := 2 / float32(right-left)
	for i := range f.weights {
		bin := left + 1 + i
		part := float32(bin-left) / float32(centre-left)
		if bin > centre {
			part = float32(right-bin) / float32(right-centre)
		}
		f.weights[i] = part * height
	}
	return f
}
