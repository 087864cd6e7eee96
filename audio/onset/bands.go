package onset

import "math"

// Groups are the borders, Hz, of the band groups an Envelope keeps apart:
// bass drum, bass, chords, voice, snare and brightness.
var Groups = [...]float64{27, 120, 300, 800, 2000, 5000, 11000}

// perOctave is the number of filters an octave.
const perOctave = 24

// filter is one triangle over spectrum bins, weights summing to 1.
type filter struct {
	first   int // first bin with a weight
	weights []float32
	group   int
}

// filterbank returns triangles spaced perOctave to the octave over the range
// of Groups, for spectra of n samples at the given rate. Filters that would
// fall on the same bin are one; those that reach half the rate are left out.
func filterbank(n int, rate float64) []filter {
	var centres []int // bins
	lo, hi := Groups[0], Groups[len(Groups)-1]
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
		l, c, r := centres[i-1], centres[i], centres[i+1]
		f := filter{first: l + 1, weights: make([]float32, r-l-1)}
		sum := float32(0)
		for b := l + 1; b < r; b++ {
			w := float32(b-l) / float32(c-l)
			if b > c {
				w = float32(r-b) / float32(r-c)
			}
			f.weights[b-l-1] = w
			sum += w
		}
		for j := range f.weights {
			f.weights[j] /= sum
		}
		hz := float64(c) * rate / float64(n)
		for f.group+2 < len(Groups) && hz >= Groups[f.group+1] {
			f.group++
		}
		bank = append(bank, f)
	}
	return bank
}
