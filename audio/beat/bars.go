package beat

import "math"

// The bars of a sound are the metre and place of the first downbeat under
// which its beats, seen bar by bar, are most likely. These weights were chosen
// on the same excerpts as strengths.
const (
	shortestBar, longestBar = 3, 6 // beats; two beats a bar are heard as half of four
	barStrength             = 6.0  // beats' worth of belief in strengths, see marginal
	changeWeight            = 3    // of the change of colour between beats
	fourBonus               = 0.1  // log-likelihood per frame in favour of four beats
	leastBars               = 2    // bars there must be
	leastSpread             = 0.3  // log-likelihood per frame, times beats, by which places must differ
)

// beatStrength is what the features show in one beat.
type beatStrength struct {
	sums   [][rows]float64 // [segment]
	frames []float64       // [segment]
	change float64         // of colour since the beat before; mean 1
}

// measure returns the strengths of each beat but the last.
func measure(f *features, spectra [][]float32, beats []int) []beatStrength {
	change := beatChange(spectra, beats)
	var out []beatStrength
	for i := 0; i+1 < len(beats); i++ {
		segs := segments(beats[i+1] - beats[i])
		b := beatStrength{change: change[i]}
		from := beats[i] - pulseReach
		for _, s := range segs[:len(segs)-1] { // the last belongs to the next beat
			var sum [rows]float64
			to := min(beats[i]+s.end, f.frames())
			for t := max(0, from); t < to; t++ {
				for r := range sum {
					sum[r] += float64(f[r][t])
				}
			}
			b.sums = append(b.sums, sum)
			b.frames = append(b.frames, float64(max(0, to-max(0, from))))
			from = to
		}
		out = append(out, b)
	}
	return out
}

// bars returns the number of beats in a bar and the index of the first
// downbeat, or 0 and 0 if the beats are too alike or too few to tell.
func bars(beats []beatStrength) (metre, first int) {
	best, spread := math.Inf(-1), 0.0
	for m := shortestBar; m <= longestBar && len(beats) >= leastBars*m; m++ {
		lowest, highest, at := math.Inf(1), math.Inf(-1), 0
		for p := range m {
			v := barScore(beats, m, p)
			if m == 4 {
				v += fourBonus
			}
			if v > highest {
				highest, at = v, p
			}
			lowest = math.Min(lowest, v)
		}
		if highest > best {
			best, spread, metre, first = highest, highest-lowest, m, at
		}
	}
	if spread*float64(len(beats)) < leastSpread {
		return 0, 0
	}
	return metre, first
}

// barScore returns the log-likelihood, per frame, of bars of m beats of which
// the first begins at beat first.
func barScore(beats []beatStrength, m, first int) float64 {
	pattern, change, frames := 0.0, 0.0, 0.0
	for p := range m {
		var place []beatStrength // the beats at this place of the bar
		for i := (first + p) % m; i < len(beats); i += m {
			place = append(place, beats[i])
		}
		on := beatClass(m, p)
		for s, seg := range segmentClasses {
			if s == 0 {
				seg = on
			}
			n := 0.0
			var sum [rows]float64
			for _, b := range place {
				n += b.frames[s]
				for r := range colour {
					sum[r] += b.sums[s][r]
				}
			}
			frames += n
			for r := range colour {
				pattern += marginal(n/temper, sum[r]/temper, strengths[seg][r])
			}
		}
		sum := 0.0
		for _, b := range place {
			sum += b.change
		}
		change += marginal(float64(len(place)), sum, changes[on])
	}
	return pattern/(frames/temper) + changeWeight*change/float64(len(beats))
}

// segmentClasses are the classes of the segments of a beat, the same for
// every length.
var segmentClasses = func() (c []class) {
	segs := segments(longest)
	for _, s := range segs[:len(segs)-1] {
		c = append(c, s.class)
	}
	return c
}()

// changes is the mean change of colour from the beat before, by class of the
// beat; learnt like strengths.
var changes = [otherBeat + 1]float64{downbeat: 1.22, middle: 0.95, otherBeat: 0.90}

// marginal returns the log-probability of n exponentially distributed values
// with the given sum when their mean is unknown but believed to be about mean:
// the mean has an inverse gamma distribution of shape barStrength.
func marginal(n, sum, mean float64) float64 {
	scale := (barStrength - 1) * mean
	a, _ := math.Lgamma(barStrength + n)
	b, _ := math.Lgamma(barStrength)
	return a - b + barStrength*math.Log(scale) - (barStrength+n)*math.Log(scale+sum)
}
